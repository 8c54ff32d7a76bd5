// Refused edits and conflicts as lines for people.
#pragma once
#include <functional>
#include <string>

#include "app/outcome.h"
#include "store/book.h"

namespace app {

// Tells the faults of every refusal; `where` gives the place of an edit ("trees.csv: row 14: "), which goes before the field.
void tell_refusals(const store::Applied& applied, const std::function<std::string(std::size_t edit)>& where, Outcome& outcome);

// "tree elm-1: --seen: '3': expected 4: Ann changed it at 2026-07-06T10:30Z; nothing was written", then a line a field with both versions.
[[nodiscard]] std::vector<std::string> conflict_lines(const std::string& kind, const std::string& id, const book::Conflict& conflict);

}  // namespace app
