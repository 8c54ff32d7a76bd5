#include "uptake/ensemble.h"

#include <algorithm>
#include <cmath>

#include "units/wide.h"

namespace uptake {
namespace {

using units::Lanes;

SAPDRAW_WIDE void prepare_block(const Subject& subject, const Draw<Lanes>& draw, const soil::RewCurve& curve, const Scenario& scenario,
                                double water_mm, Day<Lanes>& day) {
  prepare<Lanes>(subject, draw, curve, scenario.hours, scenario.shifts, water_mm, day);
}

SAPDRAW_WIDE void rest_block(const Day<Lanes>& day, std::size_t from, std::size_t until, Water<Lanes>& water) {
  rest(day, from, until, water, [](std::size_t, const Flows<Lanes>&, const Water<Lanes>&) {});
}

SAPDRAW_WIDE Finish<Lanes> drink_block(const Day<Lanes>& day, std::size_t from, std::size_t until, Water<Lanes>& water) {
  return drink(day, from, until, water, [](std::size_t, const Flows<Lanes>&, const Water<Lanes>&) {});
}

// The same, writing volumes at every `stride` steps.
SAPDRAW_WIDE Finish<Lanes> drink_and_record(const Day<Lanes>& day, std::size_t from, std::size_t until, std::size_t stride,
                                            Water<Lanes>& water, std::vector<Lanes>& record) {
  return drink(day, from, until, water, [&](std::size_t step, const Flows<Lanes>&, const Water<Lanes>& now) {
    if ((step - from + 1) % stride == 0) record.push_back(now.volume_l);
  });
}

// Volumes on the way, part by part.
struct Track {
  std::vector<double> hours{0.0};
  std::vector<Lanes> volumes_l{Lanes{0.0}};

  [[nodiscard]] double at(double h, int lane) const {
    const auto after = std::upper_bound(hours.begin(), hours.end(), h);
    if (after == hours.end()) return volumes_l.back()[lane];
    const auto i = static_cast<std::size_t>(after - hours.begin());
    const double share = (h - hours[i - 1]) / (hours[i] - hours[i - 1]);
    return (1.0 - share) * volumes_l[i - 1][lane] + share * volumes_l[i][lane];
  }
};

SAPDRAW_WIDE Finish<Lanes> drink_and_track(const Day<Lanes>& day, std::size_t from, std::size_t until, Water<Lanes>& water, Track& track) {
  return drink(
      day, from, until, water, [](std::size_t, const Flows<Lanes>&, const Water<Lanes>&) {},
      [&](double hours, const Water<Lanes>& now) {
        track.hours.push_back(hours);
        track.volumes_l.push_back(now.volume_l);
      });
}

// Takes over the lanes of one block that count.
void keep(const Finish<Lanes>& finish, std::size_t block, Finishes& finishes) {
  const std::size_t first = block * Lanes::count;
  for (std::size_t lane = 0; lane < Lanes::count && first + lane < finishes.dose_h.size(); ++lane) {
    finishes.dose_h[first + lane] = finish.dose_h[static_cast<int>(lane)];
    finishes.flush_h[first + lane] = finish.flush_h[static_cast<int>(lane)];
  }
}

std::size_t step_at(double hours) { return static_cast<std::size_t>(std::lround(hours * static_cast<double>(steps_per_hour))); }

}  // namespace

Ensemble::Ensemble(Subject subject, soil::RewCurve curve, std::vector<Draw<Lanes>> draws, std::size_t count)
    : subject_(std::move(subject)),
      curve_(std::move(curve)),
      draws_(std::move(draws)),
      count_(count),
      days_(draws_.size()),
      rests_(draws_.size()) {}

void Ensemble::set_hours(std::span<const Scenario> scenarios, double water_mm) {
  for (std::size_t b = 0; b < blocks(); ++b) {
    prepare_block(subject_, draws_[b], curve_, scenarios[b % scenarios.size()], water_mm, days_[b]);
    rests_[b].assign(1, at_rest(days_[b]));
  }
}

// The undrilled tree at `step`: on from the last full hour that was already reached.
const Water<Lanes>& Ensemble::rested(std::size_t block, std::size_t step) {
  auto& rests = rests_[block];
  const std::size_t hour = step / steps_per_hour;
  while (rests.size() <= hour) {
    Water<Lanes> water = rests.back();
    rest_block(days_[block], (rests.size() - 1) * steps_per_hour, rests.size() * steps_per_hour, water);
    rests.push_back(water);
  }
  scratch_ = rests[hour];
  rest_block(days_[block], hour * steps_per_hour, step, scratch_);
  return scratch_;
}

Ensemble::Run Ensemble::run(double start_h, double horizon_h) const {
  const std::size_t steps = days_.front().steps(), from = std::min(step_at(start_h), steps - 1);
  return {from, std::min(from + step_at(horizon_h), steps)};
}

Finishes Ensemble::finish(double start_h, double horizon_h, std::size_t draws) {
  const std::size_t wanted = draws == 0 ? count_ : std::min(draws, count_);
  const auto [from, until] = run(start_h, horizon_h);
  Finishes finishes{std::vector<double>(wanted), std::vector<double>(wanted)};
  for (std::size_t b = 0; b * Lanes::count < wanted; ++b) {
    Water<Lanes> water = rested(b, from);
    keep(drink_block(days_[b], from, until, water), b, finishes);
  }
  return finishes;
}

Followed Ensemble::follow(double start_h, double horizon_h) {
  constexpr std::size_t stride = steps_per_hour / 2;
  const auto [from, until] = run(start_h, horizon_h);
  Followed found{{std::vector<double>(count_), std::vector<double>(count_)}, {}};
  std::vector<std::vector<Lanes>> records(blocks());
  std::size_t longest = 0;
  for (std::size_t b = 0; b < blocks(); ++b) {
    Water<Lanes> water = rested(b, from);
    keep(drink_and_record(days_[b], from, until, stride, water, records[b]), b, found.finishes);
    longest = std::max(longest, records[b].size());
  }
  found.volumes_l.assign(longest, std::vector<double>(count_));
  const double all_in = subject_.dose.value + subject_.flush.value;
  for (std::size_t i = 0; i < longest; ++i)
    for (std::size_t draw = 0; draw < count_; ++draw) {
      const auto& record = records[draw / Lanes::count];
      // A block stops once all its draws are done: they then hold what they were given.
      const double volume = i < record.size() ? record[i][static_cast<int>(draw % Lanes::count)] : all_in;
      found.volumes_l[i][draw] = std::min(volume, all_in);
    }
  return found;
}

Followed Ensemble::follow_at(double start_h, double horizon_h, std::span<const double> at_h) {
  const auto [from, until] = run(start_h, horizon_h);
  Followed found{{std::vector<double>(count_), std::vector<double>(count_)},
                 std::vector<std::vector<double>>(at_h.size(), std::vector<double>(count_))};
  const double all_in = subject_.dose.value + subject_.flush.value;
  for (std::size_t b = 0; b < blocks(); ++b) {
    Water<Lanes> water = rested(b, from);
    Track track;
    keep(drink_and_track(days_[b], from, until, water, track), b, found.finishes);
    for (std::size_t i = 0; i < at_h.size(); ++i)
      for (std::size_t draw = b * Lanes::count; draw < std::min(count_, (b + 1) * Lanes::count); ++draw)
        found.volumes_l[i][draw] = std::min(track.at(at_h[i], static_cast<int>(draw % Lanes::count)), all_in);
  }
  return found;
}

}  // namespace uptake
