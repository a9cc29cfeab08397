// Delimiter-separated text: what is read, written and read again reads the same.
#include "fuzzed.h"
#include "shared/csv.h"
#include "shared/text.h"

#include <vector>

using namespace cospot;

namespace {

using Records = std::vector<std::vector<std::string>>;

Records records_of(const std::string &text) {
    std::istringstream in(text);
    CsvReader reader(in, fuzz::kFile);
    Records records;
    while (reader.next()) {
        records.push_back(reader.fields());
    }
    return records;
}

/// As a table is exported, each field guarded against spreadsheets.
std::string written(const Records &records) {
    std::string text = "a,b\n"; // a header, which settles the delimiter
    for (const auto &record : records) {
        for (std::size_t i = 0; i < record.size(); ++i) {
            text += (i > 0 ? "," : "") + csv_field(record[i]);
        }
        text += '\n';
    }
    return text;
}

bool reads_as(const std::string &field, const std::string &expected) {
    return without_guard(field) == expected;
}

} // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    (void)fuzz::accepts_file([&] {
        const Records records = records_of(fuzz::text_of(data, size));
        const Records again = records_of(written(records));
        fuzz::require(again.size() == records.size() + 1, "no record is lost or made");
        for (std::size_t i = 0; i < records.size(); ++i) {
            fuzz::require(again[i + 1].size() == records[i].size(), "no field is lost or made");
            for (std::size_t j = 0; j < records[i].size(); ++j) {
                fuzz::require(reads_as(again[i + 1][j], records[i][j]), "a field reads the same");
            }
        }
    });
    return 0;
}
