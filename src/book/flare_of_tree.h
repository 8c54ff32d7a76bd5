// What the book knows of a tree's flare: its old ports from every treatment, its bad wood and ridges as the tree's record has them.
#pragma once
#include <utility>
#include <vector>

#include "book/flare_record.h"
#include "book/record.h"

namespace book {

// "120-160, 400-20": stretches of bark in cm clockwise from the tag, from one end to the other. Fault in the name of `field`: anything
// else.
[[nodiscard]] units::Result<std::vector<std::pair<double, double>>> stretches(const std::string& field, const std::string& written);

// `treatments` and `ports` of this tree; a port counts if its treatment is among them. A ridge runs from end to end of its stretch.
[[nodiscard]] FlareRecord flare_of_tree(const Record& tree, const std::vector<Record>& treatments, const std::vector<Record>& ports);

}  // namespace book
