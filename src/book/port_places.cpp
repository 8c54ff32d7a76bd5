#include "book/port_places.h"

#include <algorithm>
#include <cmath>

#include "book/ring_choice.h"

namespace book {
namespace {

bool between(double value, double lowest, double highest) { return value >= lowest && value <= highest; }

bool flare_fits(const std::optional<double>& flare_cm) { return !flare_cm || between(*flare_cm, 5.0, 3000.0); }

units::Result<void> check(const PlaceWish& wish) {
  if (!flare_fits(wish.flare_cm)) return units::fault("flare", "", "expected a circumference from 5 to 3000 cm");
  if (!between(wish.ports, 1, 400)) return units::fault("ports", "", "expected 1 to 400");
  if (!between(wish.heights.low_cm, -100.0, 300.0) || !between(wish.heights.high_cm, wish.heights.low_cm, 300.0))
    return units::fault("port heights", "", "expected a lowest and a highest from -100 to 300 cm, in this order");
  return {};
}

units::Result<void> check(const FlareRecord& record) {
  const auto bad = [](const char* what) { return units::fault(what, "", "expected finite numbers, and flares of 5 to 3000 cm"); };
  for (const OldPort& old : record.old_ports)
    if (!std::isfinite(old.clockwise_cm) || !std::isfinite(old.height_cm.value_or(0.0)) || !flare_fits(old.flare_cm))
      return bad("old port");
  for (const BadStretch& one : record.bad)
    if (!std::isfinite(one.from_cm) || !std::isfinite(one.to_cm) || !flare_fits(one.flare_cm)) return bad("bad stretch");
  for (const Ridge& one : record.ridges)
    if (!std::isfinite(one.crest_cm) || !(one.half_width_cm >= 0.0) || !flare_fits(one.flare_cm)) return bad("ridge");
  return {};
}

Ring ring_of(const FlareGround& ground, const PlaceWish& wish, const PlaceRules& rules) {
  const double even = static_cast<double>(ground.cells()) / wish.ports;
  const auto cells = [](double number) { return static_cast<std::size_t>(std::max(1.0, number)); };
  return {.open = ground.open(),
          .worth = ground.share(),
          .least_gap = cells(std::ceil(rules.least_gap_share * even - 1e-9)),
          .most_open = cells(std::floor(rules.most_gap_share * even + 1e-9))};
}

}  // namespace

bool too_near(const Place& place) { return place.nearest && place.nearest->share < 1.0 - 1e-6; }

units::Result<PortPlaces> place_ports(const FlareRecord& record, const PlaceWish& wish, const PlaceRules& rules) {
  if (const auto ok = check(wish); !ok) return tl::make_unexpected(ok.error());
  if (const auto ok = check(record); !ok) return tl::make_unexpected(ok.error());
  const FlareGround ground{record, wish.flare_cm, wish.heights, rules};
  const Ring ring = ring_of(ground, wish, rules);
  PortPlaces result;
  result.wanted = wish.ports;
  result.clear = static_cast<int>(most_clear(ring, 1.0));
  const auto choice = choose(ring, static_cast<std::size_t>(wish.ports), 1.0, rules.floor_share);
  if (!choice) return result;
  if (!record.old_ports.empty()) result.best_share = choice->reachable;
  for (const std::size_t cell : choice->cells) {
    Place place{ground.at_cm(cell), ground.height_cm(cell, std::max(1.0, choice->least)), {}};
    place.nearest = ground.nearest(place.clockwise_cm, place.height_cm);
    if (place.nearest) result.least_share = std::min(result.least_share.value_or(place.nearest->share), place.nearest->share);
    result.places.push_back(place);
  }
  result.complete = static_cast<int>(result.places.size()) == wish.ports && choice->below == 0;
  return result;
}

}  // namespace book
