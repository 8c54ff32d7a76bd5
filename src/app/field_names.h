// What a field may be called at the faces: by its own name, and in US units or as a girth by another ("dbh_in", "girth_cm" for dbh_cm).
#pragma once
#include <string>
#include <vector>

#include "app/request.h"
#include "book/kind.h"
#include "book/record.h"

namespace app {

struct OtherName {
  std::string name;
  double factor;  // the field's number over the one given under this name
};
[[nodiscard]] std::vector<OtherName> other_names(const book::Field& field);

// `written` with every other name turned into the field's own. Faults, in the name as written: one field given twice, no number.
[[nodiscard]] units::Result<book::Fields> in_own_names(const book::Kind& kind, const book::Fields& written);

// "dose", "66 gal": a field as people read it.
[[nodiscard]] std::string label(const book::Field& field);
[[nodiscard]] std::string shown(const book::Field& field, const std::string& value, UnitSystem units);

}  // namespace app
