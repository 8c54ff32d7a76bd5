#include "book/flare_ground.h"

#include <algorithm>
#include <cmath>

#include "book/around.h"

namespace book {
namespace {

std::vector<double> tried(HeightRange range) {
  const double span = range.high_cm - range.low_cm;
  const int steps = static_cast<int>(std::ceil(span / finest_height_cm - 1e-9));
  std::vector<double> heights{range.low_cm};
  for (int i = 1; i <= steps; ++i) heights.push_back(range.low_cm + span * i / steps);
  return heights;
}

}  // namespace

FlareGround::FlareGround(const FlareRecord& record, double flare_cm, HeightRange heights, const PlaceRules& rules)
    : record_(record), flare_cm_(flare_cm), rules_(rules), heights_(tried(heights)) {
  open_.assign(static_cast<std::size_t>(std::max(1.0, std::ceil(flare_cm / finest_cell_cm - 1e-9))), true);
  for (const OldPort& old : record.old_ports) {
    const double beside_cm = rules.beside_cm * (old.leaked ? rules.leaked_multiple : 1.0);
    old_.push_back({as_of_now(old.clockwise_cm, old.flare_cm, flare_cm), beside_cm, beside_cm * rules.in_line_multiple, old.height_cm});
  }
  if (!record.ridges.empty()) shut_all_but_ridges();
  shut_bad();
  for (std::size_t cell = 0; cell < cells(); ++cell) {
    double best = 0.0;
    if (open_[cell])
      for (const double height : heights_) best = std::max(best, share_at(cell, height));
    share_.push_back(best);
  }
}

void FlareGround::shut_all_but_ridges() {
  for (std::size_t cell = 0; cell < cells(); ++cell)
    open_[cell] = std::any_of(record_.ridges.begin(), record_.ridges.end(), [&](const Ridge& ridge) {
      const double grown = flare_cm_ / ridge.flare_cm.value_or(flare_cm_);
      const double way = clockwise_cm(as_of_now(ridge.crest_cm, ridge.flare_cm, flare_cm_), at_cm(cell), flare_cm_);
      return std::min(way, flare_cm_ - way) <= ridge.half_width_cm * grown + 1e-9;
    });
}

void FlareGround::shut_bad() {
  const double margin = rules_.bad_margin_cm;
  for (const BadStretch& bad : record_.bad) {
    const double from = as_of_now(bad.from_cm, bad.flare_cm, flare_cm_), to = as_of_now(bad.to_cm, bad.flare_cm, flare_cm_);
    const double length = clockwise_cm(from, to, flare_cm_) + 2.0 * margin;
    for (std::size_t cell = 0; cell < cells(); ++cell)
      if (length >= flare_cm_ || clockwise_cm(from - margin - 1e-9, at_cm(cell), flare_cm_) <= length + 2e-9) open_[cell] = false;
  }
}

double FlareGround::share_squared(const Old& old, double sideways_cm, double height_cm) const {
  const double across = sideways_cm / old.beside_cm;
  const double along = old.height_cm ? (height_cm - *old.height_cm) / old.in_line_cm : 0.0;
  return across * across + along * along;
}

FromOld FlareGround::from(std::size_t old_port, double at_cm, double height_cm) const {
  const Old& old = old_[old_port];
  const double way = clockwise_cm(old.at_cm, at_cm, flare_cm_);
  const double sideways = way <= flare_cm_ / 2.0 ? way : way - flare_cm_;
  return {old_port, sideways, old.height_cm ? height_cm - *old.height_cm : 0.0, std::sqrt(share_squared(old, sideways, height_cm))};
}

std::optional<FromOld> FlareGround::nearest(double clockwise_cm, double height_cm) const {
  std::optional<FromOld> nearest;
  for (std::size_t i = 0; i < old_.size(); ++i) {
    const FromOld one = from(i, clockwise_cm, height_cm);
    if (!nearest || one.share < nearest->share) nearest = one;
  }
  return nearest;
}

double FlareGround::share_at(std::size_t cell, double height_cm) const {
  double least = std::numeric_limits<double>::infinity();
  for (const Old& old : old_) {
    const double way = std::abs(at_cm(cell) - old.at_cm);
    least = std::min(least, share_squared(old, std::min(way, flare_cm_ - way), height_cm));
  }
  return std::round(std::sqrt(least) * 1e6) / 1e6;
}

double FlareGround::height_cm(std::size_t cell, double wanted) const {
  const double enough = std::min(wanted, share_[cell]);
  for (const double height : heights_)
    if (share_at(cell, height) >= enough) return height;
  return heights_.back();
}

}  // namespace book
