#include "days/advice.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "days/rewatered.h"
#include "days/scene.h"
#include "support/within.h"

using days::Advice;
using days::AdviceCode;
using days::Change;
using days::DayAsAnswered;
using days::Trial;
using days::Verdict;
using units::UtcTime;
using namespace std::chrono_literals;

namespace {

const UtcTime six = scene::eastern().start_of(scene::july_14) + 6h;
UtcTime later(UtcTime time, double hours) { return time + std::chrono::seconds{std::lround(hours * 3600.0)}; }

// A day by hand: arrival at eight, two hours of set-up of which 45 minutes are digging, five hours for the dose, half an hour to flush.
constexpr double set_up_h = 2.0, dig_h = 0.75;
Trial as_is() { return {six + 2h, later(six + 2h, set_up_h), 0.85, 5.0, 5.5}; }
Trial by_hand(const Change& change) {
  Trial trial = as_is();
  trial.arrive = change.arrive.value_or(trial.arrive);
  trial.valves_open = later(trial.arrive, change.flare_dug ? set_up_h - dig_h : set_up_h);
  return trial;
}
DayAsAnswered day_by_hand() {
  DayAsAnswered day;
  day.chance = 0.85;
  day.dig_h = dig_h;
  day.earliest_arrival = six + 2h;
  day.latest_arrival = six + 7h;
  return day;
}

const Advice* find(const std::vector<Advice>& all, AdviceCode code) {
  const auto found = std::ranges::find(all, code, &Advice::code);
  return found == all.end() ? nullptr : &*found;
}

// A day known for sure, so that a run by hand sees the same weather.
days::Settings sure_settings() {
  days::Settings settings = scene::settings();
  days::WeatherError& error = settings.practice.weather_error;
  for (auto* spread : {&error.temperature_sd_c, &error.cloud_sd_pct, &error.rain_missed}) std::ranges::fill(spread->value, 0.0);
  std::ranges::fill(error.rain_hit.value, 1.0);
  error.rain_least_chance = 1.0;
  error.rain_ln_sd = 0.0;
  return settings;
}

// Mean hours of the first 64 draws for the dose, each at most 24, for valves opened so long after the first of `hours`.
double mean_dose_h(const days::TreeCase& tree, const std::vector<uptake::HourWeather>& hours, double open_h) {
  auto drawn = scene::ensemble(tree, 64);
  drawn.set_hours(std::vector{uptake::Scenario{hours, std::vector<uptake::Shift<units::Lanes>>(hours.size())}}, 0.0);
  double sum = 0.0;
  for (const double h : drawn.finish(open_h, 24.0).dose_h) sum += std::min(h, 24.0);
  return sum / 64.0;
}
// From the beginning of one day to the end of the second one after it.
std::vector<uptake::HourWeather> hours_of(const days::Outlook& outlook, std::ptrdiff_t from_day, std::ptrdiff_t day) {
  const auto hours = outlook.courses.front().begin();
  return {hours + 24 * from_day, hours + 24 * (day + 2)};
}
double open_clock_h(const days::TreeCase& tree, double arrive_h) {
  return arrive_h + days::job_time(tree, scene::practice().phases).before().value;
}

days::DayKind dry_soil() {
  days::DayKind kind = scene::practice().good_day;
  kind.rew = 0.15;
  return kind;
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("digging the day before saves its own hours, and the crew arrives later for valves that open at the same hour") {
    const auto all = days::advise(day_by_hand(), scene::practice(), by_hand);
    REQUIRE(all.size() == 1);
    const Advice& dig = all.front();
    CHECK(dig.code == AdviceCode::dig_before);
    CHECK(dig.hours == dig_h);
    CHECK(dig.arrive == six + 2h + 45min);
    CHECK(dig.valves_open == as_is().valves_open);
    CHECK(dig.arrive_otherwise == six + 2h);
    CHECK(dig.chance == 0.85);
    CHECK(dig.chance_otherwise == 0.85);
  }

  TEST_CASE("where the day is short of GO the dug flare opens the valves earlier if that is surer, and what the tree loses is counted") {
    DayAsAnswered day = day_by_hand();
    day.chance = 0.7;
    const auto run = [](const Change& change) {
      Trial trial = by_hand(change);
      trial.chance = 0.7;
      if (change.flare_dug && !change.arrive) {
        trial.chance = 0.82;
        trial.flush_h = 5.75;  // it drinks slower in the earlier morning
      }
      return trial;
    };
    const auto all = days::advise(day, scene::practice(), run);
    const Advice* dig = find(all, AdviceCode::dig_before);
    REQUIRE(dig);
    CHECK(dig->arrive == dig->arrive_otherwise);
    CHECK(dig->valves_open == as_is().valves_open - 45min);
    CHECK(dig->hours == within(dig_h - 0.25, 1e-12));
    CHECK(dig->verdict == Verdict::go);
    CHECK(dig->verdict_otherwise == Verdict::tight);
  }

  TEST_CASE("chances are the day's own with the difference that the change makes, held to 0 and 1") {
    DayAsAnswered day = day_by_hand();
    day.chance = 0.7;
    day.leaves_dry = true;
    double lost = 0.1;
    const auto run = [&](const Change& change) {
      Trial trial = by_hand(change);
      trial.chance = change.wetted_share > 0.0 ? 0.8 - lost : 0.8;  // fewer draws say 0.8 where all say 0.7
      trial.dose_h = change.wetted_share > 0.0 ? 6.0 : 5.0;
      return trial;
    };
    const auto otherwise = [&] { return find(days::advise(day, scene::practice(), run), AdviceCode::sprinklers_off)->chance_otherwise; };
    CHECK(otherwise() == within(0.6, 1e-12));
    lost = 0.8;
    CHECK(otherwise() == 0.0);
  }

  TEST_CASE("what gains too little is not said unless it betters the verdict, and that comes first") {
    DayAsAnswered day = day_by_hand();
    day.leaves_dry = true;
    const double worth = scene::practice().advice.worth_h;
    double lost_h = worth - 0.01, chance = 0.85;
    const auto run = [&](const Change& change) {
      Trial trial = by_hand(change);
      if (change.wetted_share > 0.0) {
        trial.dose_h += lost_h;
        trial.chance = chance;
      }
      return trial;
    };
    CHECK_FALSE(find(days::advise(day, scene::practice(), run), AdviceCode::sprinklers_off));
    lost_h = worth;
    auto all = days::advise(day, scene::practice(), run);
    REQUIRE(all.size() == 2);
    CHECK(all.back().code == AdviceCode::sprinklers_off);
    lost_h = 0.1;
    chance = 0.7;
    all = days::advise(day, scene::practice(), run);
    REQUIRE(all.size() == 2);
    CHECK(all.front().code == AdviceCode::sprinklers_off);
    CHECK(all.front().betters);
    // A verdict that turns on a point of chance is not better for it, and one that turns the wrong way is no advice.
    day.chance = 0.805;
    chance = 0.84;
    CHECK_FALSE(find(days::advise(day, scene::practice(), run), AdviceCode::sprinklers_off));
    day.chance = 0.79;
    chance = 0.9;
    lost_h = worth;
    CHECK_FALSE(find(days::advise(day, scene::practice(), run), AdviceCode::sprinklers_off));
    day.leaves_dry = false;
    CHECK_FALSE(find(days::advise(day, scene::practice(), run), AdviceCode::sprinklers_off));
  }

  TEST_CASE("a day not worth going gets no advice but to soak dry soil, and that only where there is time") {
    DayAsAnswered day = day_by_hand();
    day.chance = 0.2;
    day.leaves_dry = true;
    day.soil_costs_h = 1.0;
    day.soaking = days::Soaking{scene::july_14 - std::chrono::days{2}, 0.1};
    double surer = 0.3;
    const auto run = [&](const Change& change) {
      Trial trial = by_hand(change);
      trial.chance = change.soak_rew > 0.0 ? surer : 0.2;
      trial.dose_h = 8.0 + change.wetted_share - 10.0 * change.soak_rew;
      return trial;
    };
    const auto all = days::advise(day, scene::practice(), run);
    REQUIRE(all.size() == 1);
    CHECK(all.front().code == AdviceCode::soak);
    CHECK(all.front().hours == within(1.0, 1e-12));
    CHECK(all.front().soak_on == scene::july_14 - std::chrono::days{2});
    surer = 0.2;  // a hold bars the day whatever the soil
    CHECK(days::advise(day, scene::practice(), run).empty());
    surer = 0.3;
    day.soil_costs_h = 0.5 * scene::practice().advice.worth_h;
    CHECK(days::advise(day, scene::practice(), run).empty());
    day.soil_costs_h = 1.0;
    day.soaking.reset();
    CHECK(days::advise(day, scene::practice(), run).empty());
  }

  TEST_CASE("a start outside the hours allowed is told if it betters the verdict, the nearest that does") {
    DayAsAnswered day = day_by_hand();
    day.chance = 0.7;
    day.dig_h = 0.0;
    const double each_half_hour = 0.06;
    const auto run = [&](const Change& change) {
      Trial trial = by_hand(change);
      const double earlier_h = std::chrono::duration<double, std::ratio<3600>>(as_is().arrive - trial.arrive).count();
      trial.chance = 0.7 + each_half_hour * 2.0 * earlier_h;
      return trial;
    };
    const auto all = days::advise(day, scene::practice(), run);
    REQUIRE(all.size() == 1);
    CHECK(all.front().code == AdviceCode::wider_window);
    CHECK(all.front().arrive == six + 1h);  // 0.7 + 2 x 0.06 passes the 0.8 of GO
    CHECK(all.front().verdict == Verdict::go);
    // A start inside the window, a day that is GO already, and a reach too short gain nothing.
    day.earliest_arrival -= 1h;
    CHECK_FALSE(find(days::advise(day, scene::practice(), run), AdviceCode::wider_window));
    day.earliest_arrival += 1h;
    day.chance = 0.8;
    CHECK_FALSE(find(days::advise(day, scene::practice(), run), AdviceCode::wider_window));
    day.chance = 0.7;
    days::Practice narrow = scene::practice();
    narrow.advice.window_reach_h = 0.5;
    CHECK_FALSE(find(days::advise(day, narrow, run), AdviceCode::wider_window));
  }

  TEST_CASE("an inch on the root zone raises its water by hand, no further than the room it had since") {
    const days::TreeCase tree = scene::elm(100);
    std::vector<uptake::HourWeather> since(30);
    for (auto& hour : since) hour.rew = 0.3;
    // 25 mm over a zone of 1 m.
    CHECK(days::soak_rew(tree.curve, units::Metres{1.0}, 25.0, since) == within(0.025 / tree.curve.available(), 1e-12));
    CHECK(days::soak_rew(tree.curve, units::Metres{0.5}, 25.0, since) == within(0.05 / tree.curve.available(), 1e-12));
    since[12].rew = 0.96;  // rain filled it for an hour
    CHECK(days::soak_rew(tree.curve, units::Metres{1.0}, 25.0, since) == within(0.04, 1e-12));
    since[12].rew = 1.1;
    CHECK(days::soak_rew(tree.curve, units::Metres{1.0}, 25.0, since) == 0.0);
  }

  TEST_CASE("other water changes the soil of every hour and the leaves of one") {
    const days::TreeCase tree = scene::elm(100);
    auto hours = days::day_of_kind(scene::practice().good_day, scene::site, six, 24);
    hours[20].rew = 0.99;
    hours[21].rew = 1.2;
    const std::vector as_is{uptake::Scenario{hours, std::vector<uptake::Shift<units::Lanes>>(24)}};
    const auto soaked = days::rewatered(as_is, tree.subject, {.soak_rew = 0.05}, 4).front().hours;
    CHECK(soaked[0].rew == within(hours[0].rew + 0.05, 1e-12));
    CHECK(soaked[20].rew == 1.0);
    CHECK(soaked[21].rew == 1.2);
    CHECK(soaked[3].reference_mm == hours[3].reference_mm);
    const auto wetted = days::rewatered(as_is, tree.subject, {.wetted_share = 0.5}, 4).front().hours;
    for (std::size_t i = 0; i < 24; ++i) CHECK((wetted[i].reference_mm < 0.0) == (i == 3));
    // Half of what the middle tree's leaves hold wets half of them.
    const auto plant = uptake::plant(tree.subject, uptake::central_draw(tree.subject.source));
    double water_mm = 0.0;
    CHECK(tree::wet_hour(tree.subject.source.tree.wet_crown, plant.size.lai, 0.0, wetted[3].reference_mm, water_mm) == within(0.5, 1e-12));
    // A thin crown is wetted by as much less as it holds less.
    auto thin = as_is;
    thin.front().hours[3].leaf_share = 0.4;
    CHECK(days::rewatered(thin, tree.subject, {.wetted_share = 0.5}, 4).front().hours[3].reference_mm ==
          within(0.4 * wetted[3].reference_mm, 1e-12));
  }

  TEST_CASE("on a day that is GO the dug flare saves the digging of the job, on the model as by hand") {
    const days::TreeCase tree = scene::elm(120);
    const auto answer = scene::answer(tree, scene::good_days(), scene::settings());
    REQUIRE(answer.verdict == Verdict::go);
    const Advice* dig = find(answer.advice, AdviceCode::dig_before);
    REQUIRE(dig);
    // Instants are kept to the second, starts of runs to a step.
    CHECK(dig->hours == within(days::job_time(tree, scene::practice().phases).dig.value, 0.01));
    CHECK(dig->chance == within(dig->chance_otherwise, 0.02));
  }

  TEST_CASE("wetted leaves cost what the same draws lose on them, and are not spoken of when it rains") {
    const days::TreeCase tree = scene::elm(60);
    days::Settings settings = sure_settings();
    settings.practice.day.earliest_start_h = settings.practice.day.latest_start_h = 7.0;
    settings.practice.advice.worth_h = 0.01;
    const auto outlook = scene::good_days();
    const Advice* told = nullptr;
    const auto answer = scene::answer(tree, outlook, settings);
    told = find(answer.advice, AdviceCode::sprinklers_off);
    REQUIRE(told);
    CHECK(told->hours > 0.0);
    CHECK(told->chance == within(answer.chance_all_clear, 1e-12));
    // A wet crown pulls less while the ports are drilled and less air is drawn in: a hair of chance the other way.
    CHECK(told->chance_otherwise <= told->chance + 0.001);
    auto hours = hours_of(outlook, 0, 0);
    const double open_h = open_clock_h(tree, 7.0), dry_h = mean_dose_h(tree, hours, open_h);
    const auto plant = uptake::plant(tree.subject, uptake::central_draw(tree.subject.source));
    const double store_mm = tree.subject.source.tree.wet_crown.store_mm_per_lai * plant.size.lai;
    hours[static_cast<std::size_t>(open_h) - 1].reference_mm = -settings.practice.advice.wetted_share * store_mm;
    CHECK(told->hours == within(mean_dose_h(tree, hours, open_h) - dry_h, 1e-9));
    for (const auto& wet : scene::answers(tree, scene::rainy_days(2), settings)) CHECK_FALSE(find(wet.advice, AdviceCode::sprinklers_off));
  }

  TEST_CASE("soaking dry soil gains what the same draws gain on wetter soil, from two days ahead on") {
    const days::TreeCase tree = scene::elm(90);
    days::Settings settings = sure_settings();
    settings.practice.day.earliest_start_h = settings.practice.day.latest_start_h = 8.0;
    const auto outlook = scene::outlook(dry_soil(), 4);
    const auto answers = scene::answers(tree, outlook, settings);
    for (const int day : {0, 1}) CHECK_FALSE(find(answers[static_cast<std::size_t>(day)].advice, AdviceCode::soak));
    const Advice* soak = find(answers[2].advice, AdviceCode::soak);
    REQUIRE(soak);
    CHECK(soak->soak_on == scene::july_14);
    CHECK(soak->chance >= soak->chance_otherwise);
    // The dry tree has lived through both days before; the soaked one is followed from the day before on.
    const double open_h = open_clock_h(tree, 8.0), dry_h = mean_dose_h(tree, hours_of(outlook, 0, 2), 48.0 + open_h);
    auto soaked = hours_of(outlook, 1, 2);
    for (auto& hour : soaked) hour.rew += 0.025 / tree.curve.available() / tree.root_zone.value;
    CHECK(soak->hours == within(dry_h - mean_dose_h(tree, soaked, 24.0 + open_h), 1e-9));
    // Moist soil asks for no water, nor does dry soil that rain will fill in between.
    for (const auto& moist : scene::answers(tree, scene::good_days(4), settings)) CHECK_FALSE(find(moist.advice, AdviceCode::soak));
    auto rained_on = outlook;
    for (std::size_t hour = 40; hour < rained_on.hours(); ++hour) rained_on.courses.front()[hour].rew = 0.98;
    for (const auto& filled : scene::answers(tree, rained_on, settings)) CHECK_FALSE(find(filled.advice, AdviceCode::soak));
  }

  TEST_CASE("even on dry soil a day ahead is enough for a tree to forget that it began at rest") {
    const days::TreeCase tree = scene::elm(90);
    const auto outlook = scene::outlook(dry_soil(), 3);
    const double open_h = open_clock_h(tree, 8.0);
    const auto followed_for = [&](std::ptrdiff_t ahead) {
      return mean_dose_h(tree, hours_of(outlook, 2 - ahead, 2), 24.0 * static_cast<double>(ahead) + open_h);
    };
    CHECK(followed_for(1) == within(followed_for(2), 0.02));
  }

  TEST_CASE("a later start than the earliest is told with what the same draws drink faster") {
    const days::TreeCase tree = scene::elm(60);
    days::Settings settings = sure_settings();
    auto outlook = scene::good_days();
    for (std::size_t hour = 0; hour < 10; ++hour) outlook.courses.front()[hour].rain_mm = 1.0;  // a wet morning
    const auto answer = scene::answer(tree, outlook, settings);
    const Advice* start = find(answer.advice, AdviceCode::start_hour);
    REQUIRE(start);
    CHECK(start->arrive == answer.arrive);
    CHECK(scene::clock_h(tree, start->arrive_otherwise) == settings.practice.day.earliest_start_h);
    const auto hours = hours_of(outlook, 0, 0);
    const double early_h = mean_dose_h(tree, hours, open_clock_h(tree, settings.practice.day.earliest_start_h));
    CHECK(start->hours == within(early_h - mean_dose_h(tree, hours, open_clock_h(tree, scene::clock_h(tree, answer.arrive))), 1e-6));
    CHECK(start->hours >= settings.practice.advice.worth_h);
    // With one start allowed there is none to advise.
    settings.practice.day.latest_start_h = settings.practice.day.earliest_start_h;
    CHECK_FALSE(find(scene::answer(tree, outlook, settings).advice, AdviceCode::start_hour));
  }

  TEST_CASE("an hour outside the window is found where it makes a day GO, with the holds of that hour") {
    const days::TreeCase tree = scene::elm(120);
    days::Settings settings = scene::settings();
    // A crew allowed late starts only, on a day on which an earlier one would do.
    settings.practice.day.earliest_start_h = settings.practice.day.latest_start_h = 13.0;
    auto outlook = scene::good_days();
    const auto answer = scene::answer(tree, outlook, settings);
    REQUIRE(answer.verdict != Verdict::go);
    const Advice* wider = find(answer.advice, AdviceCode::wider_window);
    REQUIRE(wider);
    CHECK(wider->arrive < answer.arrive);
    CHECK(wider->arrive >= answer.arrive - 2h);
    CHECK(wider->verdict < answer.verdict);
    // Gusts until one bar those hours too.
    for (std::size_t hour = 9; hour < 13; ++hour) outlook.signs[hour].gust_m_s = 25.0;
    CHECK_FALSE(find(scene::answer(tree, outlook, settings).advice, AdviceCode::wider_window));
  }
}
