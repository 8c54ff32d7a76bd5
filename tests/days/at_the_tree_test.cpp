// Readings of the tank at a job under way.
#include "days/at_the_tree.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "days/clock.h"
#include "days/job_draws.h"
#include "days/reading_trial.h"
#include "support/within.h"

using days::TankAdvice;
using uptake::Reading;

namespace {

const days::TreeCase big = scene::elm(140.0);
const days::Outlook good_day = scene::good_days();
const double dose_l = big.subject.dose.value;

days::TreeNow now(const std::vector<Reading>& readings, double shut_h = 10.0, std::optional<double> mixed_l = std::nullopt,
                  double stop_h = 24.0) {
  const days::JobSoFar job{uptake::in_order(readings, days::horizon_h, dose_l).value(), shut_h, std::min(shut_h, stop_h), mixed_l};
  const auto opened = good_day.begins(9);
  return days::tree_now(big, scene::practice(), job,
                        days::follow_job(big, good_day, scene::practice().weather_error, {opened, 1024, 1}, job.times_h()));
}

// What half the possible trees have taken after `h` hours.
double usual_l(double h) { return *now({{h, 1.0}}).normal_l.p50; }

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("quantiles of draws that weigh alike are those of plain draws, and a heavy draw counts as so many") {
    std::vector<double> values;
    for (int i = 0; i < 97; ++i) values.push_back(std::fmod(37.0 * i, 97.0));
    const std::vector<double> alike(97, 1.0 / 97.0);
    for (const double share : {0.0, 0.1, 0.5, 0.77, 0.9, 1.0})
      CHECK(*days::quantile(values, alike, share) == within(*days::quantile(values, share), 1e-9));
    CHECK(*days::quantile({1.0, 2.0, 3.0, 50.0}, {0.0, 0.5, 0.5, 0.0}, 0.5) == within(2.5, 1e-12));
    // A draw of double weight is two draws.
    std::vector<double> doubled = values, twice(97, 1.0 / 98.0);
    doubled.push_back(values[40]);
    twice[40] = 2.0 / 98.0;
    for (const double share : {0.1, 0.5, 0.9})
      CHECK(*days::quantile(values, twice, share) == within(*days::quantile(doubled, share), 0.02));
    const double never = uptake::never;
    CHECK(!days::quantile({1.0, never, 3.0}, {0.2, 0.6, 0.2}, 0.9));
    CHECK(days::quantile({1.0, never, 3.0}, {0.8, 0.1, 0.1}, 0.1));
  }

  TEST_CASE("no reading gives back exactly what was said before") {
    const auto before = now({});
    CHECK(*before.finish_h.p10 == within(*before.before_h.p10, 1e-9));
    CHECK(*before.finish_h.p50 == within(*before.before_h.p50, 1e-9));
    CHECK(*before.finish_h.p90 == within(*before.before_h.p90, 1e-9));
    CHECK(before.chance_to_finish == within(before.chance_before, 1e-9));
    CHECK(!before.rate_l_h);
    CHECK(!before.odd);
    CHECK(before.effective_draws == within(1024.0, 1e-6));
  }

  TEST_CASE("a job under way and the day's answer say the same of the same start") {
    // Of the third day, on damp weather whose errors grow with the lead. The job is followed from a day before, the answer from two: a tree
    // forgets that it began at rest to within 0.02 h in a day (advice_test.cpp).
    const auto days_ahead = scene::outlook(scene::damp(), 3);
    const auto day = scene::answers(big, days_ahead, scene::starting_at(7.0), 512)[2];
    const auto followed = days::follow_job(big, days_ahead, scene::practice().weather_error, {day.valves_open, 512, 1}, {});
    const auto uptake_h = days::quantiles(followed.finishes.dose_h);
    CHECK(*uptake_h.p10 == within(*day.uptake_h.p10, 0.01));
    CHECK(*uptake_h.p50 == within(*day.uptake_h.p50, 0.01));
  }

  TEST_CASE("a tree that takes more is done earlier, one that takes less later, and the range narrows") {
    const double usual = usual_l(0.5);
    const auto fast = now({{0.5, 1.3 * usual}}), even = now({{0.5, usual}}), slow = now({{0.5, 0.7 * usual}});
    CHECK(*fast.finish_h.p50 < *even.finish_h.p50);
    CHECK(*even.finish_h.p50 < *slow.finish_h.p50);
    CHECK(*even.finish_h.p90 / *even.finish_h.p10 < *even.before_h.p90 / *even.before_h.p10);
    CHECK(fast.chance_to_finish >= slow.chance_to_finish);
    CHECK(*even.finish_h.p50 == within(*even.before_h.p50, 0.6));
  }

  TEST_CASE("the order in which readings were typed does not matter") {
    const double usual = usual_l(0.5);
    const std::vector<Reading> typed{{0.25, 0.6 * usual}, {0.5, usual}, {1.0, 1.8 * usual}};
    const auto first = now(typed), again = now({typed[2], typed[0], typed[1]});
    CHECK(*first.finish_h.p50 == *again.finish_h.p50);
    CHECK(*first.finish_h.p90 == *again.finish_h.p90);
    CHECK(first.chance_to_finish == again.chance_to_finish);
    CHECK(first.sure_l == again.sure_l);
  }

