// The hourly water balance of a layered root zone: rain less interception, infiltration and runoff, evaporation in two stages, uptake by
// roots, drainage. Water only moves down (gravity, unit gradient); no capillary rise, no flow from the side, no frost. Equations:
// docs/model/soil.md. Always on: in every hour water in = water out + stored to 1e-9 mm, or the run is a Fault.
#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "soil/hours.h"
#include "soil/observation.h"
#include "soil/root_zone.h"
#include "soil/state.h"
#include "units/fault.h"
#include "weather/series.h"

namespace soil {

// One hour of weather, as prepared by the caller.
struct HourInput {
  std::optional<double> rain_mm;  // empty = nobody knows; the balance then uses an expectation and says so
  double irrigation_mm = 0.0;     // reaches the ground whole
  double et0_mm = 0.0;            // reference evapotranspiration, >= 0
  double leaf_share = 0.0;        // 0 leafless .. 1 full leaf
};

// Where one hour's water went, mm over the ground of the root zone.
struct HourFlows {
  double rain = 0.0, irrigation = 0.0;
  double interception = 0.0, evaporation = 0.0, uptake = 0.0, drainage = 0.0, runoff = 0.0;
  // In - out - change of storage; |.| <= 1e-9 unless the code is wrong.
  double imbalance = 0.0;
};

// Moves the water of `state` through one hour. Does not touch temperature or uncertainty.
HourFlows step_water(const RootZone& zone, const HourInput& hour, State& state);

// All hours of a run, label-ending, of equal length; an empty column or vector stands for "not given" where it says so.
struct Forcing {
  weather::Column rain_mm;         // hours without a value are unknown, not dry
  weather::Column irrigation_mm;   // may be empty (size 0): none; hours without a value: none
  weather::Column et0_mm;          // hours without a value take the same hour of the day before (then the mean of the known), counted
  weather::Column temp_c;          // air; hours without a value leave the root zone's temperature where it was
  weather::Column soil_temp_c;     // of the root zone, from a provider; may be empty (size 0); wins over the lagged air temperature
  std::vector<double> leaf_share;  // 0..1, every hour
};

struct Run {
  Hours hours;
  State end;                       // at the last label: the start of a continuation (a forecast member, a day later)
  std::size_t unknown_rain_h = 0;  // hours whose rain nobody knew
  std::size_t assumed_et0_h = 0;   // hours whose ET0 was taken from another hour
  double largest_imbalance_mm = 0.0;
};

// Runs the balance from `start` (soil/state.h) through the hours of `forcing`, correcting the state after the hour each observation names.
// Observations may come in any order; those beyond the run are refused. Faults: unequal lengths, a value outside its range, no ET0 at all.
[[nodiscard]] units::Result<Run> run(const RootZone& zone, const State& start, const Forcing& forcing,
                                     const std::vector<Observation>& observations = {});

}  // namespace soil
