#include "book/kind.h"

#include <algorithm>
#include <stdexcept>

#include "book/kinds.h"

namespace book {

const Field* Kind::field(std::string_view field_name) const {
  const auto found = std::ranges::find(fields, field_name, &Field::name);
  return found == fields.end() ? nullptr : &*found;
}

const std::vector<Kind>& kinds() {
  static const std::vector<Kind> all = [] {
    std::vector<Kind> list;
    for (const auto& some : {kinds_of_people(), kinds_of_places(), kinds_of_work()}) list.insert(list.end(), some.begin(), some.end());
    return list;
  }();
  return all;
}

const Kind* find_kind(std::string_view name) {
  const auto found = std::ranges::find(kinds(), name, &Kind::name);
  return found == kinds().end() ? nullptr : &*found;
}

const Kind& kind(std::string_view name) {
  if (const Kind* found = find_kind(name)) return *found;
  throw std::logic_error("no kind of records is called " + std::string{name});
}

}  // namespace book
