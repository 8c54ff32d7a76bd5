// One elm (or another species) on one invented day, run to see a fact: what it takes up by when, and what it transpires.
#pragma once
#include <array>
#include <compare>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "params/facts.h"
#include "params/models.h"
#include "units/lanes.h"
#include "uptake/hour.h"

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
  bool one_reference_hole = false;                          // the hole that g0 was measured in, alone in the tree
  std::optional<double> port_factor = std::nullopt;         // instead of the species' own
  std::optional<uptake::Deviates> deviates = std::nullopt;  // of a tree that is not in the middle of its numbers
  std::optional<double> watched_h = std::nullopt;           // the run lasts so long; else until the dose is in, two days at most

  auto operator<=>(const Trial&) const = default;
};

// Volumes taken up, from the opening of the valves on.
class Course {
 public:
  // `hours` rising from 0 on.
  Course(std::vector<double> hours, std::vector<double> volumes_l, double dose_l)
      : hours_(std::move(hours)), volumes_l_(std::move(volumes_l)), dose_l_(dose_l) {}

  // On straight lines between the parts of the run's steps (uptake/day.h); held after its end.
  [[nodiscard]] double volume_l(double hours) const;
  // Mean of the half hour that ends then.
  [[nodiscard]] double rate_l_h(double hours) const { return (volume_l(hours) - volume_l(hours - 0.5)) / 0.5; }
  [[nodiscard]] double share(double hours) const { return volume_l(hours) / dose_l_; }
  [[nodiscard]] double left_l(double hours) const { return dose_l_ - volume_l(hours); }  // of the dose
  [[nodiscard]] double dose_h() const;  // uptake::never where it did not go in

 private:
  std::vector<double> hours_, volumes_l_;
  double dose_l_;
};

// What trees on trial differ in. A species' own P50 and Huber ratio hold whatever is here.
struct TrialTree {
  tree::Parameters tree;
  uptake::PortParameters ports;
};

// The invented days, and up to eight trees that are tried side by side, each in the middle of its own numbers. What was run is kept, so
// that facts may share it. Keeps references to models and facts; one thread at a time.
class TrialGround {
 public:
  static constexpr std::size_t most_trees = units::Lanes::count;

  // The one tree of the models.
  TrialGround(const params::Models& models, const params::Facts& facts);
  // 1 to most_trees; they may differ in what an uptake::Draw holds, and in nothing else.
  TrialGround(const params::Models& models, const params::Facts& facts, std::span<const TrialTree> trees);

  // `trial.day` is one of the facts' days and `trial.species` one of the models'; an unknown name throws std::out_of_range.
  [[nodiscard]] const Course& run(const Trial& trial, std::size_t tree = 0) const;
  // Water that leaves of an undrilled tree give off on the second day, litres.
  [[nodiscard]] double transpired_l(const Trial& trial, std::size_t tree = 0) const;
  [[nodiscard]] double leaf_area_m2(const Trial& trial) const;
  // What the runs are made of, for whoever runs them otherwise: the first tree drilled, and hours from 5 o'clock on.
  [[nodiscard]] uptake::Subject subject(const Trial& trial) const;
  [[nodiscard]] std::vector<uptake::HourWeather> hours(const Trial& trial, std::size_t count) const;
  [[nodiscard]] soil::RewCurve loam() const;
  // Hours of the dose for eight sampled trees of each diameter, drawn around the first tree in one random order fixed by `seed`.
  [[nodiscard]] std::vector<double> sampled_dose_h(const Trial& trial, const std::vector<double>& dbh_cm, std::uint64_t seed) const;

 private:
  const params::Models& models_;
  const params::Facts& facts_;
  std::vector<TrialTree> trees_;
  mutable std::map<Trial, std::vector<Course>> courses_;
  mutable std::map<Trial, units::Lanes> transpired_;
};

}  // namespace app
