// Invented flares, drawn by number, and the rules of places reckoned anew, without the program's grid.
#pragma once
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "book/port_places.h"

namespace flares {

inline constexpr book::PlaceRules rules{.beside_cm = 3.0,
                                        .in_line_multiple = 5.0,
                                        .leaked_multiple = 1.5,
                                        .floor_share = 0.5,
                                        .least_gap_share = 0.6,
                                        .most_gap_share = 1.5,
                                        .bad_margin_cm = 2.0,
                                        .height_low_cm = 5.0,
                                        .height_high_cm = 20.0};
inline constexpr book::HeightRange level{10.0, 10.0};
inline constexpr book::HeightRange free_heights{5.0, 20.0};

struct World {
  book::FlareRecord record;
  book::PlaceWish wish;
};

class Dice {
 public:
  explicit Dice(unsigned number) : engine_(number) {}
  double between(double low, double high) { return low + (high - low) * static_cast<double>(engine_()) / 4294967296.0; }
  int whole(int low, int high) { return low + static_cast<int>(engine_() % static_cast<unsigned>(high - low + 1)); }
  bool one_in(unsigned n) { return engine_() % n == 0; }

 private:
  std::mt19937 engine_;
};

inline book::OldPort old_port(Dice& dice, double flare_cm) {
  book::OldPort old;
  old.flare_cm = flare_cm * dice.between(0.9, 1.0);
  old.clockwise_cm = dice.between(0.0, *old.flare_cm);
  if (!dice.one_in(6)) old.height_cm = dice.between(0.0, 25.0);
  old.year = dice.whole(2014, 2024);
  old.leaked = dice.one_in(8);
  return old;
}

// A flare of a small tree to a veteran's, with up to three sets of old ports, bad stretches and, on one in three, ridges.
inline World world(unsigned number) {
  Dice dice{number};
  World made;
  const double flare = dice.between(120.0, 600.0);
  made.wish = {flare, static_cast<int>(std::lround(flare / dice.between(11.0, 16.0))), dice.one_in(2) ? level : free_heights};
  for (int i = dice.whole(0, 3) * made.wish.ports; i > 0; --i) made.record.old_ports.push_back(old_port(dice, flare));
  for (int i = dice.whole(0, 3); i > 0; --i) {
    const double from = dice.between(0.0, flare);
    made.record.bad.push_back({from, std::fmod(from + dice.between(0.0, 60.0), flare), {}});
  }
  if (dice.one_in(3))
    for (int i = 0; i < 5; ++i) made.record.ridges.push_back({flare * (i + dice.between(0.2, 0.8)) / 5.0, dice.between(10.0, 40.0), {}});
  return made;
}

// The shorter way between two places of a ring, by their angle.
inline double apart_cm(double a, double b, double flare_cm) {
  const double turn = std::abs(a - b) / flare_cm;
  return flare_cm * std::min(turn - std::floor(turn), std::ceil(turn) - turn);
}

// Distance to one old port as a share of what is wanted, straight from its definition.
inline double share(const book::Place& place, const book::OldPort& old, double flare_cm) {
  const double wanted = rules.beside_cm * (old.leaked ? rules.leaked_multiple : 1.0);
  const double across = apart_cm(place.clockwise_cm, old.clockwise_cm * flare_cm / old.flare_cm.value_or(flare_cm), flare_cm) / wanted;
  const double up = old.height_cm ? (place.height_cm - *old.height_cm) / (wanted * rules.in_line_multiple) : 0.0;
  return std::sqrt(across * across + up * up);
}

inline double least_share(const book::Place& place, const World& made) {
  double least = std::numeric_limits<double>::infinity();
  for (const book::OldPort& old : made.record.old_ports) least = std::min(least, share(place, old, made.wish.flare_cm));
  return least;
}

// Whether a place lies in a bad stretch, or nearer to it than the margin.
inline bool on_bad(double at_cm, const World& made) {
  for (const book::BadStretch& bad : made.record.bad) {
    const double to = bad.to_cm < bad.from_cm ? bad.to_cm + made.wish.flare_cm : bad.to_cm;
    for (const double at : {at_cm - made.wish.flare_cm, at_cm, at_cm + made.wish.flare_cm})
      if (at > bad.from_cm - rules.bad_margin_cm + 1e-6 && at < to + rules.bad_margin_cm - 1e-6) return true;
  }
  return false;
}

inline bool on_ridge(double at_cm, const World& made) {
  return made.record.ridges.empty() || std::ranges::any_of(made.record.ridges, [&](const book::Ridge& ridge) {
           return apart_cm(at_cm, ridge.crest_cm, made.wish.flare_cm) <= ridge.half_width_cm + 1e-6;
         });
}

inline book::PortPlaces placed(const World& made) {
  const auto places = book::place_ports(made.record, made.wish, rules);
  REQUIRE(places.has_value());
  return *places;
}

// Gaps from each place clockwise to the next; the whole flare for a lone one.
inline std::vector<double> gaps_cm(const book::PortPlaces& places, double flare_cm) {
  std::vector<double> gaps;
  for (std::size_t i = 0; i < places.places.size(); ++i) {
    const bool last = i + 1 == places.places.size();
    gaps.push_back(last ? places.places.front().clockwise_cm + flare_cm - places.places[i].clockwise_cm
                        : places.places[i + 1].clockwise_cm - places.places[i].clockwise_cm);
  }
  return gaps;
}

}  // namespace flares
