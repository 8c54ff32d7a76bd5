// Names that a person may have meant: for typing errors in keys, species and soils.
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace params {

// Lower case, with `_` and `-` and runs of blanks as one space, none at the ends.
[[nodiscard]] std::string plain_name(std::string_view text);

// At most `count` of `names`, nearest first (edits of plain names, and names that hold `text` as whole words); far ones are left out.
[[nodiscard]] std::vector<std::string> near_names(std::string_view text, const std::vector<std::string>& names, std::size_t count = 3);

// "'a', 'b' or 'c'".
[[nodiscard]] std::string one_of(const std::vector<std::string>& names);

}  // namespace params
