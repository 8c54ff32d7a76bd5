#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/port_drawing.h"
#include "app/port_marks.h"
#include "units/us_customary.h"

namespace app {
namespace {

using svg::Anchor;
using svg::Point;

constexpr double width_mm = 186.0, left_mm = 11.0, right_mm = 3.0;
constexpr double row_width_mm = width_mm - left_mm - right_mm;
constexpr double bark_mm = 20.0;                  // height of a row's picture of the bark
constexpr double above_mm = 7.5, below_mm = 8.0;  // numbers over it, tape under it
constexpr double row_mm = above_mm + bark_mm + below_mm;
constexpr double legend_mm = 9.0;

// Rows of up to six feet; a veteran's flare in three, so that it shares its sheet of paper with what else belongs there.
double rows_of(double flare_cm) { return flare_cm <= 720.0 ? std::min(3.0, std::ceil(flare_cm / 180.0)) : std::ceil(flare_cm / 240.0); }

class Strip {
 public:
  Strip(const PortPlan& plan, UnitSystem units)
      : plan_(plan),
        units_(units),
        marks_(plan.record),
        rows_(rows_of(plan.flare_cm)),
        row_cm_(plan.flare_cm / rows_),
        drawing_("strip", "The flare unrolled, clockwise from the tag", width_mm, rows_ * row_mm + legend_mm) {
    low_cm_ = std::min(0.0, plan.rules.height_low_cm);
    high_cm_ = plan.rules.height_high_cm;
    for (const book::OldPort& old : plan.record.old_ports) {
      low_cm_ = std::min(low_cm_, old.height_cm.value_or(low_cm_));
      high_cm_ = std::max(high_cm_, old.height_cm.value_or(high_cm_));
    }
    low_cm_ -= 1.5;
    high_cm_ += 1.5;
  }

  std::string svg() {
    bad();
    for (double row = 0.0; row < rows_; ++row) frame(row);
    ridges();
    tag();
    old_ports();
    new_ports();
    legend();
    return drawing_.finished();
  }

 private:
  [[nodiscard]] double row_of(double cm) const { return std::min(rows_ - 1.0, std::floor(cm / row_cm_)); }
  [[nodiscard]] double x(double cm, double row) const { return left_mm + row_width_mm * (cm - row * row_cm_) / row_cm_; }
  [[nodiscard]] static double top(double row) { return row * row_mm + above_mm; }
  [[nodiscard]] static double foot(double row) { return top(row) + bark_mm; }
  [[nodiscard]] double y(double height_cm, double row) const { return foot(row) - bark_mm * (height_cm - low_cm_) / (high_cm_ - low_cm_); }

  // `draw(from x, to x, row)` for each part of a stretch that lies in a row; a stretch may run over the tag.
  template <class Draw>
  void by_row(double from_cm, double length_cm, Draw draw) const {
    for (const double turn : {0.0, plan_.flare_cm})
      for (double row = 0.0; row < rows_; ++row) {
        const double from = std::max(from_cm - turn, row * row_cm_), to = std::min(from_cm - turn + length_cm, (row + 1.0) * row_cm_);
        if (to > from) draw(x(from, row), x(to, row), row);
      }
  }

  void bad() {
    for (const book::BadStretch& bad : plan_.record.bad) {
      const double from = book::as_of_now(bad.from_cm, bad.flare_cm, plan_.flare_cm),
                   to = book::as_of_now(bad.to_cm, bad.flare_cm, plan_.flare_cm);
      const double length = to - from + (to < from ? plan_.flare_cm : 0.0);
      by_row(from, std::max(length, 0.5), [&](double left, double right, double row) {
        drawing_.polygon({{left, top(row)}, {right, top(row)}, {right, foot(row)}, {left, foot(row)}}, {drawing_.hatch(), 0.3, "#000", {}});
      });
    }
  }

  void ridges() {
    for (const book::Ridge& ridge : plan_.record.ridges) {
      const double grown = plan_.flare_cm / ridge.flare_cm.value_or(plan_.flare_cm);
      const double half = ridge.half_width_cm * grown;
      const double from = book::as_of_now(ridge.crest_cm * grown - half, {}, plan_.flare_cm);
      by_row(from, std::min(2.0 * half, plan_.flare_cm), [&](double left, double right, double row) {
        drawing_.line({left, foot(row)}, {right, foot(row)}, {"none", 1.3, "#000", {}});
      });
    }
  }

  void frame(double row) {
    const double left = left_mm, right = left_mm + row_width_mm;
    drawing_.polygon({{left, top(row)}, {right, top(row)}, {right, foot(row)}, {left, foot(row)}}, {"none", 0.2, "#000", {}});
    const double step = units_ == UnitSystem::us ? 4.0 * units::us::centimetres_per_inch : 10.0;
    for (double height = std::ceil(low_cm_ / step) * step; height < high_cm_; height += step) {
      const bool tag_line = std::abs(height) < 1e-9;
      drawing_.line({left, y(height, row)}, {right, y(height, row)}, {"none", tag_line ? 0.3 : 0.12, "#000", tag_line ? "" : "0.4 1.2"});
      drawing_.text({left - 1.0, y(height, row) + 0.8}, 2.3, fmt::format("{} {}", words::on_tape(height, units_), words::tape_unit(units_)),
                    Anchor::end);
    }
    tape(row);
  }

