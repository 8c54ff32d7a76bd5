#include <fmt/format.h>

#include <algorithm>

#include "app/facts.h"
#include "app/wrap.h"

namespace app {
namespace {

constexpr std::size_t text_width = 58;

std::string source_name(const params::Fact& fact) { return fact.published ? fact.source : "common practice, no published source"; }

}  // namespace

std::string facts_csv(const std::vector<FactLine>& lines) {
  std::string csv = "fact,source,bar_lowest,bar_highest,unit,model,inside\n";
  for (const FactLine& line : lines)
    csv += fmt::format("{},{},{},{},{},{},{}\n", line.fact.key, line.fact.source, line.fact.lowest, line.fact.highest, line.fact.unit,
                       line.model, line.inside ? "yes" : "no");
  return csv;
}

std::string facts_text(const std::vector<FactLine>& lines) {
  std::string text =
      fmt::format("{:<{}}  {:>13}  {:<6}  {:>7}  {}\n", "FACT, and who says so", text_width, "BAR", "UNIT", "MODEL", "INSIDE");
  for (const FactLine& line : lines) {
    const std::string words = wrap(line.fact.text, "", text_width), first = words.substr(0, words.find('\n'));
    const std::string bar = fmt::format("{:.4g} to {:.4g}", line.fact.lowest, line.fact.highest);
    text += fmt::format("{:<{}}  {:>13}  {:<6}  {:>7.4g}  {}\n", first, text_width, bar, line.fact.unit == "1" ? "" : line.fact.unit,
                        line.model, line.inside ? "yes" : "NO");
    text += words.substr(first.size() + 1);
    text += fmt::format("    {}\n", source_name(line.fact));
  }
  const auto inside = std::count_if(lines.begin(), lines.end(), [](const FactLine& line) { return line.inside; });
  return text + fmt::format("{} of {} inside\n", inside, lines.size());
}

}  // namespace app
