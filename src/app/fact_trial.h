// One elm (or another species) on one invented day, run to see a fact: what it takes up by when, and what it transpires.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "params/facts.h"
#include "params/models.h"

namespace app {

// What is tried; the rest is the set-up of models/practice.json.
struct Trial {
  std::string day = "good";
  double dbh_cm = 140.0;
  int start_h = 9;  // o'clock; the tree is at rest from 5 o'clock on
  std::string species = "ulmus_americana";
  std::optional<double> pressure_kpa = std::nullopt;
  std::optional<double> rew = std::nullopt;
  std::optional<double> soil_temp_c = std::nullopt;
  double leaf_share = 1.0;
  bool one_reference_hole = false;  // the hole that g0 was measured in, alone in the tree
};

// Volumes taken up by the tree in the middle (every parameter at its value) over two days.
class Course {
 public:
  Course(std::vector<double> volumes_l, double step_h, double dose_l)
      : volumes_l_(std::move(volumes_l)), step_h_(step_h), dose_l_(dose_l) {}

  [[nodiscard]] double volume_l(double hours) const;
  // Mean of the half hour that ends then.
  [[nodiscard]] double rate_l_h(double hours) const { return (volume_l(hours) - volume_l(hours - 0.5)) / 0.5; }
  [[nodiscard]] double share(double hours) const { return volume_l(hours) / dose_l_; }
  [[nodiscard]] double dose_h() const;  // uptake::never beyond the two days

 private:
  std::vector<double> volumes_l_;  // at 0, step, 2 step ..
  double step_h_, dose_l_;
};

// The models with the invented days. Keeps references to both.
class TrialGround {
 public:
  TrialGround(const params::Models& models, const params::Facts& facts) : models_(models), facts_(facts) {}

  // `trial.day` is one of the facts' days and `trial.species` one of the models'; an unknown name throws std::out_of_range.
  [[nodiscard]] Course run(const Trial& trial) const;
  // Water that leaves of an undrilled tree give off on the second day, litres.
  [[nodiscard]] double transpired_l(const Trial& trial) const;
  [[nodiscard]] double leaf_area_m2(const Trial& trial) const;
  // Hours of the dose for eight sampled trees of each diameter, in one random order of trees fixed by `seed`.
  [[nodiscard]] std::vector<double> sampled_dose_h(const Trial& trial, const std::vector<double>& dbh_cm, std::uint64_t seed) const;

 private:
  const params::Models& models_;
  const params::Facts& facts_;
};

}  // namespace app