  void tape(double row) {
    const bool us = units_ == UnitSystem::us;
    const double step = us ? units::us::centimetres_per_inch : 2.0;
    const int named = us ? 6 : 5;  // steps between written figures
    const auto first = static_cast<long>(std::ceil(row * row_cm_ / step - 1e-9));
    const auto last = static_cast<long>(std::floor((row + 1.0) * row_cm_ / step + 1e-9));
    for (long tick = first; tick <= last; ++tick) {
      const bool long_tick = tick % named == 0;
      const double at = x(static_cast<double>(tick) * step, row);
      drawing_.line({at, foot(row)}, {at, foot(row) + (long_tick ? 2.6 : 1.4)}, {"none", long_tick ? 0.25 : 0.15, "#000", {}});
      if (long_tick) drawing_.text({at, foot(row) + 5.2}, 2.5, fmt::format("{}", us ? tick : 2 * tick));
    }
    drawing_.text({left_mm - 3.0, foot(row) + 5.2}, 2.3, us ? "inches" : "cm", Anchor::end);
  }

  void tag() {
    for (const auto& [cm, row] : {std::pair{0.0, 0.0}, {plan_.flare_cm, rows_ - 1.0}}) {
      const double at = x(cm, row);
      drawing_.line({at, top(row) - 4.5}, {at, foot(row) + 2.6}, {"none", 0.6, "#000", {}});
      drawing_.text({at, top(row) - 5.2}, 2.3, "TAG", Anchor::middle, true);
    }
  }

  void old_ports() {
    for (const book::OldPort& old : plan_.record.old_ports) {
      const double cm = book::as_of_now(old.clockwise_cm, old.flare_cm, plan_.flare_cm), row = row_of(cm);
      // Of unknown height: at the foot, with a line up through all heights it may have.
      const double height = old.height_cm.value_or(low_cm_ + 2.7);
      if (!old.height_cm) drawing_.line({x(cm, row), top(row)}, {x(cm, row), foot(row)}, {"none", 0.2, "#000", "0.8 0.8"});
      PortMarks::old_port(drawing_, {x(cm, row), y(height, row)}, marks_.treatment(old), old.leaked);
    }
  }

  void new_ports() {
    const auto& places = plan_.places.places;
    for (std::size_t i = 0; i < places.size(); ++i) {
      const double row = row_of(places[i].clockwise_cm), at = x(places[i].clockwise_cm, row);
      drawing_.line({at, top(row) - 1.2}, {at, y(places[i].height_cm, row)}, {"none", 0.2, "#000", {}});
      PortMarks::new_port(drawing_, {at, y(places[i].height_cm, row)});
      drawing_.text({at, top(row) - 1.8}, 2.9, fmt::format("{}{}", i + 1, book::too_near(places[i]) ? "!" : ""), Anchor::middle, true);
    }
  }

  // Draws a mark and writes `what` behind it, on the next line where this one is full.
  template <class Draw>
  void entry(Point& at, const std::string& what, Draw draw) {
    const double room = 6.5 + 1.45 * static_cast<double>(what.size());
    if (at.x + room > width_mm) at = {left_mm + 1.0, at.y + 4.2};
    draw(at);
    drawing_.text({at.x + 2.4, at.y + 0.9}, 2.6, what, Anchor::start);
    at.x += room;
  }

  void legend() {
    Point at{left_mm + 1.0, rows_ * row_mm + 2.0};
    entry(at, "new port, numbered", [&](Point p) { PortMarks::new_port(drawing_, p); });
    for (std::size_t i = 0; i < marks_.years().size(); ++i)
      entry(at, "old, " + marks_.name(i), [&](Point p) { PortMarks::old_port(drawing_, p, i, false); });
    if (std::ranges::any_of(plan_.record.old_ports, &book::OldPort::leaked))
      entry(at, "leaked", [&](Point p) { drawing_.circle(p, 1.66, {"none", 0.25, "#000", {}}); });
    if (std::ranges::any_of(plan_.record.old_ports, [](const book::OldPort& old) { return !old.height_cm; }))
      entry(at, "height unknown", [&](Point p) { drawing_.line({p.x, p.y - 1.8}, {p.x, p.y + 1.8}, {"none", 0.2, "#000", "0.8 0.8"}); });
    if (!plan_.record.bad.empty())
      entry(at, "bad wood: no port", [&](Point p) {
        drawing_.polygon({{p.x - 1.6, p.y - 1.4}, {p.x + 1.6, p.y - 1.4}, {p.x + 1.6, p.y + 1.4}, {p.x - 1.6, p.y + 1.4}},
                         {drawing_.hatch(), 0.3, "#000", {}});
      });
    if (!plan_.record.ridges.empty())
      entry(at, "ridge", [&](Point p) { drawing_.line({p.x - 1.6, p.y}, {p.x + 1.6, p.y}, {"none", 1.3, "#000", {}}); });
    if (std::ranges::any_of(plan_.places.places, book::too_near))
      entry(at, "nearer than wanted", [&](Point p) { drawing_.text({p.x, p.y + 0.9}, 2.9, "!", Anchor::middle, true); });
  }

  const PortPlan& plan_;
  UnitSystem units_;
  PortMarks marks_;
  double rows_, row_cm_;
  double low_cm_ = 0.0, high_cm_ = 0.0;
  svg::Drawing drawing_;
};

}  // namespace

std::string flare_strip_svg(const PortPlan& plan, UnitSystem units) { return Strip{plan, units}.svg(); }

}  // namespace app
