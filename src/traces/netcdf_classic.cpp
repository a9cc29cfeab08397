#include "traces/netcdf_classic.h"

#include "shared/text.h"
#include "traces/netcdf_header.h"

#include <fmt/format.h>

#include <algorithm>
#include <istream>
#include <utility>

namespace cospot {

namespace {

template <typename Named>
const Named *found_by_name(const std::vector<Named> &list, std::string_view name) {
    const auto found = std::find_if(list.begin(), list.end(),
                                    [&](const Named &each) { return each.name == name; });
    return found == list.end() ? nullptr : &*found;
}

std::uint64_t size_of_stream(std::istream &in) {
    in.clear();
    in.seekg(0, std::ios::end);
    const std::streamoff size = in.tellg();
    return size < 0 ? 0 : static_cast<std::uint64_t>(size);
}

} // namespace

const NetcdfAttribute *NetcdfVariable::attribute(std::string_view attribute_name) const {
    return found_by_name(attributes, attribute_name);
}

NetcdfClassic::NetcdfClassic(std::istream &in, std::string file)
    : in_(&in), file_(std::move(file)), size_(size_of_stream(in)) {
    const std::string start =
        bytes_at(0, std::min<std::uint64_t>(size_, kLongestNetcdfHeader), {file_, 0, "header"});
    NetcdfHeader header = read_netcdf_header(start, size_, file_);
    attributes_ = std::move(header.attributes);
    variables_ = std::move(header.variables);
    record_size_ = header.record_size;
}

const NetcdfAttribute *NetcdfClassic::attribute(std::string_view name) const {
    return found_by_name(attributes_, name);
}

const NetcdfVariable *NetcdfClassic::variable(std::string_view name) const {
    return found_by_name(variables_, name);
}

std::uint64_t NetcdfClassic::count(const NetcdfVariable &variable) {
    std::uint64_t product = 1;
    for (const std::uint64_t length : variable.shape) {
        product = bounded_product(product, length);
    }
    return product;
}

std::vector<double> NetcdfClassic::numbers(const NetcdfVariable &variable, std::size_t most) {
    if (variable.type == NetcdfType::text) {
        throw InputError({file_, 0, printable(variable.name)}, "text", "numbers");
    }
    const std::string bytes = bytes_of(variable, most);
    const std::size_t width = netcdf_width(variable.type);
    std::vector<double> values(bytes.size() / width);
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] = netcdf_number(variable.type, bytes.data() + i * width);
    }
    return values;
}

std::vector<std::string> NetcdfClassic::texts(const NetcdfVariable &variable, std::size_t most) {
    if (variable.type != NetcdfType::text) {
        throw InputError({file_, 0, printable(variable.name)}, "numbers", "text");
    }
    const std::string bytes = bytes_of(variable, most);
    const std::size_t width = variable.shape.empty() ? 1 : variable.shape.back();
    std::vector<std::string> texts;
    for (std::size_t at = 0; at < bytes.size(); at += width) {
        texts.push_back(bytes.substr(at, width));
    }
    return texts;
}

/// All data of a variable, its records put together.
std::string NetcdfClassic::bytes_of(const NetcdfVariable &variable, std::size_t most) {
    const Where where{file_, 0, printable(variable.name)};
    const std::uint64_t values = count(variable);
    if (values > most) {
        throw InputError(where, fmt::format("{} values", values), fmt::format("at most {}", most));
    }
    const std::uint64_t size = values * netcdf_width(variable.type);
    const std::uint64_t records = variable.is_of_records ? variable.shape.front() : 1;
    if (size == 0) {
        return {};
    }
    const std::uint64_t piece = size / records;
    if (records == 1 || piece == record_size_) {
        return bytes_at(variable.begin, size, where);
    }
    // Between its pieces lie those of other variables: as many records at once as fill a block.
    constexpr std::uint64_t block = 1U << 20U;
    const std::uint64_t most_at_once = std::max<std::uint64_t>(1, block / record_size_);
    std::string bytes;
    for (std::uint64_t record = 0; record < records;) {
        const std::uint64_t at_once = std::min(most_at_once, records - record);
        const std::uint64_t skipped = bounded_product(record, record_size_);
        if (skipped > size_ || variable.begin > size_ - skipped) {
            (void)bytes_at(size_, 1, where);
        }
        const std::string part =
            bytes_at(variable.begin + skipped, (at_once - 1) * record_size_ + piece, where);
        for (std::uint64_t i = 0; i < at_once; ++i) {
            bytes.append(part, i * record_size_, piece);
        }
        record += at_once;
    }
    return bytes;
}

std::string NetcdfClassic::bytes_at(std::uint64_t at, std::uint64_t size, const Where &where) {
    if (at > size_ || size > size_ - at) {
        throw InputError(where, "data behind the end of the file", "a whole netCDF file");
    }
    std::string bytes(size, '\0');
    in_->clear();
    in_->seekg(static_cast<std::streamoff>(at));
    if (!in_->read(bytes.data(), static_cast<std::streamsize>(size))) {
        throw InputError(where, "data that cannot be read", "a whole netCDF file");
    }
    return bytes;
}

} // namespace cospot
