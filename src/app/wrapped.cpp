#include "app/wrapped.h"

#include <algorithm>

namespace app {

std::vector<std::string> wrapped(std::string_view text, std::size_t width) {
  std::vector<std::string> lines{""};
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t space = std::min(text.find(' ', from), text.size());
    const std::string word{text.substr(from, space - from)};
    if (!lines.back().empty() && lines.back().size() + 1 + word.size() > width) lines.emplace_back();
    lines.back() += lines.back().empty() ? word : " " + word;
    from = space + 1;
  }
  return lines;
}

}  // namespace app
