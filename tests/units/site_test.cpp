#include "units/site.h"

#include <doctest/doctest.h>

#include "support/within.h"

using units::Degrees;
using units::Metres;
using units::Site;

TEST_SUITE("units") {
  TEST_CASE("a degree along a meridian is 111.195 km on the mean sphere") {
    // pi/180 x 6371.0088 km (IUGG mean radius).
    const Site a{Degrees{40}, Degrees{-74}, Metres{0}}, b{Degrees{41}, Degrees{-74}, Metres{0}};
    CHECK(units::distance(a, b).value == within(111195.08, 0.01));
  }

  TEST_CASE("distance crosses the date line the short way") {
    const Site a{Degrees{0}, Degrees{179.5}, Metres{0}}, b{Degrees{0}, Degrees{-179.5}, Metres{0}};
    CHECK(units::distance(a, b).value == within(111195.08, 0.01));
  }
}
