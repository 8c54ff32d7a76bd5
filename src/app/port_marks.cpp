#include "app/port_marks.h"

#include <fmt/format.h>

#include <algorithm>

namespace app {
namespace {

constexpr double size_mm = 0.95;
constexpr std::size_t shapes = 5;

}  // namespace

PortMarks::PortMarks(const book::FlareRecord& record) {
  for (const book::OldPort& old : record.old_ports)
    if (std::ranges::find(years_, old.year) == years_.end()) years_.push_back(old.year);
  std::ranges::sort(years_, [](const auto& a, const auto& b) { return a.value_or(0) > b.value_or(0); });
}

std::size_t PortMarks::treatment(const book::OldPort& old) const {
  return static_cast<std::size_t>(std::ranges::find(years_, old.year) - years_.begin());
}

std::string PortMarks::name(std::size_t treatment) const {
  return years_[treatment] ? fmt::format("{}", *years_[treatment]) : "year unknown";
}

void PortMarks::old_port(svg::Drawing& drawing, svg::Point at, std::size_t treatment, bool leaked) {
  const double s = size_mm;
  const svg::Ink ink{treatment < shapes ? "#fff" : "#000", 0.3, "#000", {}};
  switch (treatment % shapes) {
    case 0:
      drawing.polygon({{at.x, at.y - 1.2 * s}, {at.x + 1.1 * s, at.y + 0.8 * s}, {at.x - 1.1 * s, at.y + 0.8 * s}}, ink);
      break;
    case 1:
      drawing.polygon({{at.x - 0.8 * s, at.y - 0.8 * s},
                       {at.x + 0.8 * s, at.y - 0.8 * s},
                       {at.x + 0.8 * s, at.y + 0.8 * s},
                       {at.x - 0.8 * s, at.y + 0.8 * s}},
                      ink);
      break;
    case 2:
      drawing.line({at.x - 0.8 * s, at.y - 0.8 * s}, {at.x + 0.8 * s, at.y + 0.8 * s}, {"none", 0.4, "#000", {}});
      drawing.line({at.x - 0.8 * s, at.y + 0.8 * s}, {at.x + 0.8 * s, at.y - 0.8 * s}, {"none", 0.4, "#000", {}});
      break;
    case 3:
      drawing.polygon({{at.x, at.y - 1.2 * s}, {at.x + 0.8 * s, at.y}, {at.x, at.y + 1.2 * s}, {at.x - 0.8 * s, at.y}}, ink);
      break;
    default:
      drawing.polygon({{at.x, at.y + 1.2 * s}, {at.x + 1.1 * s, at.y - 0.8 * s}, {at.x - 1.1 * s, at.y - 0.8 * s}}, ink);
  }
  if (leaked) drawing.circle(at, 1.75 * s, {"none", 0.25, "#000", {}});
}

void PortMarks::new_port(svg::Drawing& drawing, svg::Point at) { drawing.circle(at, 1.15, {"#000", 0.0, "#000", {}}); }

}  // namespace app
