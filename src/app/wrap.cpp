#include "app/wrap.h"

namespace app {

std::string wrap(std::string_view text, std::string_view indent, std::size_t columns) {
  std::string out, line{indent};
  bool empty = true;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    if (!empty && line.size() + 1 + word.size() > columns) {
      out += line + "\n";
      line = indent;
      empty = true;
    }
    if (!empty) line += ' ';
    line += word;
    empty = false;
  }
  return out + line + "\n";
}

}  // namespace app
