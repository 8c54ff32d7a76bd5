#include "fit/shipped_text.h"

#include <fmt/format.h>

#include <cstdlib>
#include <stdexcept>

namespace fit {

std::string with_value(std::string text, const std::string& key, double value) {
  std::size_t at = 0;
  const auto go_past = [&](const std::string& what) {
    at = text.find(what, at);
    if (at == std::string::npos) throw std::out_of_range(key + ": expected a parameter of the file");
    at += what.size();
  };
  for (std::size_t from = 0; from < key.size();) {
    const std::size_t dot = std::min(key.find('.', from), key.size());
    go_past('"' + key.substr(from, dot - from) + "\": {");
    from = dot + 1;
  }
  go_past("\"value\": ");
  const std::size_t end = text.find_first_not_of("+-.0123456789eE", at);
  if (std::strtod(text.substr(at, end - at).c_str(), nullptr) != value) text.replace(at, end - at, fmt::format("{}", value));
  return text;
}

}  // namespace fit
