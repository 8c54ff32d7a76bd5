#include "app/fact_trial.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <stdexcept>

#include "days/reference_day.h"
#include "params/lookup.h"
#include "units/wide.h"
#include "uptake/day.h"
#include "uptake/subject.h"

namespace app {
namespace {

using units::Lanes;
using Draw = uptake::Draw<Lanes>;
using Day = uptake::Day<Lanes>;
using Water = uptake::Water<Lanes>;
constexpr int rest_from_h = 5;
constexpr std::size_t longest_h = 48;

uptake::Subject subject_of(const params::Models& models, const TrialTree& tree, const Trial& trial) {
  auto species = params::find_species(models, trial.species);
  if (!species) throw std::out_of_range(species.error().line());
  // A species without a P50 of its own was given that of the models; here it takes that of the tree on trial.
  if (species->p50_mpa.value == models.tree.hydraulics.p50_mpa.value) species->p50_mpa = tree.tree.hydraulics.p50_mpa;
  const days::SetUp& set_up = models.practice.set_up;
  uptake::Subject subject;
  subject.source = uptake::make_source(tree.tree, tree.ports, set_up.flare_factor, *species);
  subject.allometry = species->allometry;
  subject.measured.dbh = units::Centimetres{trial.dbh_cm};
  subject.port_factor = trial.port_factor.value_or(species->port_factor);
  subject.port_spacing = units::Centimetres{set_up.port_spacing_cm};
  subject.pressure = units::Megapascals{trial.pressure_kpa.value_or(set_up.pressure_kpa) / 1000.0};
  subject.dose = units::Litres{set_up.dose_l_per_cm * trial.dbh_cm};
  if (trial.one_reference_hole) {
    subject.port_count = 1.0;
    subject.source.ports.hole_factor = {1.0, 0.0, 1.0, 1.0};
  }
  return subject;
}

std::size_t rest_h(const Trial& trial) { return static_cast<std::size_t>(trial.start_h - rest_from_h); }

SAPDRAW_WIDE void prepare_all(const uptake::Subject& subject, const Draw& draw, const soil::RewCurve& curve,
                              std::span<const uptake::HourWeather> hours, std::span<const uptake::Shift<Lanes>> shifts, Day& day) {
  uptake::prepare<Lanes>(subject, draw, curve, hours, shifts, 0.0, day);
}

SAPDRAW_WIDE void rest_all(const Day& day, std::size_t from, std::size_t until, Water& water, Lanes& transpired_l) {
  uptake::rest(day, from, until, water, [&](std::size_t, const uptake::Flows<Lanes>& flows, const Water&) {
    transpired_l = transpired_l + day.step_h * flows.leaves;
  });
}

SAPDRAW_WIDE uptake::Finish<Lanes> drink_all(const Day& day, std::size_t from, std::size_t until, Water& water, std::vector<double>& hours,
                                             std::vector<Lanes>& volumes_l) {
  return uptake::drink(
      day, from, until, water, [](std::size_t, const uptake::Flows<Lanes>&, const Water&) {},
      [&](double now_h, const Water& now) {
        hours.push_back(now_h);
        volumes_l.push_back(now.volume_l);
      });
}

Day day_of(const soil::RewCurve& soil, const std::vector<uptake::HourWeather>& hours, const uptake::Subject& subject, const Draw& draw) {
  Day day;
  const std::vector<uptake::Shift<Lanes>> shifts(hours.size());
  prepare_all(subject, draw, soil, hours, shifts, day);
  return day;
}

// Each tree, in the middle of its numbers or off it, in a lane of its own; lanes beyond the last tree repeat it.
Draw side_by_side(const params::Models& models, std::span<const TrialTree> trees, const Trial& trial) {
  constexpr std::size_t members = sizeof(uptake::Draw<double>) / sizeof(double);
  static_assert(sizeof(Draw) == members * sizeof(Lanes));
  std::array<Lanes, members> all{};
  for (std::size_t lane = 0; lane < TrialGround::most_trees; ++lane) {
    const TrialTree& tree = trees[std::min(lane, trees.size() - 1)];
    const uptake::Source source = subject_of(models, tree, trial).source;
    const auto one = std::bit_cast<std::array<double, members>>(trial.deviates ? uptake::draw_at(source, *trial.deviates)
                                                                               : uptake::central_draw(source));
    for (std::size_t member = 0; member < members; ++member) all[member].set(static_cast<int>(lane), one[member]);
  }
  return std::bit_cast<Draw>(all);
}

}  // namespace

double Course::volume_l(double hours) const {
  const auto after = std::upper_bound(hours_.begin(), hours_.end(), hours);
  if (after == hours_.begin()) return volumes_l_.front();
  if (after == hours_.end()) return volumes_l_.back();
  const auto next = static_cast<std::size_t>(after - hours_.begin());
  return std::lerp(volumes_l_[next - 1], volumes_l_[next], (hours - hours_[next - 1]) / (hours_[next] - hours_[next - 1]));
}

double Course::dose_h() const {
  const auto in = std::lower_bound(volumes_l_.begin(), volumes_l_.end(), dose_l_);
  if (in == volumes_l_.end()) return uptake::never;
  const auto next = static_cast<std::size_t>(in - volumes_l_.begin());
  return std::lerp(hours_[next - 1], hours_[next], (dose_l_ - volumes_l_[next - 1]) / (volumes_l_[next] - volumes_l_[next - 1]));
}

TrialGround::TrialGround(const params::Models& models, const params::Facts& facts)
    : models_(models), facts_(facts), trees_{{models.tree, models.ports}} {}

TrialGround::TrialGround(const params::Models& models, const params::Facts& facts, std::span<const TrialTree> trees)
    : models_(models), facts_(facts), trees_(trees.begin(), trees.end()) {
  if (trees.empty() || trees.size() > most_trees) throw std::out_of_range("expected 1 to 8 trees on trial");
}

uptake::Subject TrialGround::subject(const Trial& trial) const { return subject_of(models_, trees_.front(), trial); }

std::vector<uptake::HourWeather> TrialGround::hours(const Trial& trial, std::size_t count) const {
  const params::ReferenceDay& day = facts_.days.at(trial.day);
  const units::UtcTime begins = std::chrono::sys_days{facts_.date.time_since_epoch()} + std::chrono::hours{rest_from_h};
  auto hours = days::day_of_kind(day.kind, facts_.site, begins, count);
  for (uptake::HourWeather& hour : hours) {
    hour.rain_mm = day.rain_mm_h;
    hour.reference_mm = day.reference_mm_h;
    hour.leaf_share = trial.leaf_share;
    hour.rew = trial.rew.value_or(hour.rew);
    hour.soil_temp_c = trial.soil_temp_c.value_or(hour.soil_temp_c);
  }
  return hours;
}

soil::RewCurve TrialGround::loam() const {
  const auto texture = params::find_texture(models_, "loam");
  if (!texture) throw std::out_of_range(texture.error().line());
  return soil::RewCurve{*texture};
}

const Course& TrialGround::run(const Trial& trial, std::size_t tree) const {
  auto& courses = courses_[trial];
  if (courses.empty()) {
    const std::size_t drink_h = trial.watched_h ? static_cast<std::size_t>(std::ceil(*trial.watched_h)) : longest_h;
    Day day = day_of(loam(), hours(trial, rest_h(trial) + drink_h), subject(trial), side_by_side(models_, trees_, trial));
    const double dose_l = day.dose_l;
    if (trial.watched_h) day.dose_l = 1e9;  // watched beyond the dose
    Water water = uptake::at_rest(day);
    const std::size_t from = rest_h(trial) * day.steps_an_hour;
    Lanes transpired_l{0.0};
    rest_all(day, 0, from, water, transpired_l);
    std::vector<double> passed_h{0.0};
    std::vector<Lanes> volumes_l{Lanes{0.0}};
    drink_all(day, from, day.steps(), water, passed_h, volumes_l);
    std::vector<double> one(volumes_l.size());
    for (std::size_t lane = 0; lane < trees_.size(); ++lane) {
      for (std::size_t i = 0; i < one.size(); ++i) one[i] = volumes_l[i][static_cast<int>(lane)];
      courses.emplace_back(passed_h, one, dose_l);
    }
  }
  return courses.at(tree);
}

double TrialGround::transpired_l(const Trial& trial, std::size_t tree) const {
  auto kept = transpired_.find(trial);
  if (kept == transpired_.end()) {
    const Day day = day_of(loam(), hours(trial, 48), subject(trial), side_by_side(models_, trees_, trial));
    Water water = uptake::at_rest(day);
    Lanes first_day_l{0.0}, litres{0.0};
    rest_all(day, 0, 24 * day.steps_an_hour, water, first_day_l);
    rest_all(day, 24 * day.steps_an_hour, 48 * day.steps_an_hour, water, litres);
    kept = transpired_.emplace(trial, litres).first;
  }
  return kept->second[static_cast<int>(tree)];
}

double TrialGround::leaf_area_m2(const Trial& trial) const {
  const uptake::Subject one = subject(trial);
  return uptake::plant(one, uptake::central_draw(one.source)).size.leaf_area_m2;
}

std::vector<double> TrialGround::sampled_dose_h(const Trial& trial, const std::vector<double>& dbh_cm, std::uint64_t seed) const {
  std::vector<double> dose_h;
  const auto draws = uptake::sample_draws(subject(trial).source, dbh_cm.size() * Lanes::count, seed);
  for (std::size_t i = 0; i < dbh_cm.size(); ++i) {
    Trial one = trial;
    one.dbh_cm = dbh_cm[i];
    const Day day = day_of(loam(), hours(one, rest_h(one) + longest_h), subject(one), draws[i]);
    Water water = uptake::at_rest(day);
    const std::size_t from = rest_h(one) * day.steps_an_hour;
    Lanes transpired_l{0.0};
    rest_all(day, 0, from, water, transpired_l);
    std::vector<double> passed_h;
    std::vector<Lanes> volumes_l;
    const auto finish = drink_all(day, from, day.steps(), water, passed_h, volumes_l);
    for (int lane = 0; lane < Lanes::count; ++lane) dose_h.push_back(finish.dose_h[lane]);
  }
  return dose_h;
}

}  // namespace app
