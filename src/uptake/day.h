// One tree through one stretch of hours: at rest until the ports are drilled, then drinking until the dose and the flush are in.
// Time is counted in steps of 3 minutes from the start of the first hour. docs/model/uptake.md, "Run of a day".
#pragma once
#include <limits>
#include <span>
#include <vector>

#include "units/lanes.h"
#include "uptake/flow.h"

namespace uptake {

inline constexpr std::size_t steps_per_hour = 20;
// The dose that does not go in within the hours given has no finish time.
inline constexpr double never = std::numeric_limits<double>::infinity();

template <class R>
struct Day {
  Plant<R> plant;
  Coefficients<R> coefficients;
  Draw<R> draw;
  double lumens_hours_pressure_mpa = 0.1;  // the pressure that lumens_hours is stated for (eq. 16)
  double dose_l = 0.0, flush_l = 0.0;
  double step_h = 1.0 / steps_per_hour;
  std::size_t steps_an_hour = steps_per_hour;
  std::vector<Hour<R>> hours;

  [[nodiscard]] std::size_t steps() const { return hours.size() * steps_an_hour; }
  [[nodiscard]] const Hour<R>& at(std::size_t step) const { return hours[step / steps_an_hour]; }
};

// Prepares a day; `weather` and `shifts` hour by hour, of equal length. `water_mm` is the water on the leaves when it begins.
template <class R>
void prepare(const Subject& subject, const Draw<R>& draw, const soil::RewCurve& curve, std::span<const HourWeather> weather,
             std::span<const Shift<R>> shifts, double water_mm, Day<R>& day) {
  day.plant = plant(subject, draw);
  day.coefficients = coefficients(subject, draw, day.plant);
  day.draw = draw;
  day.dose_l = subject.dose.value;
  day.flush_l = subject.flush.value;
  day.hours.resize(weather.size());
  R on_leaves = R(water_mm);
  for (std::size_t i = 0; i < weather.size(); ++i)
    day.hours[i] = hour(subject, draw, day.plant, curve, weather[i], shifts[i], on_leaves);
}

// The tree in balance with its soil and without demand: where a run at night begins.
template <class R>
[[nodiscard]] Water<R> at_rest(const Day<R>& day) {
  const R soil = day.hours.front().soil_mpa;
  return {soil, soil - day.coefficients.lift_mpa, R(0.0), R(0.0)};
}

// Runs without ports from step `from` to step `until`. `observe(step, flows, water)` sees every step.
template <class R, class Observe>
SAPDRAW_INLINE void rest(const Day<R>& day, std::size_t from, std::size_t until, Water<R>& water, Observe observe) {
  const OpenPorts<R> shut{};
  for (std::size_t i = from; i < until; ++i) {
    const Flows<R> flows = step(day.coefficients, day.at(i), shut, day.step_h, water);
    observe(i, flows, water);
  }
}

template <class R>
struct Finish {
  R dose_h;   // hours from the opening of the valves until the dose is in, or `never`
  R flush_h;  // until the flush is in too
};

// Share of the cut vessels that stay open (eq. 13): air drawn in at the tension of the moment, and the flare's native embolism.
template <class R>
[[nodiscard]] R open_at_drilling(const Hour<R>& hour, const Draw<R>& draw, const Water<R>& water) {
  using std::exp;
  using units::exp;
  using units::min;
  return exp(min(water.base_mpa, R(0.0)) / draw.drilling_mpa) * hour.native_open;
}

// Opens the valves at step `from` and runs until dose and flush are in, the hours end, or `until`. `water` holds the tree's state at
// `from` and takes that at the end.
template <class R, class Observe>
SAPDRAW_INLINE Finish<R> drink(const Day<R>& day, std::size_t from, std::size_t until, Water<R>& water, Observe observe) {
  using units::select;
  const R open = open_at_drilling(day.at(from), day.draw, water);
  Fatigue<R> fatigue{day.draw, open, day.step_h};
  const R filling = day.plant.pressure_mpa / day.lumens_hours_pressure_mpa * open / day.draw.lumens_hours;
  const R dose = R(day.dose_l), all_in = R(day.dose_l + day.flush_l);
  Finish<R> finish{R(never), R(never)};
  for (std::size_t i = from; i < until; ++i) {
    const Hour<R>& hour = day.at(i);
    OpenPorts<R> ports;
    ports.conductance_l_h_mpa = day.plant.port_l_h_mpa * hour.port_fluidity * fatigue.next();
    ports.pressure_mpa = day.plant.pressure_mpa;
    ports.lumens_l = day.plant.lumens_l;
    ports.lumens_per_h = filling * hour.port_fluidity;
    const R before = water.volume_l;
    const Flows<R> flows = step(day.coefficients, hour, ports, day.step_h, water);
    const R begun = R(static_cast<double>(i - from) * day.step_h);
    const R rate = (water.volume_l - before) / day.step_h;
    const auto crossing = [&](R target, R known) {
      const R here = begun + (target - before) / rate;
      return select(known < R(never), known, select(water.volume_l >= target, here, R(never)));
    };
    finish.dose_h = crossing(dose, finish.dose_h);
    finish.flush_h = crossing(all_in, finish.flush_h);
    observe(i, flows, water);
    if (units::all(water.volume_l >= all_in)) break;
  }
  return finish;
}

}  // namespace uptake
