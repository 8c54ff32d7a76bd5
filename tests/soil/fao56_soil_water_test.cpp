#include "soil/fao56_soil_water.h"

#include <doctest/doctest.h>

#include "support/within.h"

using namespace soil::fao56;
using units::Metres;
using units::Millimetres;

// The paper's own examples stand in tests/reference/fao56_ch7_ch8.json; here are the properties they do not show.
TEST_SUITE("soil") {
  TEST_CASE("stress starts at the readily available share and is complete at the total") {
    const Millimetres total{120.0};
    CHECK(stress_coefficient(total, Millimetres{0.0}, 0.5) == 1.0);
    CHECK(stress_coefficient(total, Millimetres{60.0}, 0.5) == 1.0);
    CHECK(stress_coefficient(total, Millimetres{90.0}, 0.5) == within(0.5, 1e-12));
    CHECK(stress_coefficient(total, Millimetres{120.0}, 0.5) == 0.0);
    CHECK(stress_coefficient(total, Millimetres{150.0}, 0.5) == 0.0);
  }

  TEST_CASE("total evaporable water is counted from field capacity to half of wilting") {
    CHECK(total_evaporable_water(0.23, 0.10, Metres{0.1}).value == within(18.0, 1e-9));  // FAO-56 example 35, eq. 73
  }

  TEST_CASE("both ways of keeping the books close, and the daily one lets less through") {
    for (double start : {0.0, 5.0, 23.0})
      for (double water : {0.0, 3.0, 40.0})
        for (double loss : {0.0, 2.0, 6.0}) {
          const Millimetres s{start}, w{water}, l{loss}, total{60.0};
          const Depletion first = water_then_loss(s, w, l, total), daily = daily_balance(s, w, l, total);
          CHECK(first.end.value == within(start - water + loss + first.percolation.value, 1e-12));
          CHECK(daily.end.value == within(start - water + loss + daily.percolation.value, 1e-12));
          CHECK(daily.percolation.value <= first.percolation.value + 1e-12);
        }
  }

  TEST_CASE("depletion stays between nothing and the total, eq. 86") {
    CHECK(water_then_loss(Millimetres{58.0}, Millimetres{0.0}, Millimetres{6.0}, Millimetres{60.0}).end.value == 60.0);
    CHECK(daily_balance(Millimetres{58.0}, Millimetres{0.0}, Millimetres{6.0}, Millimetres{60.0}).end.value == 60.0);
  }
}
