#include "days/reasons.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "air/humidity.h"
#include "days/scene.h"
#include "support/within.h"
#include "units/random.h"

using days::Factor;
using days::Reasons;
using uptake::HourWeather;

namespace {

// Hours begin at five, valves open at nine.
constexpr double start_h = 4.0;

std::vector<HourWeather> hours_of(const days::DayKind& kind) {
  using namespace std::chrono_literals;
  return days::day_of_kind(kind, scene::site, scene::eastern().start_of(scene::july_14) + 5h, 29);
}
std::vector<HourWeather> good() { return hours_of(scene::practice().good_day); }

template <class Change>
std::vector<HourWeather> good_but(Change change) {
  auto hours = good();
  for (HourWeather& hour : hours) change(hour);
  return hours;
}

Reasons why_of(const days::TreeCase& tree, const std::vector<HourWeather>& day, double wet_mm = 0.0,
               const std::vector<HourWeather>& reference = good()) {
  return days::reasons(tree.subject, tree.curve, scene::ensemble(tree, 8).block(0), day, reference, wet_mm, start_h);
}
Reasons why(const std::vector<HourWeather>& day, double wet_mm = 0.0, const std::vector<HourWeather>& reference = good()) {
  return why_of(scene::elm(100), day, wet_mm, reference);
}

// Mean hours of the same eight draws for the dose, at most 24.
double hours_for_dose(const days::TreeCase& tree, const std::vector<HourWeather>& hours, double wet_mm = 0.0) {
  auto drawn = scene::ensemble(tree, 8);
  drawn.set_hours(std::vector{uptake::Scenario{hours, std::vector<uptake::Shift<units::Lanes>>(hours.size())}}, wet_mm);
  double sum = 0.0;
  for (const double h : drawn.finish(start_h, 24.0).dose_h) sum += std::min(h, 24.0);
  return sum / 8.0;
}

double hours_by(const Reasons& reasons, Factor factor) {
  return std::find_if(reasons.by_factor.begin(), reasons.by_factor.end(), [&](const auto& r) { return r.factor == factor; })->hours;
}

// `factor` alone tells the difference: it is named first, costs hours, and the others cost none.
void check_alone(const Reasons& reasons, Factor factor) {
  CHECK(reasons.by_factor.front().factor == factor);
  CHECK(reasons.by_factor.front().hours > 0.05);
  CHECK(reasons.by_factor.front().hours == within(reasons.hours - reasons.reference_hours, 1e-9));
  for (std::size_t i = 1; i < reasons.by_factor.size(); ++i) CHECK(reasons.by_factor[i].hours == 0.0);
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("a day like the reference has nothing to explain") {
    const Reasons reasons = why(good());
    CHECK(reasons.hours == reasons.reference_hours);
    CHECK(reasons.reference_hours == within(hours_for_dose(scene::elm(100), good()), 1e-12));
    REQUIRE(reasons.by_factor.size() == 6);
    for (const auto& reason : reasons.by_factor) CHECK(reason.hours == 0.0);
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
    const auto es = [](double t) { return air::saturation_pressure(units::Celsius{t}).value; };
    // Moist enough that cool air can have the same deficit as warm.
    days::DayKind moist = scene::practice().good_day;
    moist.rh_at_high_pct = 70.0;
    const auto warm = hours_of(moist);
    const auto cool = [&] {
      auto hours = warm;
      for (HourWeather& h : hours) {
        const double deficit = es(h.temp_c) - es(h.dew_point_c);
        h.temp_c -= 8.0;
        h.soil_temp_c -= 8.0;
        h.dew_point_c = air::dew_point(units::Kilopascals{es(h.temp_c) - deficit}).value;
      }
      return hours;
    }();
    const Reasons reasons = why(cool, 0.0, warm);
    CHECK(reasons.by_factor.front().factor == Factor::temperature);
    CHECK(reasons.by_factor.front().hours > 0.05);
    // Rounding alone tells the deficits apart.
    CHECK(hours_by(reasons, Factor::dryness) == within(0.0, 1e-9));
  }

  TEST_CASE("hours are those of the same draws run through the day and through its reference") {
    const days::TreeCase tree = scene::elm(100);
    auto day = good_but([](HourWeather& h) {
      h.rew = 0.3;
      h.rain_mm = 0.02;
      h.reference_mm = 0.0005 * h.shortwave_w_m2;
    });
    const Reasons reasons = why_of(tree, day, 0.2);
    CHECK(reasons.hours == within(hours_for_dose(tree, day, 0.2), 1e-9));
    CHECK(reasons.reference_hours == within(hours_for_dose(tree, good()), 1e-9));
  }

  TEST_CASE("shares of any day add up to its difference, whatever the interplay of factors") {
    const auto at = [](std::uint64_t stream, std::uint64_t day, double low, double high) {
      return low + (high - low) * units::hashed_uniform(7, stream, day);
    };
    int told = 0;
    for (std::uint64_t n = 0; n < 60; ++n) {
      days::DayKind kind = scene::practice().good_day;
      kind.temp_low_c = at(0, n, 4.0, 20.0);
      kind.temp_high_c = kind.temp_low_c + at(1, n, 2.0, 14.0);
      kind.rh_at_high_pct = at(2, n, 15.0, 98.0);
      kind.cloud_pct = at(3, n, 0.0, 100.0);
      kind.rew = at(4, n, 0.02, 1.0);
      kind.soil_temp_c = at(5, n, 6.0, 24.0);
      auto hours = hours_of(kind);
      const double leaves = at(6, n, 0.2, 1.0), rain = at(7, n, -1.0, 1.0), known = at(8, n, 0.0, 0.15);
      for (HourWeather& h : hours) {
        h.leaf_share = leaves;
        h.rain_mm = std::max(rain, 0.0);
        h.reference_mm = -0.01 + 0.0006 * h.shortwave_w_m2;
        h.rew_sd = known;
        h.saturated_h = kind.rew > 0.95 ? 30.0 : 0.0;
      }
      const days::TreeCase tree = scene::elm(at(9, n, 30.0, 140.0));
      const Reasons reasons = why_of(tree, hours, at(10, n, -0.2, 0.3) > 0.0 ? 0.1 : 0.0);
      double sum = 0.0;
      for (const auto& reason : reasons.by_factor) sum += reason.hours;
      CAPTURE(n);
      CHECK(reasons.by_factor.size() == 6);
      CHECK(sum == within(reasons.hours - reasons.reference_hours, 1e-9));
      if (std::abs(sum) > 0.25) ++told;
    }
    CHECK(told > 30);
  }

  TEST_CASE("what two factors do only together is shared between them") {
    const auto dull = [](HourWeather& h) { h.shortwave_w_m2 *= 0.25; };
    const auto dry = [](HourWeather& h) { h.rew = 0.1; };
    const auto both = good_but([&](HourWeather& h) {
      dull(h);
      dry(h);
    });
    const Reasons reasons = why(both);
    const double good_h = reasons.reference_hours, both_h = reasons.hours;
    const double dull_h = hours_for_dose(scene::elm(100), good_but(dull)), dry_h = hours_for_dose(scene::elm(100), good_but(dry));
    // By hand: the mean of coming first and of coming second.
    CHECK(hours_by(reasons, Factor::sky) == within(0.5 * ((dull_h - good_h) + (both_h - dry_h)), 1e-9));
    CHECK(hours_by(reasons, Factor::soil_water) == within(0.5 * ((dry_h - good_h) + (both_h - dull_h)), 1e-9));
    CHECK(std::abs(both_h - dry_h - dull_h + good_h) > 0.05);
  }

  TEST_CASE("damp air on a cold day shares out the same whichever of the two is put right first") {
    // So cold that a good day's deficit does not fit into the air: it is held to what does, in every order.
    const auto cold = good_but([](HourWeather& h) {
      h.temp_c -= 24.0;
      h.dew_point_c = h.temp_c - 0.5;
    });
    const Reasons reasons = why(cold);
    double sum = 0.0;
    for (const auto& reason : reasons.by_factor) sum += reason.hours;
    CHECK(sum == within(reasons.hours - reasons.reference_hours, 1e-9));
    CHECK(hours_by(reasons, Factor::temperature) != 0.0);
    CHECK(hours_by(reasons, Factor::dryness) != 0.0);
  }

  TEST_CASE("how well the soil is known is no reason") {
    const Reasons reasons = why(good_but([](HourWeather& h) { h.rew_sd = 0.2; }));
    for (const auto& reason : reasons.by_factor) CHECK(reason.hours == 0.0);
    CHECK(reasons.hours != why(good()).hours);
  }

  TEST_CASE("dew and water left on the leaves count as wet leaves") {
    // Nothing dries the leaves of a reference day, so what lies on them stays.
    check_alone(why(good(), 0.4), Factor::wet_leaves);
    check_alone(why(good_but([](HourWeather& h) { h.reference_mm = -0.05; })), Factor::wet_leaves);
    check_alone(why(good_but([](HourWeather& h) { h.rain_mm = 0.08; })), Factor::wet_leaves);  // a drizzle that a gauge hardly shows
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
    CHECK(hours_by(reasons, Factor::wet_leaves) == 0.0);
  }

  TEST_CASE("a dose that never goes in counts as a day of 24 hours") {
    days::TreeCase tree = scene::elm(100);
    tree.subject.dose = units::Litres{1e6};
    const Reasons reasons = why_of(tree, hours_of(scene::damp()));
    CHECK(reasons.hours == within(24.0, 1e-9));
    CHECK(reasons.reference_hours == within(24.0, 1e-9));
    for (const auto& reason : reasons.by_factor) CHECK(reason.hours == within(0.0, 1e-9));
    tree.subject.dose = units::Litres{200};
    const Reasons bare = why_of(tree, good_but([](HourWeather& h) { h.rew = 0.0; }));
    CHECK(bare.hours <= 24.0);
    for (const auto& reason : bare.by_factor) CHECK(std::abs(reason.hours) <= 24.0);
  }
}
