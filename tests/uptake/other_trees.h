// Tables of trees and soils other than the elm on loam that the numbers were fitted to: docs/model/uptake.md, "Other trees and soils".
#pragma once
#include <string>

namespace other_trees {

// `document` with the tables written anew between its two markers; unchanged where it has none.
[[nodiscard]] std::string with_tables(std::string document);

}  // namespace other_trees
