#pragma once

#include <gtest/gtest.h>

#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <sstream>
#include <string>
#include <vector>

namespace cospot {

/// netCDF files that ncgen makes out of text, and what ncdump reads in them: both are programs of
/// the library that defines the format.
class MadeNetcdf {
public:
    /// `kind` as ncgen -k names it: "classic", "64-bit offset", "cdf5", "netCDF-4".
    MadeNetcdf(const std::string &text, const std::string &kind) {
        const char *name = ::testing::UnitTest::GetInstance()->current_test_info()->name();
        const std::string stem = ::testing::TempDir() + "cospot_" + std::to_string(getpid()) + "_" +
                                 std::string(name).substr(0, std::string(name).find('/'));
        path_ = stem + ".nc";
        std::ofstream(stem + ".cdl") << text;
        const std::string command =
            std::string(COSPOT_NCGEN) + " -k '" + kind + "' -o '" + path_ + "' '" + stem + ".cdl'";
        is_made_ = std::system(command.c_str()) == 0;
        std::filesystem::remove(stem + ".cdl");
    }
    MadeNetcdf(const MadeNetcdf &) = delete;
    MadeNetcdf &operator=(const MadeNetcdf &) = delete;
    ~MadeNetcdf() { std::filesystem::remove(path_); }

    [[nodiscard]] bool is_made() const { return is_made_; }
    [[nodiscard]] const std::string &path() const { return path_; }

    [[nodiscard]] std::string bytes() const {
        std::ifstream in(path_, std::ios::binary);
        return {std::istreambuf_iterator<char>(in), {}};
    }

    /// The numbers of a variable as ncdump prints them with all digits.
    [[nodiscard]] std::vector<double> dumped(const std::string &variable) const {
        const std::string command =
            std::string(COSPOT_NCDUMP) + " -p 9,17 -v " + variable + " '" + path_ + "'";
        const std::unique_ptr<FILE, int (*)(FILE *)> pipe(popen(command.c_str(), "r"), &pclose);
        std::string text;
        char block[4096];
        while (pipe && fgets(block, sizeof block, pipe.get()) != nullptr) {
            text += block;
        }
        const std::size_t data = text.find("data:");
        const std::size_t first = text.find(" " + variable + " =", data);
        std::vector<double> values;
        if (data == std::string::npos || first == std::string::npos) {
            return values;
        }
        const std::size_t at = text.find('=', first) + 1;
        const std::string list = text.substr(at, text.find(';', at) - at);
        std::istringstream in(list);
        for (std::string field; std::getline(in, field, ',');) {
            values.push_back(std::strtod(field.c_str(), nullptr)); // a type may stand behind it
        }
        return values;
    }

private:
    std::string path_;
    bool is_made_ = false;
};

} // namespace cospot
