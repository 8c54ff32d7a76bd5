#include "feeds/trees_csv.h"

#include <doctest/doctest.h>

#include "feeds/reading.h"
#include "feeds/samples.h"

using feeds::read_trees;

namespace {

feeds::TreesFile broken(const std::string& name) {
  auto file = read_trees(name, bytes_of(SAPDRAW_SOURCE_DIR "/tests/broken/" + name));
  REQUIRE(file);
  return *std::move(file);
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("a tree's line becomes a row, and an empty optional cell is absent") {
    const auto file = read_trees("trees.csv", samples::trees_csv);
    REQUIRE(file);
    CHECK(file->refused.empty());
    REQUIRE(file->trees.size() == 2);
    const auto& elm = file->trees[0];
    CHECK(elm.line == 2);
    CHECK(elm.tree == "elm-1");
    CHECK(elm.name == "The \"big\" elm, north");
    CHECK(elm.species == "Ulmus americana");
    CHECK(elm.dbh.value == 95.0);
    CHECK(elm.site.longitude.value == -93.4);
    CHECK(elm.zone == "America/Chicago");
    CHECK(elm.soil == "clay_loam");
    CHECK(!elm.dose);
    CHECK(elm.leave_by == std::chrono::minutes{17 * 60 + 30});
    CHECK(file->trees[1].dose->value == 110.0);
    CHECK(!file->trees[1].leave_by);
    CHECK(!file->trees[1].ports);
  }

  TEST_CASE("every optional column is read in its unit") {
    const auto file = read_trees("trees.csv",
                                 "soil_on,soil_feel,probe_cm,probe_pct,pressure_kpa,hole_diameter_mm,rew_now,full_leaf_on,crown_now_pct,crown_m,ports,soil,zone,elevation_m,lon,"
                                 "lat,dbh_cm,species,name,tree\n"
                                 "2026-06-24,slightly moist,20,24.5,80,11,0.6,2026-05-20,85,18,22,loam,America/Chicago,300,-93.4,44.2,95,Ulmus americana,,e\n");
    REQUIRE(file);
    REQUIRE(file->trees.size() == 1);
    const auto& tree = file->trees[0];
    CHECK(tree.pressure->value == 80.0);
    CHECK(tree.hole_diameter_mm == 11.0);
    CHECK(tree.rew_now->value == 0.6);
    CHECK(tree.probe->value == doctest::Approx(0.245));
    CHECK(tree.probe_depth->value == 20.0);
    CHECK(tree.soil_feel == 1);
    CHECK(tree.soil_on == units::parse_day("2026-06-24"));
    CHECK(tree.full_leaf_on == units::parse_day("2026-05-20"));
    CHECK(tree.crown_now->value == 0.85);
    CHECK(tree.crown->value == 18.0);
    CHECK(tree.ports == 22);
    CHECK(tree.name.empty());
  }

  TEST_CASE("a word where a number belongs costs one tree, and the others are answered") {
    const auto file = broken("trees-forty.csv");
    CHECK(file.trees.size() == 2);
    REQUIRE(file.refused.size() == 1);
    CHECK(file.refused[0].tree == "elm-3");
    REQUIRE(file.refused[0].faults.size() == 1);
    CHECK(file.refused[0].faults[0].line() == "trees-forty.csv:4: dbh_cm: 'forty': expected a number from 2 to 400");
  }

  TEST_CASE("a second tree of one id is refused and both lines are named") {
    const auto file = broken("trees-same-id.csv");
    CHECK(file.trees.size() == 2);
    REQUIRE(file.refused.size() == 1);
    CHECK(file.refused[0].faults[0].line() == "trees-same-id.csv:4: tree: 'elm-1': expected another id: line 2 has it");
  }

  TEST_CASE("every fault of a line is told, one line each") {
    const auto file = broken("trees-many-faults.csv");
    REQUIRE(file.refused.size() == 1);
    std::string lines;
    for (const auto& fault : file.refused[0].faults) lines += fault.line() + "\n";
    CHECK(lines ==
          "trees-many-faults.csv:2: species: expected a text, not nothing\n"
          "trees-many-faults.csv:2: dbh_cm: '1.9': expected a number from 2 to 400\n"
          "trees-many-faults.csv:2: lat: '91': expected a number from -90 to 90\n"
          "trees-many-faults.csv:2: lon: '-193.4': expected a number from -180 to 180\n"
          "trees-many-faults.csv:2: elevation_m: expected a number from -430 to 9000\n"
          "trees-many-faults.csv:2: zone: expected a text, not nothing\n"
          "trees-many-faults.csv:2: ports: '2.5': expected a whole number\n"
          "trees-many-faults.csv:2: crown_now_pct: '101': expected a number from 0 to 100\n"
          "trees-many-faults.csv:2: full_leaf_on: '2026-02-30': expected a day YYYY-MM-DD\n"
          "trees-many-faults.csv:2: leave_by: '25:00': expected a time HH:MM\n");
  }

  TEST_CASE("an open quote or a short line costs its own tree only") {
    const auto file = broken("trees-open-quote.csv");
    REQUIRE(file.trees.size() == 1);
    CHECK(file.trees[0].name == "The \"big\" elm, north");
    REQUIRE(file.refused.size() == 2);
    CHECK(file.refused[0].line == 2);
    CHECK(file.refused[1].tree == "elm-3");
    CHECK(file.refused[1].faults[0].line() == "trees-open-quote.csv:4: '3 fields': expected 9, as in the header");
  }

  TEST_CASE("a header without a required column refuses the file") {
    const std::string name = "trees-no-soil.csv";
    const auto file = read_trees(name, bytes_of(SAPDRAW_SOURCE_DIR "/tests/broken/" + name));
    REQUIRE(!file);
    CHECK(file.error().line() == "trees-no-soil.csv:1: soil: missing in the header: expected comma-separated column names");
    CHECK(!read_trees("empty.csv", ""));
  }
}
