// A field of a record: what may stand in it, and its one canonical text. Store, CSV, commands and history all hold fields as that text.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/fault.h"

namespace book {

enum class FieldType {
  text,     // one line, at most 500 bytes
  note,     // many lines, at most 2 MB
  whole,    // a whole number within limits
  number,   // a number within limits
  day,      // YYYY-MM-DD
  clock,    // HH:MM, wall clock at the site
  instant,  // YYYY-MM-DDTHH:MMZ
  yes_no,
  choice,  // one of `choices`
  link     // the id of a record of kind `links_to`
};

struct Field {
  std::string name;  // ends in its unit where it has one: dbh_cm
  FieldType type = FieldType::text;
  std::string help;
  double lowest = 0.0, highest = 0.0;
  std::vector<std::string> choices = {};
  std::string links_to = {};
  bool required = false;
  bool personal = false;  // goes when a client is erased

  [[nodiscard]] Field must() const;         // the same, required
  [[nodiscard]] Field of_a_person() const;  // the same, personal
};

[[nodiscard]] Field text_field(std::string name, std::string help);
[[nodiscard]] Field note_field(std::string name, std::string help);
[[nodiscard]] Field whole_field(std::string name, double lowest, double highest, std::string help);
[[nodiscard]] Field number_field(std::string name, double lowest, double highest, std::string help);
[[nodiscard]] Field day_field(std::string name, std::string help);
[[nodiscard]] Field clock_field(std::string name, std::string help);
[[nodiscard]] Field instant_field(std::string name, std::string help);
[[nodiscard]] Field yes_no_field(std::string name, std::string help);
[[nodiscard]] Field choice_field(std::string name, std::vector<std::string> choices, std::string help);
[[nodiscard]] Field link_field(std::string name, std::string kind, std::string help);

inline constexpr std::size_t longest_text = 500, longest_note = 2'000'000, longest_id = 64;

// `written` as it is kept: blanks around it gone, line ends LF, numbers in their shortest digits. Empty stays empty: nothing is known.
// Fault with `field.name` in `where`, the value as found and what was expected: NUL and other control characters, broken UTF-8, too long,
// not of the type, outside the limits.
[[nodiscard]] units::Result<std::string> canonical(const Field& field, std::string_view written);

// What `field` takes, for help and faults: "a number from 2 to 400".
[[nodiscard]] std::string takes(const Field& field);

// An id: 1..64 bytes of UTF-8 on one line, no blank at either end, no control character. Fault in the name of `what`.
[[nodiscard]] units::Result<std::string> canonical_id(std::string_view what, std::string_view written);

// The shortest digits that read back as the same number.
[[nodiscard]] std::string shortest(double value);

}  // namespace book
