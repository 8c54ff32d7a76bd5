// Records as text for people, in their units.
#pragma once
#include <optional>
#include <string>

#include "app/request.h"
#include "store/book.h"

namespace app {

// "TREE elm-1, version 3", then a line a field; instants by the wall clock of `zone` where it is known.
[[nodiscard]] std::string record_text(const book::Kind& kind, const book::Record& record, UnitSystem units, const std::optional<units::ZoneOffsets>& zone);
// One line: the id and what tells records of its kind apart.
[[nodiscard]] std::string record_line(const book::Kind& kind, const book::Record& record, UnitSystem units);
// One line an entry and field.
[[nodiscard]] std::string history_text(const book::HistoryEntry& entry);
// Everything in the book that leans on the record, by kind, at most `most` lines each.
[[nodiscard]] std::string leaning_text(store::Book& book, const book::Record& record, UnitSystem units, std::size_t most);

}  // namespace app
