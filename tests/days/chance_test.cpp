// The numbers behind an answer: the chance to finish, its sampling error, the expected cost and the choice of the start.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "days/crew_day.h"
#include "days/day_answer.h"
#include "days/forecast_error.h"
#include "days/scene.h"
#include "support/within.h"
#include "units/random.h"

using days::DayAnswer;
using days::TreeCase;

namespace {

// A day on which a large elm may or may not finish.
days::DayKind middling() {
  days::DayKind kind = scene::practice().good_day;
  kind.cloud_pct = 80.0;
  kind.rew = 0.4;
  return kind;
}

// A day on which it rather does not: soil near wilting.
days::DayKind hard() {
  days::DayKind kind = middling();
  kind.rew = 0.1;
  return kind;
}

std::vector<double> start_grid(const days::WorkDay& day) {
  std::vector<double> starts;
  for (double h = day.earliest_start_h; h <= day.latest_start_h + 1e-9; h += day.start_step_h) starts.push_back(h);
  return starts;
}

// Hours on the reference good day from 9 o'clock.
double good_hours(const TreeCase& tree) {
  const auto midnight = tree.zone.start_of(scene::july_14);
  return days::reference_hours(tree.subject, tree.curve, days::day_of_kind(scene::practice().good_day, scene::site, midnight, 33), 9.0);
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("a tree that drinks for longer than counts might as well never finish, one that drinks for less might not") {
    const TreeCase tree = scene::elm(130);
    auto practice = scene::practice();
    const auto drawn = scene::ensemble(tree, 8);
    for (const double ln_sd : {0.0, 0.2, 0.5}) {
      practice.phases.ln_sd = ln_sd;
      const days::CrewDay crew{tree, practice, drawn, 5.0};
      const auto arrive = crew.arrivals(scene::july_14).front();
      const auto weighed = [&](double drinking_h) { return crew.weigh(scene::july_14, arrive, {}, {{drinking_h}, {drinking_h}}); };
      const double counts_h = crew.longest_that_counts_h(scene::july_14, arrive);
      const days::Plan beyond = weighed(counts_h + 1e-3), never = weighed(uptake::never), within_it = weighed(0.8 * counts_h);
      CAPTURE(ln_sd);
      REQUIRE(counts_h > 1.0);
      CHECK(beyond.chance_dose == within(never.chance_dose, 1e-11));
      CHECK(beyond.chance_clear == within(never.chance_clear, 1e-11));
      CHECK(beyond.cost_h == within(never.cost_h, 1e-9));
      CHECK(within_it.chance_dose > never.chance_dose + 1e-9);
      // Too late an arrival leaves nothing that counts.
      CHECK(crew.longest_that_counts_h(scene::july_14, crew.off_site_by(scene::july_14)) == 0.0);
    }
  }

  TEST_CASE("a day finds tree and leaves as the days before left them") {
    const TreeCase tree = scene::elm(130);
    auto outlook = scene::outlook(hard(), 3);
    for (std::size_t hour = 20; hour < 24; ++hour) {
      outlook.courses.front()[hour].rain_mm = 1.0;
      outlook.signs[hour].rain_chance_pct = 50.0;
    }
    const auto answers = scene::answers(tree, outlook, scene::starting_at(8), 64);
    auto drawn = scene::ensemble(tree, 64);
    const days::ForecastError error{outlook, scene::practice().weather_error, drawn.blocks(), 1};
    drawn.set_hours(error.scenarios(0, outlook.hours()), 0.0);
    const double open_h = 8.0 + days::job_time(tree, scene::practice().phases).before().value;
    for (const std::size_t day : {0U, 1U, 2U}) {
      const auto alone = days::quantiles(drawn.finish(24.0 * static_cast<double>(day) + open_h, 24.0).dose_h);
      REQUIRE(alone.p10);
      CHECK(answers[day].uptake_h.p10 == alone.p10);
      CHECK(answers[day].uptake_h.p50 == alone.p50);
    }
  }

  TEST_CASE("chance and cost are those of the draws counted one by one, each at a thousand paces") {
    const TreeCase tree = scene::elm(130);
    const auto& practice = scene::practice();
    auto outlook = scene::outlook(middling());
    outlook.signs[18].gust_m_s = 25.0;  // a hold from six in the evening on
    const DayAnswer answer = scene::answer(tree, outlook, scene::starting_at(10));

    auto drawn = scene::ensemble(tree);
    drawn.set_hours(days::ForecastError{outlook, practice.weather_error, drawn.blocks(), 1}.scenarios(0, 48), 0.0);
    const auto job = days::job_time(tree, practice.phases);
    const double before = job.before().value, after = job.after().value, shut = 10.0 - after;  // off site ten hours after arrival
    const auto finish = drawn.finish(10.0 + before, 24.0);
    const double comeback = practice.decision.return_cost_h + before + good_hours(tree) + after;
    double dose = 0.0, clear = 0.0, cost = 0.0;
    std::vector<double> own_cost(256, 0.0);
    constexpr int paces = 1000;
    for (std::size_t i = 0; i < 256; ++i)
      for (int p = 0; p < paces; ++p) {
        const double pace = std::exp(practice.phases.ln_sd * units::normal_quantile((p + 0.5) / paces));
        const double done = pace * before + finish.flush_h[i];
        const bool all_clear = done <= 8.0;
        dose += pace * before + finish.dose_h[i] <= shut ? 1.0 : 0.0;
        clear += all_clear ? 1.0 : 0.0;
        own_cost[i] += (pace * after + std::min(done, shut) + (all_clear ? 0.0 : comeback)) / paces;
      }
    for (const double h : own_cost) cost += h / 256.0;
    REQUIRE(dose > 0.1 * 256 * paces);
    REQUIRE(dose < 0.9 * 256 * paces);
    REQUIRE(clear < 0.98 * dose);
    // Instants are kept to the second, the starts of runs to three minutes.
    CHECK(answer.chance_to_finish == within(dose / 256.0 / paces, 0.002));
    CHECK(answer.chance_all_clear == within(clear / 256.0 / paces, 0.002));
    CHECK(answer.expected_cost_h == within(cost, 0.02));
    REQUIRE(answer.cost_by_draw_h.size() == 256);
    for (std::size_t i = 0; i < 256; i += 17) CHECK(answer.cost_by_draw_h[i] == within(own_cost[i], 0.2));
  }

  TEST_CASE("a job that is sure not to finish costs the whole day and another job") {
    TreeCase tree = scene::elm(120);
    tree.subject.dose = units::Litres{1e5};
    days::Settings settings = scene::starting_at(8);
    settings.practice.phases.ln_sd = 0.0;
    const auto job = days::job_time(tree, settings.practice.phases);
    const DayAnswer answer = scene::answer(tree, scene::good_days(), settings, 64);
    // A dose that never goes in counts 24 h on the good day too.
    const double again = settings.practice.decision.return_cost_h + job.before().value + 24.0 + job.after().value;
    CHECK(answer.expected_cost_h == within(12.0 + again, 1e-3));
  }

  TEST_CASE("the start is the surest up to the owner's GO chance, and the cheapest of those that reach it") {
    const double noise = 0.01;  // of the search
    for (const double dbh_cm : {80.0, 130.0})
      for (const auto& outlook : {scene::good_days(), scene::outlook(middling()), scene::outlook(hard())}) {
        const TreeCase tree = scene::elm(dbh_cm);
        const double go = scene::practice().decision.go_chance;
        // As many draws as the search uses: what it saw is what is told.
        const DayAnswer chosen = scene::answer(tree, outlook, scene::settings(), 64);
        for (const double start : start_grid(scene::practice().day)) {
          const DayAnswer other = scene::answer(tree, outlook, scene::starting_at(start), 64);
          CAPTURE(dbh_cm);
          CAPTURE(start);
          // Each step of the search may give away the noise.
          CHECK(std::min(chosen.chance_all_clear, go) >= std::min(other.chance_all_clear, go) - 3.0 * noise);
          if (other.chance_all_clear >= go) CHECK(chosen.expected_cost_h <= other.expected_cost_h + 1e-6);
        }
      }
  }

  TEST_CASE("where no start is clear of holds the likeliest without them is shown, and of hopeless starts the earliest") {
    TreeCase tree = scene::elm(120);
    auto outlook = scene::good_days();
    for (std::size_t hour = 6; hour < 20; ++hour) outlook.signs[hour].gust_m_s = 25.0;
    const DayAnswer barred = scene::answer(tree, outlook, scene::settings(), 64);
    CHECK(barred.chance_all_clear == 0.0);
    for (const double start : start_grid(scene::practice().day))
      CHECK(barred.chance_to_finish >= scene::answer(tree, outlook, scene::starting_at(start), 64).chance_to_finish - 0.03);
    tree.subject.dose = units::Litres{1e5};
    const DayAnswer hopeless = scene::answer(tree, scene::good_days(), scene::settings(), 64);
    CHECK(scene::clock_h(tree, hopeless.arrive) == scene::practice().day.earliest_start_h);
  }

  TEST_CASE("the same seed gives the same answer, another one within the sampling error") {
    for (const double dbh_cm : {70.0, 130.0}) {
      const TreeCase tree = scene::elm(dbh_cm);
      days::Settings settings = scene::settings();
      const auto outlook = scene::outlook(middling(), 3);
      const auto one = scene::answers(tree, outlook, settings), again = scene::answers(tree, outlook, settings);
      settings = scene::starting_at(9);
      const auto first = scene::answers(tree, outlook, settings);
      settings.seed = 77;
      const auto other = scene::answers(tree, outlook, settings);
      for (std::size_t day = 0; day < 3; ++day) {
        CHECK(one[day].arrive == again[day].arrive);
        CHECK(one[day].chance_to_finish == again[day].chance_to_finish);
        CHECK(one[day].expected_cost_h == again[day].expected_cost_h);
        CHECK(one[day].uptake_h.p90 == again[day].uptake_h.p90);
        CHECK(one[day].rate_l_h == again[day].rate_l_h);
        CHECK(first[day].uptake_h.p50 != other[day].uptake_h.p50);
        const double error = std::hypot(first[day].mc_error, other[day].mc_error);
        CHECK(first[day].chance_to_finish == within(other[day].chance_to_finish, 3.0 * error + 1e-9));
      }
    }
  }

  TEST_CASE("twice the draws move the chance by less than 2 points") {
    double largest = 0.0;
    for (const double dbh_cm : {80.0, 120.0, 150.0})
      for (const auto& outlook : {scene::good_days(), scene::outlook(middling())}) {
        const TreeCase tree = scene::elm(dbh_cm);
        const auto chance = [&](std::size_t draws) { return scene::answer(tree, outlook, scene::starting_at(10), draws).chance_to_finish; };
        largest = std::max(largest, std::abs(chance(256) - chance(512)));
      }
    MESSAGE("largest change of the chance from 256 to 512 draws: " << largest);
    CHECK(largest < 0.02);
  }

  TEST_CASE("more pressure and moister soil do not make finishing less likely") {
    const auto rising = [](auto answer_at, const std::vector<double>& steps) {
      double before = 0.0, first = -1.0, last = 0.0;
      for (const double step : steps) {
        const DayAnswer answer = answer_at(step);
        CAPTURE(step);
        CHECK(answer.chance_to_finish >= before - 2.0 * answer.mc_error);
        before = std::max(before, answer.chance_to_finish);
        if (first < 0.0) first = answer.chance_to_finish;
        last = answer.chance_to_finish;
      }
      CHECK(last > first + 0.05);
    };
    const auto settings = scene::starting_at(9);
    rising(
        [&](double kpa) {
          TreeCase tree = scene::elm(130);
          tree.subject.pressure = units::Megapascals{kpa / 1000.0};
          return scene::answer(tree, scene::outlook(middling()), settings);
        },
        {40, 60, 85, 120, 180});
    rising(
        [&](double rew) {
          days::DayKind kind = middling();
          kind.rew = rew;
          return scene::answer(scene::elm(110), scene::outlook(kind), settings);
        },
        {0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 0.9, 1.0});
  }

  TEST_CASE("a later day of the same forecast is less certain") {
    const auto answers = scene::answers(scene::elm(100), scene::good_days(9), scene::starting_at(8));
    const auto width = [](const DayAnswer& a) { return *a.uptake_h.p90 - *a.uptake_h.p10; };
    CHECK(width(answers[8]) > width(answers[0]));
  }
}
