#include "book/flare_of_tree.h"

#include <algorithm>

#include "units/text.h"

namespace book {
namespace {

constexpr double longest_flare_cm = 3000.0;

std::optional<double> place(std::string_view text) {
  const auto number = units::parse_number(units::trimmed(text));
  return number && *number >= 0.0 && *number <= longest_flare_cm ? number : std::nullopt;
}

}  // namespace

units::Result<std::vector<std::pair<double, double>>> stretches(const std::string& field, const std::string& written) {
  std::vector<std::pair<double, double>> all;
  std::string_view rest = written;
  while (!units::trimmed(rest).empty()) {
    const auto comma = rest.find(',');
    const std::string_view one = rest.substr(0, comma);
    const auto dash = one.find('-');
    const auto from = place(one.substr(0, dash));
    const auto to = dash == std::string_view::npos ? std::nullopt : place(one.substr(dash + 1));
    if (!from || !to)
      return units::fault(field, units::for_message(one), "expected stretches in cm clockwise from the tag, such as 120-160, 400-20");
    all.emplace_back(*from, *to);
    rest.remove_prefix(comma == std::string_view::npos ? rest.size() : comma + 1);
  }
  return all;
}

FlareRecord flare_of_tree(const Record& tree, const std::vector<Record>& treatments, const std::vector<Record>& ports) {
  FlareRecord flare{tree.number("flare_cm"), {}, {}, {}};
  if (const auto bad = stretches("bad_sectors", tree.text("bad_sectors")))
    for (const auto& [from, to] : *bad) flare.bad.push_back({from, to, std::nullopt});
  if (const auto ridges = stretches("ridges", tree.text("ridges")))
    for (const auto& [from, to] : *ridges) {
      const double width = to >= from ? to - from : flare.flare_cm ? to + *flare.flare_cm - from : 0.0;
      flare.ridges.push_back({from + width / 2.0, width / 2.0, std::nullopt});
    }
  for (const Record& port : ports) {
    const auto treatment = std::ranges::find(treatments, port.text("treatment"), &Record::id);
    if (treatment == treatments.end()) continue;
    OldPort old{port.number("clockwise_cm").value_or(0.0), port.number("height_cm"), treatment->number("flare_cm"), std::nullopt,
                port.yes("leaked")};
    if (const auto day = treatment->day("day")) old.year = static_cast<int>(std::chrono::year_month_day{*day}.year());
    flare.old_ports.push_back(old);
  }
  return flare;
}

}  // namespace book
