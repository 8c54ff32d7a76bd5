#include "sources/cell.h"

#include <doctest/doctest.h>

using sources::cell_of;
using units::Degrees;
using units::Metres;

namespace {
units::Site site(double north, double east, double metres = 100.0) { return {Degrees{north}, Degrees{east}, Metres{metres}}; }
}  // namespace

TEST_SUITE("sources") {
  TEST_CASE("a cell is a twentieth of a degree wide, on both sides of the equator and of Greenwich") {
    CHECK(cell_of(site(43.7012, -91.9034)).text() == "43.70,-91.90");
    CHECK(cell_of(site(43.7249, -91.9249)) == cell_of(site(43.7012, -91.9034)));
    CHECK(cell_of(site(43.7251, -91.9034)) != cell_of(site(43.7012, -91.9034)));
    CHECK(cell_of(site(-0.01, 0.01)).text() == "0.00,0.00");
    CHECK(cell_of(site(-34.93, 138.6)).text() == "-34.95,138.60");
    CHECK(cell_of(site(89.99, 179.99)).text() == "90.00,180.00");
  }

  TEST_CASE("sites of a cell are one place at their mean height to the next 50 m, in one order whatever order they came in") {
    const std::vector<sources::PlacedSite> one{
        {site(43.70, -91.90, 300), "B"}, {site(10.0, 10.0, 5), "C"}, {site(43.71, -91.91, 320), "A"}};
    std::vector<sources::PlacedSite> other{one.rbegin(), one.rend()};
    const auto a = sources::cells_of(one), b = sources::cells_of(other);
    REQUIRE(a.size() == 2);
    CHECK(a[0].cell.text() == "10.00,10.00");
    CHECK(a[1].elevation.value == 300.0);  // 310, to the next 50 m
    CHECK(a[1].zone == "A");
    REQUIRE(b.size() == 2);
    CHECK(b[1].cell == a[1].cell);
    CHECK(b[1].zone == a[1].zone);
    CHECK(sources::cells_of({}).empty());
  }
}
