// Trials of readings at the tree: jobs whose truth comes from the same prior by seeds of their own, run on a path four times as fine, in
// weather that departs from the forecast, read with the tank's stated error.
#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "days/at_the_tree.h"
#include "days/clock.h"
#include "days/crew_day.h"
#include "days/job_draws.h"
#include "days/trial.h"

namespace reading_trial {

using units::Lanes;

inline constexpr std::array at_h{0.25, 0.5, 1.0};

// The n-th of many: as trial::spread_case, but trees of 40 to 150 cm in one of four soils, on a forecast of the last 18 hours, valves open
// between 6 and 15 o'clock.
struct Job {
  trial::Case c;
  double opened_h;  // since the outlook's beginning
};

inline Job spread_job(std::uint64_t n) {
  const auto between = [n](std::uint64_t what, double low, double high) {
    return low + (high - low) * units::hashed_uniform(733, what, n);
  };
  Job job{trial::spread_case(n), between(0, 6.0, 15.0)};
  job.c.tree = scene::elm(between(1, 40.0, 150.0));
  constexpr std::array soils{"loam", "sandy loam", "clay loam", "silt loam"};
  job.c.tree.curve = soil::RewCurve{shipped::texture(soils[static_cast<std::size_t>(between(2, 0.0, 3.999))])};
  job.c.outlook.issued = job.c.outlook.begins(0) - std::chrono::minutes{std::lround(60.0 * between(3, -6.0, 12.0))};
  return job;
}

// What was so in eight worlds: volumes at `at_h`, and when the dose was in.
struct Truth {
  std::array<Lanes, at_h.size()> volumes_l;
  Lanes dose_h;
};

inline Truth truth(const Job& job, std::uint64_t number) {
  constexpr std::size_t steps_an_hour = 24;
  const trial::Eight eight = trial::plain_eight(job.c, number);
  uptake::Day<Lanes> day;
  day.steps_an_hour = steps_an_hour;
  day.step_h = 1.0 / steps_an_hour;
  uptake::prepare<Lanes>(job.c.tree.subject, eight.draw, job.c.tree.curve, eight.scenario.hours, eight.scenario.shifts, 0.0, day);
  uptake::Water<Lanes> water = uptake::at_rest(day);
  const auto from = static_cast<std::size_t>(std::lround(job.opened_h * steps_an_hour));
  uptake::rest(day, 0, from, water, [](std::size_t, const uptake::Flows<Lanes>&, const uptake::Water<Lanes>&) {});
  Truth found{};
  const auto see = [&](std::size_t step, const uptake::Flows<Lanes>&, const uptake::Water<Lanes>& now) {
    for (std::size_t i = 0; i < at_h.size(); ++i)
      if (std::lround(at_h[i] * steps_an_hour) == static_cast<long>(step - from) + 1) found.volumes_l[i] = now.volume_l;
  };
  found.dose_h = uptake::drink(day, from, from + 24 * steps_an_hour, water, see).dose_h;
  return found;
}

// An error of the tank by Student's distribution of `tail` degrees of freedom, a whole number: a normal number over the root of a mean
// square.
inline double tank_error_l(double mark_l, int tail, std::uint64_t stream, std::uint64_t index) {
  const auto normal = [&](int n) {
    return units::normal_quantile(units::hashed_uniform(9001 + static_cast<std::uint64_t>(n), stream, index));
  };
  double squares = 0.0;
  for (int n = 1; n <= tail; ++n) squares += normal(n) * normal(n) / tail;
  return mark_l * normal(0) / std::sqrt(squares);
}

struct AfterReading {
  double jobs = 0.0, covered = 0.0, below = 0.0;
  std::vector<double> widths;                     // p90 over p10 of the hours from the opening
  std::vector<double> widths_on_work_days;        // of jobs that had TIGHT odds or better at their opening
  double odd = 0.0, tempered = 0.0, least = 1e9;  // readings told as odd, answers tempered, smallest effective number
  [[nodiscard]] double coverage() const { return covered / jobs; }
};

inline double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}
using Result = std::array<AfterReading, at_h.size() + 1>;  // the first before any reading

// Jobs from number `first` on, each in `worlds` (1 to 8) worlds. A job is left out at a reading it has finished by, or where the answer
// has no upper end within the day.
inline Result readings(std::uint64_t first, std::size_t jobs, std::size_t worlds, std::size_t draws) {
  Result result;
  for (std::uint64_t n = first; n < first + jobs; ++n) {
    const Job job = spread_job(n);
    const auto& practice = job.c.settings.practice;
    const double dose_l = job.c.tree.subject.dose.value;
    const double opened_h = std::round(job.opened_h * uptake::steps_per_hour) / uptake::steps_per_hour;
    const Job on_the_step{job.c, opened_h};
    const auto opened = job.c.outlook.begins(0) + std::chrono::seconds{std::lround(3600.0 * opened_h)};
    std::array<double, at_h.size() + 1> times{};
    std::copy(at_h.begin(), at_h.end(), times.begin());
    const double shut_h = days::hours_between(opened, days::valves_shut_by(job.c.tree, practice, scene::july_14));
    times.back() = shut_h;
    const auto all = days::follow_job(job.c.tree, job.c.outlook, practice.weather_error, {opened, draws, n}, times);
    const Truth was = truth(on_the_step, 900'000 + n);
    for (int world = 0; world < static_cast<int>(worlds); ++world) {
      const double finish_h = was.dose_h[world];
      days::JobSoFar so_far;
      so_far.shut_h = so_far.stop_h = shut_h;
      for (std::size_t i = 0; i <= at_h.size(); ++i) {
        if (i > 0) {
          const double noise_l =
              tank_error_l(practice.readings.error.mark_l, static_cast<int>(practice.readings.error.tail), n, 8 * i + world);
          const double before_l = so_far.readings.empty() ? 0.0 : so_far.readings.back().litres;
          so_far.readings.push_back({at_h[i - 1], std::clamp(was.volumes_l[i - 1][world] + noise_l, before_l, 0.999 * dose_l)});
          if (finish_h <= at_h[i - 1]) break;
        }
        uptake::Followed seen{all.finishes, {}};
        for (std::size_t k = 0; k < i; ++k) seen.volumes_l.push_back(all.volumes_l[k]);
        seen.volumes_l.push_back(all.volumes_l.back());
        const days::TreeNow now = days::tree_now(job.c.tree, practice, so_far, seen);
        if (!now.finish_h.p10 || !now.finish_h.p90) continue;
        AfterReading& after = result[i];
        after.jobs += 1.0;
        after.below += finish_h < *now.finish_h.p10 ? 1.0 : 0.0;
        after.covered += finish_h >= *now.finish_h.p10 && finish_h <= *now.finish_h.p90 ? 1.0 : 0.0;
        after.widths.push_back(*now.finish_h.p90 / *now.finish_h.p10);
        if (now.chance_before >= practice.decision.tight_chance) after.widths_on_work_days.push_back(after.widths.back());
        after.odd += now.odd && now.odd->index + 1 == i ? 1.0 : 0.0;
        after.tempered += now.trust < 1.0 ? 1.0 : 0.0;
        after.least = std::min(after.least, now.effective_draws);
      }
    }
  }
  return result;
}

}  // namespace reading_trial
