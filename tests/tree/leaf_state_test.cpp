#include "tree/leaf_state.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "air/sun.h"
#include "support/shipped_models.h"
#include "support/within.h"

using std::chrono::month;
using std::chrono::year;
using Days = std::chrono::days;
using tree::DailyTemperatures;
using tree::LeafStage;
using units::Degrees;
using units::LocalDay;

namespace {

const Degrees north{44.0}, south{-38.0};

LocalDay day(int y, unsigned m, unsigned d) { return LocalDay{year{y} / month{m} / std::chrono::day{d}}; }

tree::LeafCalendar elm() { return shipped::species("american elm").leaves; }

// Days of one temperature from `first` on.
DailyTemperatures steady(LocalDay first, int count, double mean_c) {
  return {first, std::vector<double>(static_cast<std::size_t>(count), mean_c)};
}

// An invented year: mean of 9 C, half-range of `amplitude_c`, warmest three weeks after midsummer.
DailyTemperatures year_of(LocalDay first, int count, double amplitude_c, LocalDay warmest) {
  DailyTemperatures t{first, {}};
  for (int i = 0; i < count; ++i) {
    const double turn = 2.0 * std::numbers::pi * static_cast<double>((first + Days{i} - warmest).count()) / 365.25;
    t.mean_c.push_back(9.0 + amplitude_c * std::cos(turn));
  }
  return t;
}

tree::LeafState elm_on(LocalDay when, const DailyTemperatures& t, Degrees latitude = north, std::optional<LocalDay> seen = {}) {
  return tree::leaf_state(elm(), latitude, t, seen, when);
}

// The first day on which `reached` holds.
template <class Reached>
LocalDay first_day(LocalDay from, const DailyTemperatures& t, Degrees latitude, Reached reached) {
  LocalDay when = from;
  while (when < from + Days{366} && !reached(elm_on(when, t, latitude))) when += Days{1};
  return when;
}

}  // namespace

