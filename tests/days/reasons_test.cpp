#include "days/reasons.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "air/humidity.h"
#include "days/scene.h"
#include "support/within.h"

using days::Factor;
using days::Reasons;
using uptake::HourWeather;

namespace {

constexpr double nine_o_clock = 9.0;

std::vector<HourWeather> hours_of(const days::DayKind& kind) {
  return days::day_of_kind(kind, scene::site, scene::eastern().start_of(scene::july_14), 48);
}
std::vector<HourWeather> good() { return hours_of(scene::practice().good_day); }

template <class Change>
std::vector<HourWeather> good_but(Change change) {
  auto hours = good();
  for (HourWeather& hour : hours) change(hour);
  return hours;
}

Reasons why(const std::vector<HourWeather>& day, double wet_mm = 0.0, const std::vector<HourWeather>& reference = good()) {
  const days::TreeCase tree = scene::elm(100);
  return days::reasons(tree.subject, tree.curve, day, reference, wet_mm, nine_o_clock);
}

double hours_by(const Reasons& reasons, Factor factor) {
  return std::find_if(reasons.by_factor.begin(), reasons.by_factor.end(), [&](const auto& r) { return r.factor == factor; })->hours;
}

// `factor` alone tells the difference: it is named first, costs hours, and the others cost none.
void check_alone(const Reasons& reasons, Factor factor) {
  CHECK(reasons.by_factor.front().factor == factor);
  CHECK(reasons.by_factor.front().hours > 0.05);
  CHECK(reasons.by_factor.front().hours == within(reasons.hours - reasons.reference_hours, 1e-6));
  for (std::size_t i = 1; i < reasons.by_factor.size(); ++i) CHECK(reasons.by_factor[i].hours == within(0.0, 1e-6));
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("a day like the reference has nothing to explain") {
    const Reasons reasons = why(good());
    CHECK(reasons.hours == within(reasons.reference_hours, 1e-9));
    REQUIRE(reasons.by_factor.size() == 6);
    for (const auto& reason : reasons.by_factor) CHECK(reason.hours == within(0.0, 1e-9));
    const days::TreeCase tree = scene::elm(100);
    CHECK(days::reference_hours(tree.subject, tree.curve, good(), nine_o_clock) == reasons.reference_hours);
  }

  TEST_CASE("what alone differs is named first with all of its hours") {
    check_alone(why(good_but([](HourWeather& h) { h.rew = 0.15; })), Factor::soil_water);
    check_alone(why(good_but([](HourWeather& h) { h.saturated_h = 60.0; })), Factor::soil_water);
    check_alone(why(good_but([](HourWeather& h) { h.dew_point_c = h.temp_c - 0.5; })), Factor::dryness);
    check_alone(why(good_but([](HourWeather& h) { h.shortwave_w_m2 *= 0.25; })), Factor::sky);
    check_alone(why(good_but([](HourWeather& h) { h.rain_mm = 1.0; })), Factor::wet_leaves);
    check_alone(why(good_but([](HourWeather& h) { h.leaf_share = 0.3; })), Factor::leaf_state);
  }

  TEST_CASE("a cool day of the same dryness is put down to its temperature") {
    const auto cool = good_but([](HourWeather& h) {
      const auto es = [](double t) { return air::saturation_pressure(units::Celsius{t}).value; };
      const double deficit = es(h.temp_c) - es(h.dew_point_c);
      h.temp_c -= 8.0;
      h.soil_temp_c -= 8.0;
      h.dew_point_c = air::dew_point(units::Kilopascals{std::max(0.01, es(h.temp_c) - deficit)}).value;
    });
    const Reasons reasons = why(cool);
    CHECK(reasons.by_factor.front().factor == Factor::temperature);
    CHECK(reasons.by_factor.front().hours > 0.05);
  }

  TEST_CASE("dew and water left on the leaves count as wet leaves") {
    // Nothing dries the leaves of a reference day, so what lies on them stays.
    check_alone(why(good(), 0.4), Factor::wet_leaves);
    check_alone(why(good_but([](HourWeather& h) { h.reference_mm = -0.05; })), Factor::wet_leaves);
  }

  TEST_CASE("what is better than the reference has negative hours, and the largest effect of either sign comes first") {
    days::DayKind dry = scene::practice().good_day;
    dry.rew = 0.2;
    const Reasons reasons = why(good_but([](HourWeather& h) { h.dew_point_c = h.temp_c - 8.0; }), 0.0, hours_of(dry));
    CHECK(hours_by(reasons, Factor::soil_water) < -0.05);
    for (std::size_t i = 1; i < reasons.by_factor.size(); ++i)
      CHECK(std::abs(reasons.by_factor[i].hours) <= std::abs(reasons.by_factor[i - 1].hours));
  }

  TEST_CASE("several faults of a day are told together") {
    const auto poor = good_but([](HourWeather& h) {
      h.rew = 0.2;
      h.shortwave_w_m2 *= 0.4;
      h.dew_point_c = h.temp_c - 3.0;
    });
    const Reasons reasons = why(poor);
    for (const Factor factor : {Factor::soil_water, Factor::sky, Factor::dryness}) CHECK(hours_by(reasons, factor) > 0.0);
    CHECK(hours_by(reasons, Factor::wet_leaves) == within(0.0, 1e-6));
  }

  TEST_CASE("a dose that never goes in counts as a day of 24 hours") {
    days::TreeCase tree = scene::elm(100);
    tree.subject.dose = units::Litres{1e6};
    const Reasons reasons = days::reasons(tree.subject, tree.curve, hours_of(scene::damp()), good(), 0.0, nine_o_clock);
    CHECK(reasons.hours == within(24.0, 1e-9));
    CHECK(reasons.reference_hours == within(24.0, 1e-9));
    for (const auto& reason : reasons.by_factor) CHECK(reason.hours == within(0.0, 1e-9));
    tree.subject.dose = units::Litres{200};
    const Reasons bare = days::reasons(tree.subject, tree.curve, good_but([](HourWeather& h) { h.rew = 0.0; }), good(), 0.0, nine_o_clock);
    CHECK(bare.hours <= 24.0);
    for (const auto& reason : bare.by_factor) CHECK(std::abs(reason.hours) <= 24.0);
  }
}
