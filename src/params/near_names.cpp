#include "params/near_names.h"

#include <algorithm>
#include <cctype>
#include <numeric>
#include <utility>

namespace params {
namespace {

// Levenshtein (1966): insertions, deletions and substitutions that turn one text into the other.
std::size_t edits(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = std::exchange(row[0], i + 1);
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t substituted = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({substituted, row[j] + 1, diagonal + 1});
    }
  }
  return row.back();
}

bool holds_words(const std::string& name, const std::string& text) {
  return !text.empty() && (" " + name + " ").find(" " + text + " ") != std::string::npos;
}

}  // namespace

std::string plain_name(std::string_view text) {
  std::string plain;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool blank = c == '_' || c == '-' || std::isspace(byte) != 0;
    if (!blank)
      plain += static_cast<char>(std::tolower(byte));
    else if (!plain.empty() && plain.back() != ' ')
      plain += ' ';
  }
  if (!plain.empty() && plain.back() == ' ') plain.pop_back();
  return plain;
}

std::vector<std::string> near_names(std::string_view text, const std::vector<std::string>& names, std::size_t count) {
  const std::string wanted = plain_name(text);
  std::vector<std::size_t> distances;
  for (const std::string& name : names) distances.push_back(edits(wanted, plain_name(name)));
  // Long names share most of their letters with each other: what is much farther than the nearest was not meant.
  const std::size_t nearest = distances.empty() ? 0 : *std::min_element(distances.begin(), distances.end());
  const std::size_t limit = std::min(std::max<std::size_t>(1, wanted.size() / 3), nearest + 1);
  std::vector<std::pair<std::size_t, std::string>> near;
  for (std::size_t i = 0; i < names.size(); ++i)
    if (distances[i] <= limit || holds_words(plain_name(names[i]), wanted)) near.emplace_back(distances[i], names[i]);
  std::stable_sort(near.begin(), near.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> result;
  for (std::size_t i = 0; i < std::min(count, near.size()); ++i) result.push_back(near[i].second);
  return result;
}

std::string one_of(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? " or " : ", ";
    text += "'" + names[i] + "'";
  }
  return text;
}

}  // namespace params
