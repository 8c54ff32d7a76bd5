// The kinds of records in the book and their fields, as data: the store's tables, the commands' options, the CSV columns and the checks all
// follow from this one list.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "book/field.h"

namespace book {

struct Kind {
  std::string name;     // as in faults, CSV files, the store: "water_tank"
  std::string plural;   // the CSV file's name: "water_tanks"
  std::string command;  // "crew": the command that handles it...
  std::string part;     // ..."tank": its part of that command; empty for the command's own kind
  std::string prefix;   // of ids given out by the store: "D" for D12
  std::string help;
  std::vector<Field> fields;
  bool corrected = false;  // a change is a correction and says why

  [[nodiscard]] const Field* field(std::string_view field_name) const;  // nullptr: there is none
};

// Every kind, those that are linked to before those that link.
[[nodiscard]] const std::vector<Kind>& kinds();

// nullptr: there is none of that name.
[[nodiscard]] const Kind* find_kind(std::string_view name);
// A kind that is known to be there.
[[nodiscard]] const Kind& kind(std::string_view name);

}  // namespace book
