#include "library/damage.h"

namespace cospot::library {

void report_damage(const Database &database) {
    throw DatabaseError(database.file().string() +
                        ": the library is damaged (a row that no program wrote); restore a backup");
}

} // namespace cospot::library
