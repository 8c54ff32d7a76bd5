#include "days/day_answer.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "air/humidity.h"
#include "days/scene.h"
#include "support/within.h"

using days::DayAnswer;
using days::HoldCode;
using days::Outlook;
using days::TreeCase;
using days::Verdict;
using namespace std::chrono_literals;

namespace {

// Gusts from one o'clock to another on the first day of an outlook that begins at midnight.
Outlook with_gusts(Outlook outlook, std::size_t from, std::size_t until) {
  for (std::size_t hour = from; hour < until; ++hour) outlook.signs[hour].gust_m_s = 25.0;
  return outlook;
}

std::vector<units::LocalDay> dates(const std::vector<DayAnswer>& answers) {
  std::vector<units::LocalDay> dates;
  for (const DayAnswer& answer : answers) dates.push_back(answer.date);
  return dates;
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("every full local day ahead is answered for, in order, and no other") {
    const TreeCase tree = scene::elm(50);
    const days::Settings settings = scene::starting_at(7);
    Outlook outlook = scene::good_days(4);
    const auto listed = [&](units::UtcTime now) {
      auto drawn = scene::ensemble(tree, 8);
      return dates(days::answer_days(tree, outlook, drawn, settings, now));
    };
    const auto day = [](int n) { return scene::july_14 + std::chrono::days{n}; };
    using Days = std::vector<units::LocalDay>;
    CHECK(listed(outlook.begins(0)) == Days{day(0), day(1), day(2), day(3)});
    CHECK(listed(outlook.begins(0) - 100h) == Days{day(0), day(1), day(2), day(3)});
    CHECK(listed(outlook.begins(0) + 1s) == Days{day(1), day(2), day(3)});
    CHECK(listed(outlook.begins(80)).empty());
    // An hour short of the end of the fourth day, and an hour late for the first.
    outlook.known -= 1;
    CHECK(listed(outlook.begins(0)) == Days{day(0), day(1), day(2)});
    outlook.first_label += 1h;
    outlook.known -= 1;
    CHECK(listed(outlook.begins(0)) == Days{day(1), day(2)});
  }

  TEST_CASE("the days on which the clock is changed have 23 and 25 hours and keep their wall clock") {
    const TreeCase tree = scene::elm(50);
    const auto changed = [&](std::chrono::year_month_day eve) {
      const auto outlook = scene::outlook(scene::practice().good_day, 3, scene::date(eve), tree.zone, 1.0);
      return scene::answers(tree, outlook, scene::settings(), 8);
    };
    const auto spring = changed(2026y / 3 / 7), autumn = changed(2026y / 10 / 31);
    REQUIRE(spring.size() == 3);
    REQUIRE(autumn.size() == 3);
    // A millimetre an hour counts the hours.
    const auto rain = [](const std::vector<DayAnswer>& days, std::size_t i) { return days[i].conditions.rain_today_mm; };
    CHECK(rain(spring, 0) == 24.0);
    CHECK(rain(spring, 1) == 23.0);
    CHECK(rain(spring, 2) == 24.0);
    CHECK(rain(autumn, 0) == 24.0);
    CHECK(rain(autumn, 1) == 25.0);
    CHECK(rain(autumn, 2) == 24.0);
    for (const auto& answers : {spring, autumn})
      for (const DayAnswer& answer : answers) {
        CHECK(scene::clock_h(tree, answer.off_site_by) == 20.0);
        CHECK(tree.zone.day_of(answer.arrive) == answer.date);
        CHECK(std::fmod(scene::clock_h(tree, answer.arrive), 0.5) == 0.0);
      }
  }

  TEST_CASE("in a zone of half hours a day begins on the half hour") {
    const TreeCase tree = scene::elm(50, {"Asia/Kolkata", {{units::UtcTime{}, 5h + 30min}}});
    const auto outlook = scene::outlook(scene::practice().good_day, 2, scene::july_14, tree.zone);
    auto drawn = scene::ensemble(tree, 8);
    const auto answers = days::answer_days(tree, outlook, drawn, scene::starting_at(7), tree.zone.start_of(scene::july_14));
    REQUIRE(answers.size() == 2);
    CHECK(answers[0].date == scene::july_14);
    CHECK(scene::clock_h(tree, answers[0].arrive) == 7.0);
  }

  TEST_CASE("hours of a job follow one another from arrival to off site") {
    const TreeCase tree = scene::elm(120);
    const auto job = days::job_time(tree, scene::practice().phases);
    for (const DayAnswer& a : scene::answers(tree, scene::good_days(2), scene::settings())) {
      const auto hours = [](units::UtcTime from, units::UtcTime until) {
        return std::chrono::duration<double, std::ratio<3600>>(until - from).count();
      };
      CHECK(hours(a.arrive, a.valves_open) == within(job.before().value, 1e-3));
      CHECK(hours(a.valves_shut_by, a.off_site_by) == within(job.after().value, 1e-3));
      CHECK(scene::clock_h(tree, a.off_site_by) == scene::practice().day.off_site_h);
      REQUIRE(a.on_site_h.p90);
      CHECK(*a.uptake_h.p10 < *a.uptake_h.p50);
      CHECK(*a.uptake_h.p50 < *a.uptake_h.p90);
      CHECK(*a.on_site_h.p50 > job.before().value + job.after().value + *a.uptake_h.p50);
      CHECK(hours(a.arrive, *a.off_site_p50) == within(*a.on_site_h.p50, 1e-3));
      CHECK(hours(a.arrive, *a.off_site_p90) == within(*a.on_site_h.p90, 1e-3));
      CHECK(*a.peak_rate_l_h.p50 >= a.rate_l_h.front() * 0.999);
      CHECK(a.rate_l_h.front() > 0.0);
    }
  }

  TEST_CASE("a good day is GO for a veteran elm, a day of rain NO GO") {
    const TreeCase veteran = scene::elm(120);
    const DayAnswer good = scene::answer(veteran, scene::good_days(), scene::settings());
    CHECK(good.verdict == Verdict::go);
    CHECK(good.holds.empty());
    CHECK(good.why.by_factor.front().hours == within(0.0, 0.05));
    const DayAnswer rain = scene::answer(veteran, scene::rainy_days(), scene::settings());
    CHECK(rain.verdict == Verdict::no_go);
    CHECK(std::any_of(rain.holds.begin(), rain.holds.end(), [](const auto& h) { return h.code == HoldCode::wet_crown; }));
    CHECK(rain.expected_cost_h > good.expected_cost_h);
    CHECK(rain.chance_to_finish < good.chance_to_finish);
  }

  TEST_CASE(
      "what else the day could be begun with: hours kept for it that suffice as often as practice asks, and no chance above the best") {
    const days::TreeCase tree = scene::elm(120.0);
    const DayAnswer day = scene::answer(tree, scene::good_days(), scene::settings());
    CHECK(day.starts.size() > 5);
    CHECK(std::ranges::is_sorted(day.starts, {}, &days::Start::arrive));
    const auto best = std::ranges::find(day.starts, day.arrive, &days::Start::arrive);
    REQUIRE(best != day.starts.end());
    CHECK(best->chance_all_clear == day.chance_all_clear);
    for (const days::Start& start : day.starts) {
      CAPTURE(units::to_text(start.arrive));
      CHECK(std::ranges::is_sorted(start.on_site_h));
      const auto enough = std::ranges::upper_bound(start.on_site_h, start.reserve_h) - start.on_site_h.begin();
      const double until_off_h = std::chrono::duration<double, std::ratio<3600>>(day.off_site_by - start.arrive).count();
      // So long suffices that often, unless the crew must leave first.
      if (start.reserve_h < until_off_h)
        CHECK(static_cast<double>(enough) / static_cast<double>(start.on_site_h.size()) ==
              within(scene::practice().decision.reserve_sureness, 1.5 / static_cast<double>(start.on_site_h.size())));
      CHECK(start.spent_h > 0.0);
      CHECK(start.spent_h <= until_off_h + 1.0);
    }
  }

  TEST_CASE("the verdict turns at the owner's chances, on the chance that all is clear") {
    const TreeCase tree = scene::elm(120);
    days::Settings settings = scene::starting_at(12);
    const auto verdict = [&](double go, double tight) {
      settings.practice.decision.go_chance = go;
      settings.practice.decision.tight_chance = tight;
      return scene::answer(tree, scene::good_days(), settings).verdict;
    };
    const double chance = scene::answer(tree, scene::good_days(), settings).chance_all_clear;
    REQUIRE(chance > 0.1);
    REQUIRE(chance < 0.9);
    CHECK(verdict(chance, 0.05) == Verdict::go);
    CHECK(verdict(chance + 1e-6, chance) == Verdict::tight);
    CHECK(verdict(chance + 1e-6, chance + 1e-6) == Verdict::no_go);
  }

  TEST_CASE("a forecast beyond the owner's oldest age supports no GO, and its range is wider") {
    const TreeCase tree = scene::elm(60);
    Outlook outlook = scene::good_days();
    const DayAnswer fresh = scene::answer(tree, outlook, scene::settings());
    REQUIRE(fresh.verdict == Verdict::go);
    const auto oldest = std::chrono::hours{static_cast<long>(scene::practice().decision.oldest_forecast_h)};
    outlook.issued -= oldest - std::chrono::hours{1};
    CHECK(scene::answer(tree, outlook, scene::settings()).verdict == Verdict::go);
    outlook.issued -= std::chrono::hours{1};
    const DayAnswer old = scene::answer(tree, outlook, scene::settings());
    CHECK(old.verdict == Verdict::tight);
    CHECK(*old.uptake_h.p90 - *old.uptake_h.p10 > *fresh.uptake_h.p90 - *fresh.uptake_h.p10);
  }

  TEST_CASE("holds are left out of the chance to finish and rule the verdict") {
    const TreeCase tree = scene::elm(80);
    const days::Settings settings = scene::starting_at(7);
    const DayAnswer still = scene::answer(tree, scene::good_days(), settings);
    const DayAnswer stormy = scene::answer(tree, with_gusts(scene::good_days(), 6, 20), settings);
    REQUIRE(stormy.holds.size() == 1);
    CHECK(still.verdict == Verdict::go);
    CHECK(stormy.chance_to_finish == still.chance_to_finish);
    CHECK(stormy.uptake_h.p50 == still.uptake_h.p50);
    CHECK(stormy.chance_all_clear == 0.0);
    CHECK(stormy.verdict == Verdict::no_go);
    CHECK(stormy.sure_tanks == 0);
    // A hold in the afternoon takes only what would be drunk after it has begun.
    const DayAnswer later = scene::answer(tree, with_gusts(scene::good_days(), 13, 14), settings);
    CHECK(later.chance_to_finish == still.chance_to_finish);
    CHECK(later.chance_all_clear < still.chance_all_clear);
    CHECK(later.chance_all_clear > 0.0);
  }

  TEST_CASE("the flush has to be in for an all clear, not for the chance to finish") {
    TreeCase tree = scene::elm(120);
    const days::Settings settings = scene::starting_at(11);
    const DayAnswer with = scene::answer(tree, scene::good_days(), settings);
    CHECK(with.chance_all_clear < with.chance_to_finish);
    tree.subject.flush = units::Litres{0.0};
    const DayAnswer without = scene::answer(tree, scene::good_days(), settings);
    CHECK(without.chance_to_finish == with.chance_to_finish);
    CHECK(without.chance_all_clear == without.chance_to_finish);
  }

  TEST_CASE("a tree's own leave-by moves shut-off and takes hours from the day") {
    TreeCase tree = scene::elm(120);
    const days::Settings settings = scene::starting_at(9);
    const DayAnswer open = scene::answer(tree, scene::good_days(), settings);
    tree.leave_by = 15h + 30min;
    const DayAnswer early = scene::answer(tree, scene::good_days(), settings);
    CHECK(scene::clock_h(tree, early.off_site_by) == 15.5);
    CHECK(open.valves_shut_by - early.valves_shut_by == 4h + 30min);
    CHECK(early.chance_to_finish < open.chance_to_finish);
    // The hours that the tree would take are not cut at leave-time.
    CHECK(early.uptake_h.p90 == open.uptake_h.p90);
  }

  TEST_CASE("a barred morning moves the start behind it") {
    const TreeCase tree = scene::elm(60);
    const DayAnswer free = scene::answer(tree, scene::good_days(), scene::settings());
    const DayAnswer held = scene::answer(tree, with_gusts(scene::good_days(), 6, 10), scene::settings());
    CHECK(scene::clock_h(tree, free.arrive) < 10.0);
    CHECK(scene::clock_h(tree, held.arrive) >= 10.0);
    CHECK(held.verdict == Verdict::go);
    CHECK(held.holds.size() == 1);
  }

  TEST_CASE("a share of draws that is not done in a day has no hours") {
    TreeCase tree = scene::elm(120);
    const days::Settings settings = scene::starting_at(7);
    tree.subject.dose = units::Litres{1e5};
    const DayAnswer never = scene::answer(tree, scene::good_days(2), settings);
    CHECK_FALSE(never.uptake_h.p10);
    CHECK_FALSE(never.uptake_h.p90);
    CHECK_FALSE(never.on_site_h.p50);
    CHECK_FALSE(never.off_site_p50);
    CHECK(never.chance_to_finish == 0.0);
    CHECK(never.mc_error == 0.0);
    CHECK(never.verdict == Verdict::no_go);
    // Somewhere between, the fast draws have hours and the slow ones none.
    bool between = false;
    for (double factor = 1.0; factor < 8.0 && !between; factor *= 1.15) {
      tree.subject.dose = units::Litres{factor * scene::elm(120).subject.dose.value};
      const DayAnswer some = scene::answer(tree, scene::good_days(2), settings, 64);
      between = some.uptake_h.p10 && !some.uptake_h.p90;
      if (some.uptake_h.p90) CHECK(*some.uptake_h.p90 <= 24.0);
    }
    CHECK(between);
  }

  TEST_CASE("a tank counts as sure only if it is, and more hours never make fewer") {
    TreeCase tree = scene::elm(140);
    const auto& set_up = scene::practice().set_up;
    const days::Settings settings = scene::starting_at(8);
    int before = 0;
    for (int leave = 9; leave <= 23; ++leave) {
      tree.leave_by = std::chrono::hours{leave};
      const int sure = scene::answer(tree, scene::good_days(), settings, 64).sure_tanks;
      CHECK(sure >= before);
      CHECK(sure <= days::tank_count(tree, set_up));
      before = sure;
    }
    CHECK(before == days::tank_count(tree, set_up));
    // A tree whose dose is the sure tanks takes it with the chance asked for, one with a tank more does not. Tanks look at full half
    // hours only, which may hold back one that is sure by less than that: 0.06.
    int compared = 0;
    for (int leave = 12; leave <= 19; ++leave) {
      tree.leave_by = std::chrono::hours{leave};
      const int sure = scene::answer(tree, scene::good_days(), settings).sure_tanks;
      const auto chance_of = [&](double dose_l) {
        TreeCase other = tree;
        other.subject.dose = units::Litres{dose_l};
        return scene::answer(other, scene::good_days(), settings).chance_to_finish;
      };
      CAPTURE(leave);
      if (sure > 0) CHECK(chance_of(std::min(sure * set_up.tank_l, tree.subject.dose.value)) >= set_up.tank_sure - 1.0 / 256.0);
      if (sure < days::tank_count(tree, set_up))
        CHECK(chance_of(std::min((sure + 1) * set_up.tank_l, tree.subject.dose.value)) < set_up.tank_sure + 0.06);
      compared += sure > 0 ? 1 : 0;
    }
    CHECK(compared >= 4);
  }

  TEST_CASE("conditions tell of the day, and rain of the week in front of it") {
    Outlook outlook = scene::good_days(10);
    auto& course = outlook.courses.front();
    for (std::size_t hour = 0; hour < 24; ++hour) course[hour].rain_mm = 5.0;  // eight days before: too long ago
    for (std::size_t hour = 5 * 24; hour < 5 * 24 + 6; ++hour) course[hour].rain_mm = 2.0;
    course[8 * 24 + 22].rain_mm = 1.5;  // that night
    for (std::size_t hour = 8 * 24; hour < 9 * 24; ++hour) course[hour].rew = 0.7;
    outlook.signs[8 * 24 + 15].gust_m_s = 6.5;
    outlook.signs[8 * 24 + 3].gust_m_s = 4.0;
    for (std::size_t hour = 8 * 24; hour < 9 * 24; ++hour)
      outlook.signs[hour].cloud_pct = course[hour].clear_sky_w_m2 > 0.0 ? 30.0 : 100.0;  // a dull night says nothing of the day
    const auto answers = scene::answers(scene::elm(50), outlook, scene::starting_at(7), 8);
    const days::Conditions& c = answers[8].conditions;
    const days::DayKind& good = scene::practice().good_day;
    CHECK(c.rain_7d_mm == within(12.0, 1e-9));
    CHECK(c.rain_today_mm == within(1.5, 1e-9));
    CHECK(c.rew == 0.7);
    CHECK(c.temp_max_c == within(good.temp_high_c, 0.1));
    // es (1 - RH) at the day's top, met within half an hour.
    CHECK(c.vpd_kpa_max ==
          within(air::saturation_pressure(units::Celsius{good.temp_high_c}).value * (1.0 - good.rh_at_high_pct / 100.0), 0.03));
    CHECK(c.cloud_pct_mean == 30.0);
    CHECK(c.gust_max_m_s == 6.5);
    CHECK(c.wet_leaf_h == 0.0);
    CHECK_FALSE(answers[7].conditions.gust_max_m_s);
    outlook.signs[7 * 24 + 15].gust_m_s = 0.05;
    CHECK(scene::answers(scene::elm(50), outlook, scene::starting_at(7), 8)[7].conditions.gust_max_m_s == 0.05);
    CHECK(scene::answer(scene::elm(50), scene::rainy_days(), scene::starting_at(7), 8).conditions.wet_leaf_h > 12.0);
  }

  TEST_CASE("one hour of unknown rain makes the day's rain unknown, and no other day's") {
    Outlook outlook = scene::good_days(3);
    outlook.signs[24 + 20].rain_known = false;
    const auto answers = scene::answers(scene::elm(50), outlook, scene::starting_at(7), 8);
    CHECK(answers[0].rain_known);
    CHECK_FALSE(answers[1].rain_known);
    CHECK(answers[2].rain_known);
  }

  TEST_CASE("a booked arrival is answered for as the search saw it, and a day that has begun too") {
    const TreeCase tree = scene::elm(120);
    const auto outlook = scene::good_days(2);
    const auto searched = scene::answers(tree, outlook, scene::starting_at(8));
    const auto midnight = outlook.begins(0);
    const auto booked = [&](units::UtcTime now, units::LocalDay date, std::optional<units::UtcTime> arrive) {
      auto drawn = scene::ensemble(tree);
      return days::answer_booked(tree, outlook, drawn, scene::settings(), now, date, arrive);
    };
    for (std::size_t day = 0; day < 2; ++day)
      for (const auto now : {midnight, midnight + 30h}) {
        const DayAnswer& expected = searched[day];
        const auto answer = booked(now, expected.date, expected.arrive);
        REQUIRE(answer);
        CHECK(answer->arrive == expected.arrive);
        CHECK(answer->valves_open == expected.valves_open);
        CHECK(answer->valves_shut_by == expected.valves_shut_by);
        CHECK(*answer->uptake_h.p50 == within(*expected.uptake_h.p50, 0.15));  // hours before the day's own are drawn from its beginning
        CHECK(answer->chance_all_clear == within(expected.chance_all_clear, 0.02));
        CHECK(answer->starts.size() == 1);
      }
    const auto late = booked(midnight, scene::july_14, midnight + 15h);
    REQUIRE(late);
    CHECK(late->chance_all_clear < searched[0].chance_all_clear - 0.3);
    // Without an arrival the best is looked for, as for any day ahead.
    const auto best = booked(midnight, scene::july_14, std::nullopt);
    REQUIRE(best);
    CHECK(best->arrive == scene::answer(tree, outlook, scene::settings()).arrive);
  }

  TEST_CASE("a booked day is answered for where the weather reaches from the tree's rest before its valves open to the day's end") {
    const TreeCase tree = scene::elm(120);
    auto outlook = scene::good_days(2);
    const auto midnight = outlook.begins(0);
    const auto is_answered = [&](units::UtcTime arrive) {
      auto drawn = scene::ensemble(tree, 64);
      return days::answer_booked(tree, outlook, drawn, scene::settings(), midnight, tree.zone.day_of(arrive), arrive).has_value();
    };
    CHECK(is_answered(midnight + 8h));
    CHECK(is_answered(midnight + 32h));
    CHECK(!is_answered(midnight + 56h));  // beyond
    // Weather from 8 am on: too late for valves that open before noon.
    outlook.first_label += 8h;
    outlook.known -= 8;
    outlook.courses.front().erase(outlook.courses.front().begin(), outlook.courses.front().begin() + 8);
    outlook.signs.erase(outlook.signs.begin(), outlook.signs.begin() + 8);
    CHECK(!is_answered(midnight + 7h));
    CHECK(!is_answered(midnight + 8h));
    CHECK(is_answered(midnight + 12h));
    outlook.known -= 1;
    CHECK(!is_answered(midnight + 32h));
  }
}
