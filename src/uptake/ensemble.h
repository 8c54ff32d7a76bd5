// Many possible trees of one subject through one stretch of hours, a day or many: finish times of every draw for any start in it. The same
// draws serve every start. Pure and free of global state; the same bits on every machine that has IEEE doubles.
#pragma once
#include <cstddef>
#include <span>
#include <vector>

#include "uptake/day.h"

namespace uptake {

// One possible course of the weather: hours, and per hour how a draw's weather departs from them.
struct Scenario {
  std::vector<HourWeather> hours;
  std::vector<Shift<units::Lanes>> shifts;  // as many
};

// Finish times by draw, hours from the opening of the valves; `never` where not within the hours given.
struct Finishes {
  std::vector<double> dose_h;
  std::vector<double> flush_h;
};

struct Followed {
  Finishes finishes;
  // Litres taken up by every draw at each full half hour after the valves open: [half hour][draw], until the horizon or until dose and
  // flush are in for every draw. Rates follow by differences.
  std::vector<std::vector<double>> volumes_l;
};

class Ensemble {
 public:
  // `count` of the lanes in `draws` count; the rest of the last block is filler.
  Ensemble(Subject subject, soil::RewCurve curve, std::vector<Draw<units::Lanes>> draws, std::size_t count);

  [[nodiscard]] std::size_t draws() const { return count_; }
  [[nodiscard]] std::size_t blocks() const { return draws_.size(); }
  [[nodiscard]] const Draw<units::Lanes>& block(std::size_t index) const { return draws_[index]; }

  // Sets the hours: block b lives through scenarios[b % scenarios.size()], so that an ensemble's members stay whole. All scenarios
  // have the same number of hours, at least one. `water_mm`: on the leaves at the first hour.
  void set_hours(std::span<const Scenario> scenarios, double water_mm);

  // Valves open at `start_h` hours (rounded to a step) after the first hour; runs at most `horizon_h` from there.
  // `draws` limits the work to the first ones (a whole number of blocks); 0 means all. The tree is at rest from the first hour on:
  // `start_h` should leave it 4 h or more.
  [[nodiscard]] Finishes finish(double start_h, double horizon_h, std::size_t draws = 0);

  // The same of all draws, with the volumes on the way.
  [[nodiscard]] Followed follow(double start_h, double horizon_h);

  // The same with the volumes at `at_h`, hours after the valves open in any order, 0 to the horizon: [time][draw], on the straight line
  // between the parts of a step (uptake/day.h), which in the first hour, while the rate falls, are seconds to five minutes long.
  [[nodiscard]] Followed follow_at(double start_h, double horizon_h, std::span<const double> at_h);

 private:
  // Steps of a run: from the opening of the valves to its end.
  struct Run {
    std::size_t from, until;
  };
  [[nodiscard]] Run run(double start_h, double horizon_h) const;
  [[nodiscard]] const Water<units::Lanes>& rested(std::size_t block, std::size_t step);

  Subject subject_;
  soil::RewCurve curve_;
  std::vector<Draw<units::Lanes>> draws_;
  std::size_t count_;
  std::vector<Day<units::Lanes>> days_;                  // by block
  std::vector<std::vector<Water<units::Lanes>>> rests_;  // by block: the undrilled tree at the end of each hour reached so far
  Water<units::Lanes> scratch_{};
};

}  // namespace uptake