TEST_SUITE("tree") {
  TEST_CASE("leaves come out when thermal time since midwinter is reached, and are full 28 days later") {
    // 15 C all winter is 10 degree-days a day above 5 C: 120 on the twelfth day of January.
    const auto t = steady(day(2026, 1, 1), 200, 15.0);
    CHECK(elm_on(day(2026, 1, 11), t).stage == LeafStage::bare);
    CHECK(elm_on(day(2026, 1, 12), t).stage == LeafStage::expanding);
    CHECK(elm_on(day(2026, 1, 12), t).share == 0.0);
    CHECK(elm_on(day(2026, 1, 26), t).share == within(0.5, 1e-12));
    CHECK(elm_on(day(2026, 2, 8), t).stage == LeafStage::expanding);
    CHECK(elm_on(day(2026, 2, 9), t).stage == LeafStage::full);
    CHECK(elm_on(day(2026, 2, 9), t).share == 1.0);
  }

  TEST_CASE("cold days do not undo thermal time") {
    auto t = steady(day(2026, 1, 1), 200, 15.0);
    for (std::size_t i = 5; i < 25; ++i) t.mean_c[i] = -10.0;
    CHECK(elm_on(day(2026, 1, 31), t).stage == LeafStage::bare);
    CHECK(elm_on(day(2026, 2, 1), t).stage == LeafStage::expanding);  // twenty days later
  }

  TEST_CASE("a warmer spring brings leaves sooner") {
    LocalDay before = day(2027, 1, 1);
    for (const double warmer : {0.0, 2.0, 4.0}) {
      auto t = year_of(day(2026, 1, 1), 200, 13.0, day(2026, 7, 21));
      for (double& mean : t.mean_c) mean += warmer;
      const LocalDay out = first_day(day(2026, 1, 1), t, north, [](const tree::LeafState& s) { return s.stage != LeafStage::bare; });
      CHECK(out < before);
      before = out;
    }
  }

  TEST_CASE("leaves colour on the first day after midsummer that is shorter than the colouring length, and fall over two months") {
    const auto t = year_of(day(2026, 1, 1), 365, 13.0, day(2026, 7, 21));
    const LocalDay colouring =
        first_day(day(2026, 6, 22), t, north, [](const tree::LeafState& s) { return s.stage == LeafStage::colouring && s.share < 1.0; }) -
        Days{1};
    const auto length = [](LocalDay when) { return air::daylight(air::solar_day(units::day_of_year(when), north)).value; };
    CHECK(length(colouring) < elm().colouring_day_length_h);
    CHECK(length(colouring - Days{1}) >= elm().colouring_day_length_h);
    CHECK(elm_on(colouring + Days{29}, t).share == within(0.5, 1e-12));
    CHECK(elm_on(colouring + Days{58}, t).stage == LeafStage::bare);
    CHECK(elm_on(day(2026, 12, 31), t).stage == LeafStage::bare);
  }

  TEST_CASE("the southern year is half a year away") {
    const auto t_north = year_of(day(2025, 7, 1), 700, 13.0, day(2026, 7, 21));
    const auto t_south = year_of(day(2025, 7, 1), 700, 13.0, day(2026, 1, 19));
    CHECK(elm_on(day(2026, 7, 1), t_north).stage == LeafStage::full);
    CHECK(elm_on(day(2026, 7, 1), t_south, south).stage == LeafStage::bare);
    CHECK(elm_on(day(2026, 1, 1), t_north).stage == LeafStage::bare);
    CHECK(elm_on(day(2026, 1, 1), t_south, south).stage == LeafStage::full);
    CHECK(elm_on(day(2026, 4, 5), t_south, south).stage == LeafStage::colouring);
  }

  TEST_CASE("an evergreen is always in full leaf") {
    const tree::LeafCalendar pine = shipped::species("white pine").leaves;
    const auto t = steady(day(2026, 1, 1), 30, -20.0);
    for (const LocalDay when : {day(2026, 1, 5), day(2026, 7, 1), day(2026, 12, 24)})
      CHECK(tree::leaf_state(pine, north, t, {}, when).stage == LeafStage::full);
  }

  TEST_CASE("the crew's sight of full leaf wins over thermal time, until colouring") {
    const auto cold = steady(day(2026, 1, 1), 300, 3.0);
    CHECK(elm_on(day(2026, 5, 20), cold).stage == LeafStage::bare);
    CHECK(elm_on(day(2026, 5, 20), cold, north, day(2026, 5, 18)).stage == LeafStage::full);
    CHECK(elm_on(day(2026, 5, 20), cold, north, day(2026, 5, 21)).stage == LeafStage::bare);  // seen later: not yet
    CHECK(elm_on(day(2026, 5, 20), cold, north, day(2025, 5, 18)).stage == LeafStage::bare);  // last year's
    CHECK(elm_on(day(2026, 12, 1), cold, north, day(2026, 5, 18)).stage == LeafStage::bare);
  }

  TEST_CASE("a record of two months finds the leaves of a whole one within days") {
    const auto whole = year_of(day(2026, 1, 1), 200, 13.0, day(2026, 7, 21));
    const auto is_out = [](const tree::LeafState& s) { return s.stage != LeafStage::bare; };
    const LocalDay out = first_day(day(2026, 1, 1), whole, north, is_out);
    for (const int start : {15, 31, 60, 90}) {
      DailyTemperatures late = whole;
      late.mean_c.erase(late.mean_c.begin(), late.mean_c.begin() + start);
      late.first_day += Days{start};
      const LocalDay guessed = first_day(day(2026, 1, 1), late, north, is_out);
      CAPTURE(start);
      CHECK(std::abs((guessed - out).count()) <= 3);
    }
    // Where the wave is the calendar's own, the days before the record are found again but for the fortnight that sets its level.
    const double amplitude_c = elm().season_amplitude_c;
    const auto own = year_of(day(2026, 1, 1), 200, amplitude_c, day(2026, 7, 13));
    DailyTemperatures late = own;
    late.mean_c.erase(late.mean_c.begin(), late.mean_c.begin() + 100);
    late.first_day += Days{100};
    CHECK(std::abs((first_day(day(2026, 1, 1), late, north, is_out) - first_day(day(2026, 1, 1), own, north, is_out)).count()) <= 1);
  }

  TEST_CASE("in midsummer a short record is enough to know that leaves are out") {
    CHECK(elm_on(day(2026, 7, 15), steady(day(2026, 7, 1), 20, 22.0)).stage == LeafStage::full);
  }

  TEST_CASE("the share of leaves never jumps up or down by more than a day's part") {
    const auto t = year_of(day(2026, 1, 1), 365, 13.0, day(2026, 7, 21));
    for (LocalDay when = day(2026, 1, 1); when < day(2026, 12, 31); when += Days{1})
      CHECK(std::abs(elm_on(when + Days{1}, t).share - elm_on(when, t).share) <= 1.0 / 28.0 + 1e-12);
  }
}
