// A number put into the text of a file of models/, everything else left as its writers laid it out.
#pragma once
#include <string>

namespace fit {

// `key` as params::Row has it, without the file's name: "stomata.g_ref". A value that is there already stays as it is written. Throws
// std::out_of_range where the text has no such parameter.
[[nodiscard]] std::string with_value(std::string text, const std::string& key, double value);

}  // namespace fit
