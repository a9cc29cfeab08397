// Measures how fast a library learns and answers, against plain SQLite in the same run.
//   bench_library COSPOT FOLDER ROWS COMPOUNDS SYSTEMS
// COSPOT is the program to measure, FOLDER a scratch folder. Prints one JSON object.

#include "bench_process.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <stdexcept>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;
using cospot::bench::Measured;
using cospot::bench::run;
using cospot::bench::seconds_of;

struct Row {
    std::size_t compound;
    std::size_t system;
    std::size_t run;
    double value;
};

/// A chain of 1 to 8 carbons with one of five ends; all different for index 0 to 39.
std::string chain(std::size_t index) {
    static const char *const ends[] = {"", "F", "Cl", "Br", "O"};
    return std::string(index / 5 + 1, 'C') + ends[index % 5];
}

/// Different structures: three different chains on one of three cores.
std::vector<std::string> structures(std::size_t count) {
    static const char *const cores[] = {"N", "OC", "FC"};
    std::vector<std::string> smiles;
    for (const char *core : cores) {
        for (std::size_t a = 0; a < 40; ++a) {
            for (std::size_t b = a + 1; b < 40; ++b) {
                for (std::size_t c = b + 1; c < 40; ++c) {
                    if (smiles.size() == count) {
                        return smiles;
                    }
                    smiles.push_back(
                        fmt::format("{}({})({}){}", core, chain(a), chain(b), chain(c)));
                }
            }
        }
    }
    throw std::runtime_error("too many compounds");
}

/// Compounds lie evenly between 500 and 2500 index units, the closer the more they are.
std::vector<Row> rows_of(std::size_t rows, std::size_t compounds, std::size_t systems) {
    std::vector<Row> result;
    result.reserve(rows);
    for (std::size_t i = 0; i < rows; ++i) {
        const std::size_t compound = i % compounds;
        const std::size_t system = (i / compounds) % systems;
        const auto noise = static_cast<double>((i * 2654435761U) % 1000) / 1000.0;
        const double place = static_cast<double>(compound) / static_cast<double>(compounds);
        result.push_back({compound, system, i / 1000, 500.0 + 2000.0 * place + noise});
    }
    return result;
}

void write_tables(const fs::path &folder, const std::vector<Row> &rows,
                  const std::vector<std::string> &smiles, std::size_t systems) {
    std::ofstream table(folder / "systems.csv");
    table << "system,technique,scale\n";
    for (std::size_t i = 0; i < systems; ++i) {
        table << "gc" << i << ",gc,n-alkane\n";
    }
    std::ofstream out(folder / "values.csv");
    out << "compound,smiles,system,quantity,value,run\n";
    for (const Row &row : rows) {
        out << fmt::format("compound {},{},gc{},RI,{},r{}\n", row.compound, smiles[row.compound],
                           row.system, row.value, row.run);
    }
}

void execute(sqlite3 *db, const char *sql) {
    if (sqlite3_exec(db, sql, nullptr, nullptr, nullptr) != SQLITE_OK) {
        throw std::runtime_error(sqlite3_errmsg(db));
    }
}

/// The baseline: the rows of the measurement table inserted through the SQLite API into the same
/// tables with the same indices, its compounds, systems and runs being there already.
double bare_insert(const fs::path &learned, const fs::path &bare) {
    fs::copy_file(learned, bare);
    sqlite3 *db = nullptr;
    if (sqlite3_open(bare.c_str(), &db) != SQLITE_OK) {
        throw std::runtime_error("cannot open the baseline");
    }
    struct Stored {
        long long compound, system, run;
        double value;
    };
    std::vector<Stored> stored;
    sqlite3_stmt *read = nullptr;
    sqlite3_prepare_v2(db, "SELECT compound_id, system_id, run_id, value FROM measurement", -1,
                       &read, nullptr);
    while (sqlite3_step(read) == SQLITE_ROW) {
        stored.push_back({sqlite3_column_int64(read, 0), sqlite3_column_int64(read, 1),
                          sqlite3_column_int64(read, 2), sqlite3_column_double(read, 3)});
    }
    sqlite3_finalize(read);
    // Plain inserts keep no fits up to date.
    execute(db, "DROP TRIGGER fit_of_new_value; DROP TRIGGER prediction_of_new_value");
    execute(db, "DELETE FROM measurement; DELETE FROM fit");
    execute(db, "VACUUM");
    const double seconds = seconds_of([&] {
        execute(db, "BEGIN IMMEDIATE");
        sqlite3_stmt *insert = nullptr;
        sqlite3_prepare_v2(
            db,
            "INSERT INTO measurement (compound_id, system_id, run_id, quantity, "
            "value, source, note, change_id) VALUES (?1, ?2, ?3, 'RI', ?4, '', '', 1)",
            -1, &insert, nullptr);
        for (const Stored &row : stored) {
            sqlite3_bind_int64(insert, 1, row.compound);
            sqlite3_bind_int64(insert, 2, row.system);
            sqlite3_bind_int64(insert, 3, row.run);
            sqlite3_bind_double(insert, 4, row.value);
            if (sqlite3_step(insert) != SQLITE_DONE) {
                throw std::runtime_error(sqlite3_errmsg(db));
            }
            sqlite3_reset(insert);
        }
        sqlite3_finalize(insert);
        execute(db, "COMMIT");
    });
    sqlite3_close(db);
    return seconds;
}

} // namespace

int main(int argc, char **argv) {
    if (argc != 6) {
        std::cerr << "usage: bench_library COSPOT FOLDER ROWS COMPOUNDS SYSTEMS\n";
        return 2;
    }
    try {
        const std::string program = argv[1];
        const fs::path folder = argv[2];
        const std::size_t row_count = std::strtoul(argv[3], nullptr, 10);
        const std::size_t compounds = std::strtoul(argv[4], nullptr, 10);
        const std::size_t systems = std::strtoul(argv[5], nullptr, 10);
        const std::vector<Row> rows = rows_of(row_count, compounds, systems);
        write_tables(folder, rows, structures(compounds), systems);

        const std::string library = (folder / "learned.db").string();
        const std::vector<std::string> cospot{program, "--library", library};
        const auto call = [&](std::vector<std::string> arguments) {
            arguments.insert(arguments.begin(), cospot.begin(), cospot.end());
            return run(arguments);
        };
        call({"init"});
        const Measured learn = call({"learn", "--systems", (folder / "systems.csv").string(),
                                     (folder / "values.csv").string()});
        const double bare = bare_insert(library, folder / "bare.db");
        const Measured show = call({"show", "compound 7"});
        const Measured list = call({"list", "--mass", "150:150.2"});
        fmt::print("{{\"rows\": {}, \"compounds\": {}, \"systems\": {}, \"learn_s\": {:.2f}, "
                   "\"bare_insert_s\": {:.2f}, \"ratio\": {:.2f}, \"learn_peak_MB\": {:.0f}, "
                   "\"show_ms\": {:.1f}, \"list_mass_ms\": {:.1f}}}\n",
                   row_count, compounds, systems, learn.seconds, bare, learn.seconds / bare,
                   static_cast<double>(learn.peak_kib) / 1024.0, 1000 * show.seconds,
                   1000 * list.seconds);
    } catch (const std::exception &error) {
        std::cerr << "bench_library: " << error.what() << '\n';
        return 1;
    }
    return 0;
}
