#pragma once

#include <fmt/format.h>

#include "shared/csv.h"

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace cospot {

using Words = std::vector<std::string>;

/// Names that would like to be more than names, in a page, a spreadsheet or a terminal.
inline const Words kHostileNames{"<script>alert(1)</script>",
                                 "\"><img src=x onerror=alert(1)>",
                                 "</script><script>alert(1)</script>",
                                 "' onmouseover='alert(1)",
                                 "--><svg/onload=alert(1)><!--",
                                 "&amp;",
                                 "&#60;b&#62;",
                                 "two\nlines",
                                 "tab\tinside",
                                 "\x1B[31mred\x1B[0m\x07",
                                 "\x1B]0;title\x1B\\",
                                 "\xC2\x9B"
                                 "31mred",
                                 "left\xE2\x80\xAEright",
                                 "isolate\xE2\x81\xA6x",
                                 "=cmd|'/c calc'!A1",
                                 "+1",
                                 "-1",
                                 "@SUM(1)",
                                 "'=1+1",
                                 "a\n=2",
                                 "%s%n{}{0}",
                                 "javascript:alert(1)"};

/// An invented laboratory, whose every text is one of the names.
class Laboratory {
public:
    Laboratory(std::filesystem::path folder, Words names)
        : folder_(std::move(folder)), names_(std::move(names)) {
        std::filesystem::create_directory(folder_);
        for (const char *system : {"1", "2", "3", "4"}) {
            systems_.push_back(names_.at(systems_.size()) + system);
        }
    }

    [[nodiscard]] const Words &names() const { return names_; }
    [[nodiscard]] std::string path(const std::string &name) const {
        return (folder_ / name).string();
    }

    [[nodiscard]] Words learning() const {
        std::string systems =
            "system,technique,stationary_phase,mobile_phase,scale,programme,note\n";
        const std::string note = csv_field(names_[1]);
        systems += csv_field(systems_[0]) + ",tlc,silica gel,hexane:ethyl acetate 4:1,,," + note +
                   "\n" + csv_field(systems_[1]) + ",tlc,silica gel,hexane:ethyl acetate 1:1,,," +
                   note + "\n" + csv_field(systems_[2]) +
                   ",hplc,C18,water:acetonitrile 1:1,,isocratic," + note + "\n" +
                   csv_field(systems_[3]) +
                   ",gc,dimethylsilicone,helium,n-alkane,\"50 C, 5 C/min\"," + note + "\n";
        return {"learn", "--accept", "--systems", file("systems.csv", systems),
                file("values.csv", values())};
    }

    /// Every command that may write a report, without it.
    [[nodiscard]] std::vector<Words> reporting() const {
        const std::string label = csv_field(names_[0]);
        const std::string other = csv_field(names_[2]);
        const std::string plate =
            file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                              "1," +
                                  csv_field(names_[4]) + ",1,15.1,72,standard\n2," + label +
                                  ",1,20.5,72,sample\n2," + label + ",2,44,72,sample\n");
        const std::string table =
            file("long.csv", "sample,feature,system,quantity,value\n" + label + "," + other + "," +
                                 csv_field(systems_[0]) + ",Rf,0.31\n");
        const std::string peaks =
            file("<b>peaks =1.csv", "peak,tR,area,width_half\n1,2.51,800,0.05\n2,4.0,5,0.06\n");
        const std::string gas = file("gas.csv", "peak,tR,area\n1,5.5,20\n2,9.4,30\n3,13.2,10\n");
        const std::string ladder = file("ladder.csv", "carbon,tR\n5,3\n7,7\n9,11\n11,15\n13,19\n");
        const std::string readings =
            file("readings.csv", "compound,fraction,k\n" + label + ",0.3,6\n" + label + ",0.5,2\n" +
                                     other + ",0.3,7\n" + other + ",0.5,2.6\n");
        const std::string sample =
            file("sample.csv", "compound,Rf,role,amount_mg\n" + label + ",0.5,impurity,60\n" +
                                   other + ",0.3,target,300\n");
        const std::string fractions =
            file("fractions.csv", "fraction,Rf,intensity,plate\n1,0.5,40," + label + "\n2,0.5,20," +
                                      label + "\n2,0.3,30," + label + "\n3,0.3,90," + label + "\n");
        return {{"identify", plate, "--system", systems_[0], "--explain"},
                {"identify", table, "--explain"},
                {"identify", peaks, "--system", systems_[2]},
                {"purity", peaks, "--system", systems_[2], "--declared", names_[2]},
                {"predict", names_[0], names_[1], names_[7], names_[9], "CCCCCCC=O"},
                {"pool", fractions, "--system", systems_[0]},
                {"column", sample, "--eluent", "hexane:ethyl acetate 4:1"},
                {"column", "--system", systems_[0], "--compounds", names_[0] + "," + names_[16]},
                {"resolve", readings},
                {"distil", gas, "--ladder", ladder, "--system", systems_[3]},
                {"advise", table},
                {"advise", "--all"},
                {"prove", "--dry-run"},
                {"audit"}};
    }

    /// Every other command that prints names.
    [[nodiscard]] std::vector<Words> printing() const {
        std::vector<Words> commands{{"list"}, {"list", "systems"}, {"show", systems_[0]}};
        for (const std::string &name : names_) {
            commands.push_back({"show", "--all", "--", name}); // "-1" is no option
        }
        return commands;
    }

    /// Writes a file and returns its path.
    [[nodiscard]] std::string file(const std::string &name, const std::string &content) const {
        std::ofstream(folder_ / name, std::ios::binary) << content;
        return path(name);
    }

private:
    [[nodiscard]] std::string values() const {
        std::string rows = "compound,smiles,system,quantity,value,run,date,operator,instrument,"
                           "source,note\n";
        for (std::size_t i = 0; i < names_.size(); ++i) {
            for (std::size_t run = 1; run <= 3; ++run) {
                const std::string who = csv_field(names_[i]) + "," + std::string(i + 1, 'C') + "O,";
                const std::string &text = names_[(i + run) % names_.size()];
                const std::string rest = fmt::format(
                    ",{},2025-0{}-01,{},{},{},{}\n", csv_field(names_[run] + std::to_string(run)),
                    run, csv_field(text), csv_field(text), csv_field(text), csv_field(text));
                const double x = static_cast<double>(i + 1);
                const double r = static_cast<double>(run);
                const double odd = i == 0 && run == 3 ? 0.5 : 0.0; // something for the audit
                rows += who + csv_field(systems_[0]) +
                        fmt::format(",Rf,{:.4f}", 0.042 * x + 0.001 * r + odd) + rest;
                rows += who + csv_field(systems_[1]) +
                        fmt::format(",Rf,{:.4f}", 0.3 + 0.03 * x + 0.001 * r) + rest;
                rows += who + csv_field(systems_[2]) +
                        fmt::format(",tR,{:.3f}", 1.0 + 0.5 * x + 0.003 * r) + rest;
                rows += who + csv_field(systems_[3]) +
                        fmt::format(",RI,{:.1f}", 400 + 100 * x + 0.4 * r) + rest;
            }
        }
        return rows;
    }

    std::filesystem::path folder_;
    Words names_;
    Words systems_;
};

} // namespace cospot
