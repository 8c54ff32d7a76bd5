// What two fields of one record must not say together: a last day before the first, valves shut before they were opened.
#pragma once
#include <vector>

#include "book/field.h"
#include "book/record.h"

namespace book {

// A fault for each pair that cannot be, in the name of the later field.
[[nodiscard]] std::vector<units::Fault> nonsense(const Record& record);

// What is wrong with an own field of the owner's: its kind must be there, its name be of small letters, digits and _.
[[nodiscard]] std::vector<units::Fault> nonsense_in_own_field(const Record& record);

// The field that an own field describes; its name begins "own_".
[[nodiscard]] Field described_by(const Record& own_field);

}  // namespace book
