// What would help on a day: each advice with the hours it gains, from the model run again on the same draws with that one thing changed.
// docs/model/days.md (21)-(26). None of it is about a product or a rate.
#pragma once
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "days/outlook.h"
#include "days/tree_case.h"
#include "days/verdict.h"

namespace days {

enum class AdviceCode {
  dig_before,      // dig out the flare the day before
  sprinklers_off,  // if there are any
  soak,            // water the root zone some days before
  start_hour,      // not at the earliest hour allowed
  wider_window     // arrive outside the hours of practice
};

struct Advice {
  AdviceCode code = AdviceCode::dig_before;
  double hours = 0.0;  // gained by following it: of drinking, for the dose, mean over the draws, each at most 24; for dig_before on site
  double chance = 0.0, chance_otherwise = 0.0;  // of an all clear, followed and not
  Verdict verdict = Verdict::no_go, verdict_otherwise = Verdict::no_go;
  bool betters = false;                // the verdict, by more than the chance worth saying
  units::UtcTime arrive, valves_open;  // followed
  units::UtcTime arrive_otherwise, valves_open_otherwise;
  std::optional<units::LocalDay> soak_on = {};  // of soak
};

// One thing changed about a day as answered.
struct Change {
  std::optional<units::UtcTime> arrive = {};
  bool flare_dug = false;
  double wetted_share = 0.0;  // of the middle tree's crown, in the hour before the valves open
  double soak_rew = 0.0;      // relative extractable water added to the root zone, up to field capacity
};

// What a day comes to over the same draws; hours are means, each at most 24, from the opening of the valves.
struct Trial {
  units::UtcTime arrive, valves_open;
  double chance;  // of an all clear
  double dose_h, flush_h;
};
using Rerun = std::function<Trial(const Change&)>;

struct Soaking {
  units::LocalDay on;
  double rew;  // what of it the root zone still holds on the day
};

// What is known of the day without running it again.
struct DayAsAnswered {
  double chance = 0.0;                              // of an all clear, over all draws
  double dig_h = 0.0;                               // of the set-up
  double soil_costs_h = 0.0;                        // by its reasons
  bool forecast_old = false;                        // no verdict is GO, whatever the chance
  bool leaves_dry = false;                          // in the hour before the valves open and the next
  std::optional<Soaking> soaking = {};              // where there is time for it
  units::UtcTime earliest_arrival, latest_arrival;  // that practice allows
};

// What a soaking of `water_mm` adds to the relative extractable water of a root zone: no more than the least room below field capacity in
// any hour of `since`, for what is above drains. `since` must not be empty. Evaporation of the soaked water itself is left out.
[[nodiscard]] double soak_rew(const soil::RewCurve& curve, units::Metres root_zone, double water_mm,
                              std::span<const uptake::HourWeather> since);

// The soaking that there is still time for at `now`, `soak_days_before` a job on `date` whose valves open at `open`; empty where its day is
// over or lies before the outlook.
[[nodiscard]] std::optional<Soaking> soaking(const TreeCase& tree, const Outlook& outlook, const AdviceLimits& limits, units::LocalDay date,
                                             units::UtcTime open, units::UtcTime now);

// Advice that matters: it gains the hours worth saying or betters the verdict, never worsens it, and the day is then worth going (soaking
// also where it is not yet, if the chance grows). What betters the verdict first, then the most hours. `rerun` runs the day with a change;
// chances are the day's own plus the difference that the change makes over the draws of `rerun`, held to 0..1. Digging: the valves open at
// the same hour and the crew arrives later, unless the day is short of GO and opening them earlier is surer. Soaking is tried where dry
// soil costs the hours worth saying, sprinklers where leaves are dry, a wider window where the start stands at the edge of the hours
// allowed and the day is not GO.
[[nodiscard]] std::vector<Advice> advise(const DayAsAnswered& day, const Practice& practice, const Rerun& rerun);

}  // namespace days
