#include "days/reference_day.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "air/humidity.h"
#include "air/shortwave.h"
#include "days/scene.h"
#include "support/within.h"

TEST_SUITE("days") {
  TEST_CASE("a kind of day runs between its temperatures, warmest three hours after the sun's noon, with the same water all day") {
    days::DayKind kind = scene::practice().good_day;
    kind.cloud_pct = 60.0;
    const auto begins = scene::eastern().start_of(scene::july_14);
    const auto hours = days::day_of_kind(kind, scene::site, begins, 24);
    REQUIRE(hours.size() == 24);
    const auto by_temp = [](const auto& a, const auto& b) { return a.temp_c < b.temp_c; };
    const auto warmest = std::max_element(hours.begin(), hours.end(), by_temp);
    const auto brightest =
        std::max_element(hours.begin(), hours.end(), [](const auto& a, const auto& b) { return a.clear_sky_w_m2 < b.clear_sky_w_m2; });
    // A cosine falls by 0.9 % of its swing within half an hour of its top.
    CHECK(warmest->temp_c == within(kind.temp_high_c, 0.1));
    CHECK(std::min_element(hours.begin(), hours.end(), by_temp)->temp_c == within(kind.temp_low_c, 0.1));
    CHECK(warmest - brightest == 3);
    const double vapour_kpa = kind.rh_at_high_pct / 100.0 * air::saturation_pressure(units::Celsius{kind.temp_high_c}).value;
    for (const auto& hour : hours) {
      CHECK(air::saturation_pressure(units::Celsius{hour.dew_point_c}).value == within(vapour_kpa, 1e-9));
      CHECK(hour.shortwave_w_m2 == within(hour.clear_sky_w_m2 * air::cloud_transmission(units::Fraction{0.6}).value, 1e-9));
      CHECK(hour.rew == kind.rew);
      CHECK(hour.rew_sd == 0.0);
      CHECK(hour.soil_temp_c == kind.soil_temp_c);
      CHECK(hour.rain_mm == 0.0);
      CHECK(hour.leaf_share == 1.0);
    }
    CHECK(hours[0].clear_sky_w_m2 == 0.0);
  }

  TEST_CASE("the middle tree takes its hours on a good day, and a dose that never goes in counts as a day") {
    const days::TreeCase tree = scene::elm(100);
    const auto hours = days::day_of_kind(scene::practice().good_day, scene::site, scene::eastern().start_of(scene::july_14), 33);
    const double alone = days::reference_hours(tree.subject, tree.curve, hours, 9.0);
    CHECK(alone > 2.0);
    CHECK(alone < 8.0);
    days::TreeCase thirsty = tree;
    thirsty.subject.dose = units::Litres{1e6};
    CHECK(days::reference_hours(thirsty.subject, tree.curve, hours, 9.0) == within(24.0, 1e-9));
    // No more than a day where more hours are given, and no more than is given.
    const auto given = [](std::size_t count) {
      return days::day_of_kind(scene::practice().good_day, scene::site, scene::eastern().start_of(scene::july_14), count);
    };
    CHECK(days::reference_hours(thirsty.subject, tree.curve, given(60), 9.0) == within(24.0, 1e-9));
    CHECK(days::reference_hours(thirsty.subject, tree.curve, given(20), 9.0) == within(11.0, 1e-9));
  }

  TEST_CASE("air that would be more than full is full") {
    days::DayKind kind = scene::practice().good_day;
    kind.rh_at_high_pct = 90.0;
    for (const auto& hour : days::day_of_kind(kind, scene::site, scene::eastern().start_of(scene::july_14), 24))
      CHECK(hour.dew_point_c <= hour.temp_c);
  }
}
