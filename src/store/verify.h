// Whether a book is sound. Only src/store includes this.
#pragma once
#include <string>
#include <vector>

#include "store/database.h"

namespace store {

// See Book::check. Stops after a hundred lines.
[[nodiscard]] std::vector<std::string> troubles_of(Database& database);

// The same within a transaction that is open already, the database's own check left out.
[[nodiscard]] std::vector<std::string> troubles_within(Database& database);

}  // namespace store
