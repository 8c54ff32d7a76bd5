#include "days/turn.h"

#include <doctest/doctest.h>

#include <cmath>

#include "days/scene.h"
#include "support/within.h"
#include "units/random.h"

using days::DayAnswer;
using days::Decider;
using namespace std::chrono_literals;

namespace {

constexpr std::size_t draws = 2048;
const units::UtcTime noon = scene::eastern().to_utc(units::LocalTime{scene::july_14} + 12h);

// A day made by hand: its chance in each draw is `chance` and what one standard deviation of its own temperature error adds to it.
DayAnswer day(int ahead, double chance, double per_error) {
  const units::LocalDay date = scene::july_14 + std::chrono::days{ahead};
  DayAnswer answer;
  answer.date = date;
  answer.arrive = scene::eastern().to_utc(units::LocalTime{date} + 7h);
  answer.off_site_by = scene::eastern().to_utc(units::LocalTime{date} + 19h);
  for (std::size_t i = 0; i < draws; ++i) {
    const auto z = [&](std::uint64_t stream) { return units::normal_quantile(units::hashed_uniform(5, stream, i)); };
    answer.clear_by_draw.push_back(chance + per_error * z(1));
    answer.departures.push_back({2.0 * z(1), z(2), 0.2 * z(3), 0.0});
  }
  return answer;
}

Decider at(units::UtcTime now) { return {now, now, scene::eastern(), 1}; }

double turns(const DayAnswer& answer, double at_least) {
  const auto turn = days::may_turn({answer}, 0, at_least, scene::practice(), at(noon));
  REQUIRE(turn);
  return turn->chance;
}

}  // namespace

TEST_SUITE("days") {
  TEST_CASE("the chance that a later forecast saves a day is that of the part of its error that is told by then") {
    // Of a normal error the share s of the variance is told: the day then stands at chance + sqrt(s) x what it adds, z standard normal.
    const auto& p = scene::practice();
    const double now_d = 4.0 + 1.0 / 24.0, then_d = 1.0 + (13.0 - p.decision.decide_h + p.decision.fresh_forecast_h) / 24.0;
    const double left = days::at_lead(p.weather_error.temperature_sd_c, then_d) / days::at_lead(p.weather_error.temperature_sd_c, now_d);
    const double told = std::sqrt(1.0 - left * left);
    for (const double at_least : {0.5, 0.6, 0.65}) {
      const double z = (at_least - 0.5) / (0.15 * told);
      CHECK(turns(day(4, 0.5, 0.15), at_least) == within(0.5 * std::erfc(z / std::sqrt(2.0)), 0.03));
    }
  }

  TEST_CASE("what has nothing to do with the weather, no forecast saves") {
    CHECK(turns(day(4, 0.5, 0.0), 0.65) == 0.0);
    CHECK(turns(day(4, 0.9, 0.0), 0.65) == 1.0);
  }

  TEST_CASE("it is decided on the evening before, if that still brings a fresher forecast") {
    const auto turn = days::may_turn({day(4, 0.5, 0.15)}, 0, 0.65, scene::practice(), at(noon));
    REQUIRE(turn);
    CHECK(turn->decide_by == scene::eastern().to_utc(units::LocalTime{scene::july_14 + std::chrono::days{3}} + 17h));
    CHECK_FALSE(days::may_turn({day(1, 0.5, 0.15)}, 0, 0.65, scene::practice(), at(noon)));
    CHECK_FALSE(days::may_turn({day(1, 0.5, 0.15)}, 0, 0.65, scene::practice(), at(noon + 8h)));
  }

  TEST_CASE("of an ensemble the share of members counts") {
    DayAnswer answer = day(4, 0.5, 0.0);
    answer.departures.clear();
    const std::size_t members = 8;
    for (std::size_t i = 0; i < draws; ++i) answer.clear_by_draw[i] += i / units::Lanes::count % members < 2 ? 0.4 : -0.1;
    Decider decider = at(noon);
    decider.members = members;
    const auto turn = days::may_turn({answer}, 0, 0.65, scene::practice(), decider);
    REQUIRE(turn);
    CHECK(turn->chance == within(0.25, 1e-9));
  }
}
