#pragma once

#include "library/connection.h"
#include "library/ids.h"
#include "shared/interruption.h"

#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

struct sqlite3_stmt;

namespace cospot::library {

/// SQLite reported a fault that is not the user's input (disk full, file damaged, ...).
class DatabaseError : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// Another process holds a lock on the file, and held it as long as it was waited for.
class DatabaseInUse : public DatabaseError {
public:
    using DatabaseError::DatabaseError;
};

class Database;

/// A prepared statement. Parameters count from 1, columns from 0, as in SQLite.
class Statement {
public:
    Statement(const Database &database, std::string_view sql);

    Statement &bind(int parameter, std::int64_t value);
    Statement &bind(int parameter, double value);
    Statement &bind(int parameter, std::string_view text);
    Statement &bind(int parameter, std::optional<double> value);
    template <IsId Id> Statement &bind(int parameter, Id id) {
        return bind(parameter, as_number(id));
    }
    template <IsId Id> Statement &bind(int parameter, std::optional<Id> id) {
        return id ? bind(parameter, *id) : bind_null(parameter);
    }
    Statement &bind_null(int parameter);
    Statement &bind_blob(int parameter, std::string_view bytes);

    /// Goes to the next row; false when there is none. Throws DatabaseError.
    [[nodiscard]] bool step();
    /// Runs a statement that returns no rows, and makes it ready for the next use.
    void run();
    /// Forgets rows and parameters.
    void reset();

    [[nodiscard]] std::int64_t integer(int column) const;
    template <IsId Id> [[nodiscard]] Id id(int column) const { return Id{integer(column)}; }
    template <IsId Id> [[nodiscard]] std::optional<Id> optional_id(int column) const {
        return is_null(column) ? std::nullopt : std::optional(id<Id>(column));
    }
    /// Throws DatabaseError where it is no finite number, which no program stores.
    [[nodiscard]] double real(int column) const;
    [[nodiscard]] std::string text(int column) const;
    /// Valid until the statement goes on or is reset.
    [[nodiscard]] std::string_view blob(int column) const;
    [[nodiscard]] bool is_null(int column) const;
    [[nodiscard]] std::optional<double> optional_real(int column) const;

private:
    void check(int code) const;

    struct Finalize {
        void operator()(sqlite3_stmt *statement) const noexcept;
    };
    sqlite3 *connection_;
    std::filesystem::path file_;
    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

/// An open SQLite file. A lock that another process holds is waited for up to a minute: readers
/// share theirs, and a change is written when nobody reads. Access::read works on read-only media
/// too, and leaves no file behind. An empty name makes a database of this process alone, gone when
/// it is closed. A statement that an interruption of the program stops throws Interrupted.
class Database {
public:
    Database(const std::filesystem::path &file, Access access);

    /// Runs one or more statements that return nothing.
    void execute(const std::string &sql);
    /// Makes `target` a copy of this database as it is at one moment, while others go on writing.
    void copy_into(Database &target) const;
    /// A new statement.
    [[nodiscard]] Statement prepare(std::string_view sql) const;
    /// A statement kept for reuse, reset; `sql` must be a string literal.
    [[nodiscard]] Statement &cached(const char *sql);
    /// The id of the row that was inserted last.
    template <IsId Id> [[nodiscard]] Id last_insert_id() const { return Id{last_row()}; }
    [[nodiscard]] const std::filesystem::path &file() const noexcept { return file_; }
    /// The command whose changes this connection writes, as it was typed; noted with each of them.
    void set_command(std::string command) { command_ = std::move(command); }
    [[nodiscard]] const std::string &command() const noexcept { return command_; }
    /// Whether the file is still the one that was opened, under its name.
    [[nodiscard]] bool is_in_place() const;
    [[nodiscard]] sqlite3 *connection() const noexcept { return connection_.get(); }

private:
    static std::uint64_t identity_of(const std::filesystem::path &file);
    [[nodiscard]] std::int64_t last_row() const;

    std::filesystem::path file_;
    std::string command_;
    Connection connection_;
    std::uint64_t identity_ = 0;
    std::map<const char *, Statement> statements_;
};

/// A write transaction: all or nothing. Without `commit` everything is rolled back.
class Transaction {
public:
    explicit Transaction(Database &database);
    ~Transaction();
    Transaction(const Transaction &) = delete;
    Transaction &operator=(const Transaction &) = delete;

    /// An interruption then waits until the change is told (`said` in shared/interruption.h).
    void commit();
    /// The same for what follows from the library's values and nobody need be told of.
    void commit_quietly();

private:
    UnfinishedWork unfinished_;
    Database *database_;
    bool open_ = true;
};

} // namespace cospot::library
