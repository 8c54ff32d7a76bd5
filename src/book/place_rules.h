// How far new ports keep from old ones, from bad wood and from each other; filled from models/practice.json, section port_places.
#pragma once

namespace book {

struct PlaceRules {
  double beside_cm = 0.0;         // sideways from an old port, > 0
  double in_line_multiple = 0.0;  // above or below an old port, in multiples of `beside_cm`, >= 1
  double leaked_multiple = 0.0;   // both distances, where the old port leaked, >= 1
  double floor_share = 0.0;       // of those distances, kept before anything else where not all can be had, 0..1
  double least_gap_share = 0.0;   // gap between new ports along the flare, as a share of the even one
  double most_gap_share = 0.0;    // ground fit for ports between two new ones, likewise; >= 2 x `least_gap_share`
  double bad_margin_cm = 0.0;     // sound wood between a port and a bad stretch, >= 0
  double height_low_cm = 0.0;     // ports above the tag line
  double height_high_cm = 0.0;
};

}  // namespace book
