#include "app/fact_trial.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "days/reference_day.h"
#include "params/lookup.h"
#include "uptake/day.h"
#include "uptake/subject.h"

namespace app {
namespace {

using units::Lanes;
constexpr int rest_from_h = 5;
constexpr std::size_t steps_an_hour = 60;  // finer than the program's own, so that a five-minute test falls on a step
constexpr double step_h = 1.0 / static_cast<double>(steps_an_hour);

uptake::Subject subject_of(const params::Models& models, const Trial& trial) {
  const auto species = params::find_species(models, trial.species);
  if (!species) throw std::out_of_range(species.error().line());
  const days::SetUp& set_up = models.practice.set_up;
  uptake::Subject subject;
  subject.source = uptake::make_source(models.tree, models.ports, set_up.flare_factor, *species);
  subject.allometry = species->allometry;
  subject.measured.dbh = units::Centimetres{trial.dbh_cm};
  subject.port_factor = species->port_factor;
  subject.port_spacing = units::Centimetres{set_up.port_spacing_cm};
  subject.pressure = units::Megapascals{trial.pressure_kpa.value_or(set_up.pressure_kpa) / 1000.0};
  subject.dose = units::Litres{set_up.dose_l_per_cm * trial.dbh_cm};
  if (trial.one_reference_hole) {
    subject.port_count = 1.0;
    subject.source.ports.hole_factor = {1.0, 0.0, 1.0, 1.0};
  }
  return subject;
}

std::vector<uptake::HourWeather> hours_of(const params::Facts& facts, const Trial& trial) {
  const params::ReferenceDay& day = facts.days.at(trial.day);
  const units::UtcTime begins = std::chrono::sys_days{facts.date.time_since_epoch()} + std::chrono::hours{rest_from_h};
  auto hours = days::day_of_kind(day.kind, facts.site, begins, 72);
  for (uptake::HourWeather& hour : hours) {
    hour.rain_mm = day.rain_mm_h;
    hour.reference_mm = day.reference_mm_h;
    hour.leaf_share = trial.leaf_share;
    hour.rew = trial.rew.value_or(hour.rew);
    hour.soil_temp_c = trial.soil_temp_c.value_or(hour.soil_temp_c);
  }
  return hours;
}

template <class R>
uptake::Day<R> day_of(const params::Models& models, const params::Facts& facts, const Trial& trial, const uptake::Draw<R>& draw) {
  const auto texture = params::find_texture(models, "loam");
  if (!texture) throw std::out_of_range(texture.error().line());
  uptake::Day<R> day;
  day.step_h = step_h;
  day.steps_an_hour = steps_an_hour;
  const auto hours = hours_of(facts, trial);
  const std::vector<uptake::Shift<R>> shifts(hours.size());
  uptake::prepare<R>(subject_of(models, trial), draw, soil::RewCurve{*texture}, hours, shifts, 0.0, day);
  return day;
}

uptake::Draw<double> middle(const params::Models& models, const Trial& trial) {
  return uptake::central_draw(subject_of(models, trial).source);
}

std::size_t first_step(const Trial& trial) { return static_cast<std::size_t>(trial.start_h - rest_from_h) * steps_an_hour; }

constexpr auto unseen = [](std::size_t, const auto&, const auto&) {};

}  // namespace

double Course::volume_l(double hours) const {
  const double at = std::clamp(hours / step_h_, 0.0, static_cast<double>(volumes_l_.size() - 1));
  const auto before = std::min(static_cast<std::size_t>(at), volumes_l_.size() - 2);
  return std::lerp(volumes_l_[before], volumes_l_[before + 1], at - static_cast<double>(before));
}

double Course::dose_h() const {
  const auto in = std::lower_bound(volumes_l_.begin(), volumes_l_.end(), dose_l_);
  if (in == volumes_l_.end()) return uptake::never;
  const double step = static_cast<double>(in - volumes_l_.begin());
  return step_h_ * (step - (*in - dose_l_) / (*in - *(in - 1)));
}

Course TrialGround::run(const Trial& trial) const {
  auto day = day_of(models_, facts_, trial, middle(models_, trial));
  const double dose_l = day.dose_l;
  day.dose_l = 1e9;  // the run goes on after the dose: rates are asked for ten hours and more after the start
  auto water = uptake::at_rest(day);
  const std::size_t from = first_step(trial);
  uptake::rest(day, 0, from, water, unseen);
  std::vector<double> volumes{0.0};
  const auto observe = [&](std::size_t, const uptake::Flows<double>&, const uptake::Water<double>& now) {
    volumes.push_back(now.volume_l);
  };
  uptake::drink(day, from, from + 48 * steps_an_hour, water, observe);
  return {std::move(volumes), step_h, dose_l};
}

double TrialGround::transpired_l(const Trial& trial) const {
  const auto day = day_of(models_, facts_, trial, middle(models_, trial));
  auto water = uptake::at_rest(day);
  double litres = 0.0;
  const auto observe = [&](std::size_t, const uptake::Flows<double>& flows, const uptake::Water<double>&) {
    litres += step_h * flows.leaves;
  };
  uptake::rest(day, 0, 24 * steps_an_hour, water, unseen);
  uptake::rest(day, 24 * steps_an_hour, 48 * steps_an_hour, water, observe);
  return litres;
}

double TrialGround::leaf_area_m2(const Trial& trial) const {
  return uptake::plant(subject_of(models_, trial), middle(models_, trial)).size.leaf_area_m2;
}

std::vector<double> TrialGround::sampled_dose_h(const Trial& trial, const std::vector<double>& dbh_cm, std::uint64_t seed) const {
  std::vector<double> hours;
  const auto draws = uptake::sample_draws(subject_of(models_, trial).source, dbh_cm.size() * Lanes::count, seed);
  for (std::size_t i = 0; i < dbh_cm.size(); ++i) {
    Trial one = trial;
    one.dbh_cm = dbh_cm[i];
    const auto day = day_of(models_, facts_, one, draws[i]);
    auto water = uptake::at_rest(day);
    const std::size_t from = first_step(trial);
    uptake::rest(day, 0, from, water, unseen);
    const auto finish = uptake::drink(day, from, from + 48 * steps_an_hour, water, unseen);
    for (int lane = 0; lane < Lanes::count; ++lane) hours.push_back(finish.dose_h[lane]);
  }
  return hours;
}

}  // namespace app
