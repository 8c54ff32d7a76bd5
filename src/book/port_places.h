// Where new ports go on a flare that has old ones: sideways first, since vessels run up and down; on sound wood, on ridges where they are
// known, spread around the tree. docs/model/ports.md says what it neglects and why the answer is the best one on its grid.
#pragma once
#include <optional>
#include <vector>

#include "book/flare_ground.h"
#include "book/flare_record.h"
#include "book/place_rules.h"
#include "units/fault.h"

namespace book {

struct PlaceWish {
  double flare_cm = 0.0;  // circumference now, 5..3000
  int ports = 0;          // 1..400
  HeightRange heights;    // above the tag line: the same for all, or what each may choose from; -100..300 cm
};

struct Place {
  double clockwise_cm = 0.0;  // from the tag, on the flare of now
  double height_cm = 0.0;
  std::optional<FromOld> nearest;  // the old port that is nearest by share; none without old ports
};

struct PortPlaces {
  std::vector<Place> places;  // clockwise from the tag
  // All ports wanted are placed and each is far enough from every old one.
  bool complete = false;
  int wanted = 0;
  int clear = 0;  // the most ports that could keep least gap and distances to old ports, if wide bare stretches did not matter
  std::optional<double> best_share;   // the largest least share of any plan of as many ports; none without old ports or places
  std::optional<double> least_share;  // of this plan's place nearest to an old port; likewise
};

// A place is too near to an old port.
[[nodiscard]] bool too_near(const Place& place);

// Places all ports wanted or, where gaps and bad wood do not allow it, the most that they do, and none in a bad stretch. Where all can be
// far enough from old ports, the nearest is as far as can be, and of such plans the most even one is taken. Where they cannot, none is
// nearer than `floor_share` if that can be helped, then as few as possible are too near, these as little as possible, and as even.
// Fault: a wish or a record outside the bounds above, a number that is not finite, a flare of a record outside 5..3000 cm.
[[nodiscard]] units::Result<PortPlaces> place_ports(const FlareRecord& record, const PlaceWish& wish, const PlaceRules& rules);

}  // namespace book