  TEST_CASE("one absurd reading changes the finish by less than the range it had") {
    const double usual = usual_l(0.5);
    const std::vector<Reading> good{{0.25, 0.6 * usual}, {0.5, usual}, {1.0, 1.8 * usual}};
    const auto without = now(good);
    for (const Reading absurd : {Reading{0.3, usual}, Reading{1.1, 0.95 * dose_l}, Reading{0.9, usual}}) {
      auto readings = good;
      readings.push_back(absurd);
      const auto with = now(readings);
      CAPTURE(absurd.hours);
      CHECK(*with.finish_h.p50 > *without.finish_h.p10);
      CHECK(*with.finish_h.p50 < *without.finish_h.p90);
    }
  }

  TEST_CASE("a dose that is not in is in later, and one that is in was in by the reading") {
    CHECK(*now({{5.0, 0.99 * dose_l}}).finish_h.p10 >= 5.0);
    CHECK(*now({{5.0, dose_l}}).finish_h.p90 <= 5.0);
    CHECK(now({{5.0, dose_l}}).chance_to_finish == within(1.0, 1e-12));
  }

  TEST_CASE("what is normal by now and an hour comes from before any reading, over the time in which the rate was seen") {
    const double usual = usual_l(0.5);
    const auto a = now({{0.5, usual}}), b = now({{0.5, 0.5 * usual}});
    CHECK(*a.normal_l.p90 == *b.normal_l.p90);
    CHECK(*a.rate_l_h == within(2.0 * usual, 1e-9));
    // Six minutes are too short for a rate: it is seen since the reading before, half an hour back.
    const auto c = now({{0.5, usual}, {0.9, 1.5 * usual}, {1.0, 1.7 * usual}});
    CHECK(*c.rate_l_h == within(0.7 * usual / 0.5, 1e-9));
    CHECK(*c.normal_l_h.p50 < *a.normal_l_h.p50);
  }

  TEST_CASE("a tank is mixed in full only if it is sure to go in, else so much of it as is") {
    const double usual = usual_l(1.0), tank_l = scene::practice().set_up.tank_l;
    CHECK(now({{1.0, usual}}, 12.0).tank == TankAdvice::mix);
    CHECK(now({{1.0, usual}}, 12.0).mix_l == within(tank_l, 1e-9));
    CHECK(now({{1.0, usual}}, 1.5).tank == TankAdvice::do_not_mix);
    CHECK(now({{1.0, usual}}, 12.0, dose_l).tank == TankAdvice::nothing_left);
    CHECK(now({{1.0, usual}}, 12.0, dose_l - 20.0).mix_l == within(20.0, 1e-9));
    const auto part = now({{1.0, usual}}, 3.0, usual + 10.0);
    CHECK(part.tank == TankAdvice::mix_part);
    CHECK(part.mix_l == within(part.sure_l - 10.0, 1e-9));
    CHECK(part.mix_l < tank_l);
    // A hold an hour on lets in less than the shut-off does, and leaves the odds alone.
    const auto held = now({{1.0, usual}}, 12.0, std::nullopt, 2.0);
    CHECK(held.sure_l < now({{1.0, usual}}, 12.0).sure_l);
    CHECK(held.chance_to_finish == now({{1.0, usual}}, 12.0).chance_to_finish);
    // Without a word on what was mixed: as many tanks as what is taken needed.
    CHECK(now({{1.0, usual}}).mixed_l == within(tank_l, 1e-9));
    CHECK(now({{4.0, tank_l + 5.0}}).mixed_l == within(2.0 * tank_l, 1e-9));
  }

  TEST_CASE("what is sure to go in goes in as often as is said") {
    const double usual = usual_l(1.0);
    const days::JobSoFar job{{{1.0, usual}}, 3.0, 3.0, std::nullopt};
    const auto drawn = days::follow_job(big, good_day, scene::practice().weather_error, {good_day.begins(9), 1024, 1}, job.times_h());
    const auto weights = uptake::weigh(job.readings, drawn.volumes_l, 1024, scene::practice().readings.error);
    const double sure_l = now({{1.0, usual}}, 3.0).sure_l + usual;
    double share = 0.0;
    for (std::size_t draw = 0; draw < 1024; ++draw) share += drawn.volumes_l[1][draw] >= sure_l ? weights.share[draw] : 0.0;
    CHECK(share == within(scene::practice().set_up.tank_sure, 0.02));
  }

  TEST_CASE("after each reading p10 to p90 of the finish holds four jobs in five") {
    // 400 forecasts and three jobs on each; tests/soak/readings_soak.cpp is the long form. Three standard deviations of the binomial.
    const auto result = reading_trial::readings(5000, 400, 3, 2048);
    for (std::size_t i = 0; i < result.size(); ++i) {
      MESSAGE(i << " readings: p10 to p90 holds " << result[i].coverage() << " of " << result[i].jobs << ", median p90/p10 "
                << reading_trial::median(result[i].widths) << ", on working days " << reading_trial::median(result[i].widths_on_work_days));
      CHECK(result[i].jobs > 700.0);
      CHECK(result[i].coverage() == within(0.8, 3.0 * std::sqrt(0.16 / result[i].jobs)));
    }
    CHECK(reading_trial::median(result[2].widths) <= 1.6);
  }
}
