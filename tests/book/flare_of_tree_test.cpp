// A tree's flare out of the records of its treatments.
#include "book/flare_of_tree.h"

#include <doctest/doctest.h>

using namespace book;

TEST_SUITE("book: flare of a tree") {
  TEST_CASE("stretches are read as people write them") {
    CHECK(*stretches("bad_sectors", " 120-160, 400 - 20 ") == std::vector<std::pair<double, double>>{{120, 160}, {400, 20}});
    CHECK(stretches("bad_sectors", "")->empty());
    for (const char* bad : {"120", "120-", "-20", "a-b", "1-2-3", "1-5000"}) CHECK(!stretches("bad_sectors", bad));
    CHECK(stretches("ridges", "1-x").error().line() ==
          "ridges: '1-x': expected stretches in cm clockwise from the tag, such as 120-160, 400-20");
  }
  TEST_CASE("old ports carry year, circumference and leak of their treatment") {
    const Record tree{"tree", "elm-1", 1, false, {{"flare_cm", "530"}, {"bad_sectors", "120-160"}, {"ridges", "30-90, 500-20"}}};
    const std::vector<Record> treatments{{"treatment", "R1", 1, false, {{"tree", "elm-1"}, {"day", "2023-07-09"}, {"flare_cm", "524"}}}};
    const std::vector<Record> ports{
        {"port", "H1", 1, false, {{"treatment", "R1"}, {"clockwise_cm", "12.5"}, {"height_cm", "15"}, {"leaked", "yes"}}},
        {"port", "H2", 1, false, {{"treatment", "another"}, {"clockwise_cm", "99"}}}};
    const FlareRecord flare = flare_of_tree(tree, treatments, ports);
    CHECK(flare.flare_cm == 530);
    REQUIRE(flare.old_ports.size() == 1);
    CHECK(flare.old_ports[0].clockwise_cm == 12.5);
    CHECK(flare.old_ports[0].height_cm == 15);
    CHECK(flare.old_ports[0].flare_cm == 524);
    CHECK(flare.old_ports[0].year == 2023);
    CHECK(flare.old_ports[0].leaked);
    REQUIRE(flare.bad.size() == 1);
    CHECK(flare.bad[0].from_cm == 120);
    REQUIRE(flare.ridges.size() == 2);
    CHECK(flare.ridges[0].crest_cm == 60);
    CHECK(flare.ridges[0].half_width_cm == 30);
    CHECK(flare.ridges[1].half_width_cm == 25);  // over the tag
  }
}
