#include "library/damage.h"

namespace cospot::library {

void report_damage(std::string_view file) {
    throw DatabaseError(std::string(file) +
                        ": the library is damaged (a row that no program wrote); restore a backup");
}

void report_damage(const Database &database) {
    report_damage(database.file().string());
}

} // namespace cospot::library
