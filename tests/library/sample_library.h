#pragma once

#include "library/changes.h"
#include "library/compounds.h"
#include "library/library_file.h"
#include "library/measurements.h"
#include "library/runs.h"
#include "library/systems.h"
#include "temporary_library.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace cospot::library {

/// An invented compound whose InChIKey starts with the letter.
inline Compound invented_compound(char letter, const std::string &name) {
    Compound compound;
    compound.inchikey = std::string(14, letter) + "-UHFFFAOYSA-N";
    compound.parent_inchikey = compound.inchikey;
    compound.smiles = "C";
    compound.name = name;
    compound.formula = "CH4";
    compound.average_mass = 16.04;
    compound.monoisotopic_mass = 16.03;
    return compound;
}

inline System invented_system(const std::string &name, const std::string &mobile_phase) {
    System system;
    system.name = name;
    system.technique = Technique::tlc;
    system.mobile_phase = mobile_phase;
    return system;
}

/// A library of compounds A, B, ... that tests fill with a line each.
struct SampleLibrary {
    TemporaryFolder folder;
    std::filesystem::path file = folder / "sample.db";
    Database database;

    SampleLibrary() : database(created(file)) {}

    CompoundId compound(char letter, const std::string &name, const std::string &cas = "") {
        Transaction transaction(database);
        Compound compound = invented_compound(letter, name);
        compound.cas = cas;
        const auto id = add_compound(database, compound, begin_change(database, "test", ""));
        transaction.commit();
        return id;
    }

    SystemId system(const std::string &name, const std::string &mobile_phase) {
        return system(invented_system(name, mobile_phase));
    }

    SystemId system(const System &system) {
        Transaction transaction(database);
        const auto eluent = system.mobile_phase.empty() ? std::vector<SolventPart>{}
                                                        : parse_eluent(system.mobile_phase, {});
        const auto id = add_system(database, system, eluent, begin_change(database, "test", ""));
        transaction.commit();
        return id;
    }

    /// Stores one value as one change; returns its id.
    MeasurementId value(CompoundId compound, SystemId system, double value,
                        const std::string &run = "") {
        Transaction transaction(database);
        const auto change = begin_change(database, "test", "");
        Measurement measurement;
        measurement.compound = compound;
        measurement.system = system;
        measurement.run = find_or_add_run(database, system, {run, "", "", ""}, change);
        measurement.value = value;
        const auto id = insert_measurement(database, measurement, change);
        transaction.commit();
        return id;
    }

    /// The only number that the query gives.
    [[nodiscard]] std::int64_t number(const std::string &sql) const {
        Statement query = database.prepare(sql);
        return query.step() ? query.integer(0) : -1;
    }

private:
    static Database created(const std::filesystem::path &file) {
        create_library(file);
        return open_library(file, Access::write);
    }
};

/// Copies a library as a power cut leaves it in the middle of a change: a part of the change is in
/// the file, and what it overwrote in the journal beside it.
inline void copy_cut_off(const std::filesystem::path &library, const std::string &change,
                         const std::filesystem::path &copy) {
    Database writer(library, Access::write);
    writer.execute("PRAGMA cache_size = 1; BEGIN IMMEDIATE"); // no page waits for the end
    writer.execute("CREATE TABLE many AS WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 "
                   "FROM n WHERE i < 5000) SELECT i, hex(randomblob(50)) AS text FROM n");
    writer.execute(change);
    std::filesystem::copy(library, copy);
    std::filesystem::copy(library.string() + "-journal", copy.string() + "-journal");
}

/// An empty library as a program of format 1 left it.
inline void create_format_1(const std::filesystem::path &file) {
    Database database(file, Access::create);
    {
        Transaction transaction(database);
        database.execute("PRAGMA application_id = " + std::to_string(kApplicationId));
        apply_migrations(database, 0, 1);
        transaction.commit();
    }
    database.execute("PRAGMA journal_mode = WAL");
}

/// The same with a compound and a value.
inline void create_filled_format_1(const std::filesystem::path &file) {
    create_format_1(file);
    Database(file, Access::write)
        .execute("INSERT INTO change VALUES (1, '2006-01-31T09:30:00Z', 'anna', 'learn', '');"
                 "INSERT INTO compound VALUES (1, 'AAAAAAAAAAAAAA-UHFFFAOYSA-N', "
                 "'AAAAAAAAAAAAAA-UHFFFAOYSA-N', 'C', 'alpha', NULL, 'CH4', 16.04, 16.03, 0, 1);"
                 "INSERT INTO system (id, name, technique, change_id) VALUES (1, 'silica', 'tlc', "
                 "1);"
                 "INSERT INTO run (id, system_id, change_id) VALUES (1, 1, 1);"
                 "INSERT INTO measurement (compound_id, system_id, run_id, quantity, value, "
                 "change_id) VALUES (1, 1, 1, 'Rf', 0.25, 1)");
}

} // namespace cospot::library
