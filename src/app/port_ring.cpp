#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "app/port_drawing.h"
#include "app/port_marks.h"

namespace app {
namespace {

using svg::Anchor;
using svg::number;
using svg::Point;

constexpr double side_mm = 92.0;
constexpr Point centre{side_mm / 2.0, side_mm / 2.0 + 1.5};
constexpr double bark_mm = 37.0;       // radius of the bark
constexpr double treatment_mm = 3.6;   // between the rings of treatments
constexpr std::size_t most_rings = 6;  // older treatments share the innermost
constexpr double figure_mm = 3.7;      // room of one figure along the ring

class Ring {
 public:
  explicit Ring(const PortPlan& plan)
      : plan_(plan), marks_(plan.record), drawing_("ring", "The flare from above, clockwise from the tag", side_mm, side_mm) {}

  std::string svg() {
    bad();
    rings();
    ridges();
    old_ports();
    new_ports();
    tag_and_arrow();
    return drawing_.finished();
  }

 private:
  [[nodiscard]] double angle(double cm) const { return 2.0 * std::numbers::pi * cm / plan_.flare_cm; }
  // Tag on top, clockwise.
  [[nodiscard]] static Point at(double angle, double radius) {
    return {centre.x + radius * std::sin(angle), centre.y - radius * std::cos(angle)};
  }
  [[nodiscard]] static double ring_mm(std::size_t treatment) {
    return bark_mm - treatment_mm * static_cast<double>(std::min(treatment, most_rings - 1) + 1);
  }
  [[nodiscard]] double innermost_mm() const {
    return marks_.years().empty() ? bark_mm - treatment_mm : ring_mm(marks_.years().size() - 1) - treatment_mm / 2.0;
  }

  // An arc in path data, from where the pen is; clockwise where `angle_to` is the larger.
  static std::string arc(double angle_from, double angle_to, double radius) {
    const Point to = at(angle_to, radius);
    return fmt::format("A{r} {r} 0 {} {} {} {}", std::abs(angle_to - angle_from) > std::numbers::pi ? 1 : 0, angle_to > angle_from ? 1 : 0,
                       number(to.x), number(to.y), fmt::arg("r", number(radius)));
  }
  static std::string move(char how, Point to) { return fmt::format("{}{} {}", how, number(to.x), number(to.y)); }

  // An arc cannot go all the way round.
  [[nodiscard]] double ended(double length_cm) const { return angle(std::clamp(length_cm, 0.5, 0.999 * plan_.flare_cm)); }

  void bad() {
    for (const book::BadStretch& bad : plan_.record.bad) {
      const double from_cm = book::as_of_now(bad.from_cm, bad.flare_cm, plan_.flare_cm),
                   to_cm = book::as_of_now(bad.to_cm, bad.flare_cm, plan_.flare_cm);
      const double from = angle(from_cm), to = from + ended(to_cm - from_cm + (to_cm < from_cm ? plan_.flare_cm : 0.0));
      const double outer = bark_mm + 1.6, inner = innermost_mm();
      drawing_.path(move('M', at(from, outer)) + arc(from, to, outer) + move('L', at(to, inner)) + arc(to, from, inner) + "Z",
                    {drawing_.hatch(), 0.3, "#000", {}});
    }
  }

  void ridges() {
    for (const book::Ridge& ridge : plan_.record.ridges) {
      const double grown = plan_.flare_cm / ridge.flare_cm.value_or(plan_.flare_cm);
      const double from = angle((ridge.crest_cm - ridge.half_width_cm) * grown), to = from + ended(2.0 * ridge.half_width_cm * grown);
      drawing_.path(move('M', at(from, bark_mm + 1.2)) + arc(from, to, bark_mm + 1.2), {"none", 1.3, "#000", {}});
    }
  }

  void rings() {
    drawing_.circle(centre, bark_mm, {"none", 0.5, "#000", {}});
    for (std::size_t i = 0; i < std::min(marks_.years().size(), most_rings); ++i)
      drawing_.circle(centre, ring_mm(i), {"none", 0.12, "#000", "0.4 1.2"});
  }

  void old_ports() {
    for (const book::OldPort& old : plan_.record.old_ports) {
      const std::size_t treatment = marks_.treatment(old);
      PortMarks::old_port(drawing_, at(angle(book::as_of_now(old.clockwise_cm, old.flare_cm, plan_.flare_cm)), ring_mm(treatment)),
                          treatment, old.leaked);
    }
  }

  void new_ports() {
    const auto& places = plan_.places.places;
    const double figures = std::floor(2.0 * std::numbers::pi * (bark_mm + 4.0) / figure_mm);
    const auto every = static_cast<std::size_t>(std::max(1.0, std::ceil(static_cast<double>(places.size()) / figures)));
    for (std::size_t i = 0; i < places.size(); ++i) {
      const double turn = angle(places[i].clockwise_cm);
      PortMarks::new_port(drawing_, at(turn, bark_mm));
      if ((i + 1) % every != 0 && i != 0) continue;
      const Point figure = at(turn, bark_mm + 4.3);
      drawing_.text({figure.x, figure.y + 0.9}, 2.5, fmt::format("{}{}", i + 1, book::too_near(places[i]) ? "!" : ""), Anchor::middle,
                    true);
    }
  }

  void tag_and_arrow() {
    drawing_.line(at(0.0, bark_mm - 2.2), at(0.0, bark_mm + 2.4), {"none", 0.6, "#000", {}});
    drawing_.text({centre.x, centre.y - bark_mm - 6.6}, 2.6, "TAG", Anchor::middle, true);
    const double radius = 9.0, from = -0.9, to = 0.9;
    drawing_.path(move('M', at(from, radius)) + arc(from, to, radius), {"none", 0.4, "#000", {}});
    drawing_.polygon({at(to + 0.22, radius), at(to, radius + 1.2), at(to, radius - 1.2)}, {"#000", 0.0, "#000", {}});
    drawing_.text({centre.x, centre.y - 2.0}, 2.9, "clockwise");
    drawing_.text({centre.x, centre.y + 2.0}, 2.9, "from above");
  }

  const PortPlan& plan_;
  PortMarks marks_;
  svg::Drawing drawing_;
};

}  // namespace

std::string flare_ring_svg(const PortPlan& plan) { return Ring{plan}.svg(); }

}  // namespace app
