// One tree through one stretch of hours: at rest until the ports are drilled, then drinking until the dose and the flush are in.
// Time is counted in steps of 10 minutes from the start of the first hour. docs/model/uptake.md, "Run of a day".
#pragma once
#include <limits>
#include <span>
#include <vector>

#include "units/lanes.h"
#include "uptake/flow.h"

namespace uptake {

inline constexpr std::size_t steps_per_hour = 6;
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
  constexpr double sudden_rew = 0.02;
  for (std::size_t i = 0; i < weather.size(); ++i) {
    day.hours[i] = hour(subject, draw, day.plant, curve, weather[i], shifts[i], on_leaves);
    day.hours[i].sudden = i > 0 && std::abs(weather[i].rew - weather[i - 1].rew) > sudden_rew;
  }
}

// The tree in balance with its soil and without demand: where a run at night begins.
template <class R>
[[nodiscard]] Water<R> at_rest(const Day<R>& day) {
  const R soil = day.hours.front().soil_mpa;
  return {soil, soil - day.coefficients.lift_mpa, R(0.0), R(0.0)};
}

// How a step of the run is made. Where something begins at once, in ten parts, from a thirty-second of it to an eighth: a second-order step
// that is long against the base's own time would carry the base past where it is heading. For the rest of the first hour at the ports,
// while the base settles and fast fatigue goes on, in three.
enum class Parts { one, three, graded };

// `move(length_h)` makes a part; the flows are the step's means.
template <class R, class Move>
[[nodiscard]] SAPDRAW_INLINE Flows<R> in_parts(double step_h, Parts parts, Move move) {
  Flows<R> mean{};
  double length_h = parts == Parts::graded ? step_h / 32.0 : parts == Parts::three ? step_h / 3.0 : step_h;
  const int count = parts == Parts::graded ? 10 : parts == Parts::three ? 3 : 1;
  for (int part = 0; part < count; ++part) {
    if (part > 1 && part < 4 && parts == Parts::graded) length_h *= 2.0;
    const Flows<R> flows = move(length_h);
    const double share = length_h / step_h;
    mean = {mean.root + share * flows.root, mean.xylem + share * flows.xylem, mean.leaves + share * flows.leaves,
            mean.ports + share * flows.ports, mean.lumens + share * flows.lumens};
  }
  return mean;
}

// Runs without ports from step `from` to step `until`. `observe(step, flows, water)` sees every step.
template <class R, class Observe>
SAPDRAW_INLINE void rest(const Day<R>& day, std::size_t from, std::size_t until, Water<R>& water, Observe observe) {
  const OpenPorts<R> shut{};
  for (std::size_t i = from; i < until; ++i) {
    const Hour<R>& hour = day.at(i);
    const Flows<R> flows = in_parts<R>(day.step_h, hour.sudden && i % day.steps_an_hour == 0 ? Parts::graded : Parts::one,
                                       [&](double length_h) { return step(day.coefficients, hour, shut, length_h, water); });
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

// The ports of a day from their opening on: what they are to the tree, step by step.
template <class R>
class Ports {
 public:
  // Drilled and opened in `hour`, on a tree in the state `water`.
  Ports(const Day<R>& day, const Hour<R>& hour, const Water<R>& water) : Ports(day, open_at_drilling(hour, day.draw, water)) {}

  // For the next part of a step, of this length and in this hour.
  SAPDRAW_INLINE const OpenPorts<R>& next(double part_h, const Hour<R>& hour) {
    using std::exp;
    using units::exp;
    if (part_h != part_h_) fatigue_.set_step(part_h);
    if (part_h != part_h_ || &hour != hour_) {
      fresh_l_h_mpa_ = port_l_h_mpa_ * hour.port_fluidity;
      open_.lumens_left = exp(-part_h * filling_per_h_ * hour.port_fluidity);
      part_h_ = part_h;
      hour_ = &hour;
    }
    open_.early_l_h_mpa = fresh_l_h_mpa_ * fatigue_.early();
    open_.late_l_h_mpa = fresh_l_h_mpa_ * fatigue_.late();
    fatigue_.next_step();
    return open_;
  }

 private:
  Ports(const Day<R>& day, R open_share)
      : fatigue_(day.draw, open_share),
        port_l_h_mpa_(day.plant.port_l_h_mpa),
        filling_per_h_(day.plant.pressure_mpa / day.lumens_hours_pressure_mpa * open_share / day.draw.lumens_hours) {
    open_.pressure_mpa = day.plant.pressure_mpa;
    open_.lumens_l = day.plant.lumens_l;
  }

  Fatigue<R> fatigue_;
  R port_l_h_mpa_, filling_per_h_;  // fresh, and of the lumens, both in water of 20 C
  R fresh_l_h_mpa_{};
  OpenPorts<R> open_;
  double part_h_ = 0.0;  // what the members above are set for
  const Hour<R>* hour_ = nullptr;
};

struct NobodyLooks {
  template <class... Anything>
  SAPDRAW_INLINE void operator()(const Anything&...) const {}
};

// Opens the valves at step `from` and runs until dose and flush are in, the hours end, or `until`. `water` holds the tree's state at
// `from` and takes that at the end. `observe` sees every step; `look(hours, water)` every part of one, with the hours since the valves
// opened.
template <class R, class Observe, class Look = NobodyLooks>
SAPDRAW_INLINE Finish<R> drink(const Day<R>& day, std::size_t from, std::size_t until, Water<R>& water, Observe observe, Look look = {}) {
  using units::select;
  Ports<R> ports{day, day.at(from), water};
  const R dose = R(day.dose_l), all_in = R(day.dose_l + day.flush_l);
  Finish<R> finish{R(never), R(never)};
  for (std::size_t i = from; i < until; ++i) {
    const Hour<R>& hour = day.at(i);
    const R before = water.volume_l;
    const bool sudden = i == from || (hour.sudden && i % day.steps_an_hour == 0);
    const Parts parts = sudden ? Parts::graded : i - from < day.steps_an_hour ? Parts::three : Parts::one;
    const double begun_h = static_cast<double>(i - from) * day.step_h;
    double now_h = begun_h;
    const Flows<R> flows = in_parts<R>(day.step_h, parts, [&](double part_h) {
      const Flows<R> part = step(day.coefficients, hour, ports.next(part_h, hour), part_h, water);
      now_h += part_h;
      look(now_h, water);
      return part;
    });
    const R begun = R(begun_h);
    const auto crossing = [&](R target, R known) {
      const R here = begun + day.step_h * (target - before) / (water.volume_l - before);
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
