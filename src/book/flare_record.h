// What is known of a flare from earlier treatments and from looking at it. Distances run clockwise, seen from above, along the bark from
// the tag; each was measured on the flare of its day, and the tree has grown since.
#pragma once
#include <optional>
#include <vector>

namespace book {

struct OldPort {
  double clockwise_cm = 0.0;
  std::optional<double> height_cm;  // above the tag line; unknown: taken as level with every new port, the worst case
  std::optional<double> flare_cm;   // circumference of the flare then; unknown: as now
  std::optional<int> year;          // of the treatment
  bool leaked = false;
};

// Decay, a crack, a cavity: from one end clockwise to the other, over the tag where `to_cm` is the smaller. No width where they are equal.
struct BadStretch {
  double from_cm = 0.0;
  double to_cm = 0.0;
  std::optional<double> flare_cm;
};

struct Ridge {
  double crest_cm = 0.0;
  double half_width_cm = 0.0;
  std::optional<double> flare_cm;
};

struct FlareRecord {
  std::optional<double> flare_cm;  // circumference as measured now
  std::vector<OldPort> old_ports;
  std::vector<BadStretch> bad;
  std::vector<Ridge> ridges;  // none given: ports may stand anywhere else on sound wood
};

// `then_cm`, measured on a flare of `flare_then_cm` (unknown: as now), on the flare of now: 0 <= result < `flare_cm`.
// The flare is taken to have grown alike all around. Requires finite numbers, circumferences > 0.
[[nodiscard]] double as_of_now(double then_cm, const std::optional<double>& flare_then_cm, double flare_cm);

}  // namespace book
