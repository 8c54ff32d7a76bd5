// How records are written by people and by other programs.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "app/csv.h"
#include "app/field_names.h"
#include "app/geojson.h"
#include "app/html.h"

namespace {

const book::Kind& tree_kind() { return book::kind("tree"); }
const book::Kind& diameter_kind() { return book::kind("diameter"); }

}  // namespace

TEST_SUITE("app: record faces") {
  TEST_CASE("US units and girths are the field's own number under another name") {
    // 1 in = 2.54 cm, 1 US gal = 3.785411784 L, 1 ft = 0.3048 m: exact (NIST SP 811, appendix B.8). Girth = pi x diameter.
    CHECK(app::in_own_names(diameter_kind(), {{"dbh_in", "50"}})->at("dbh_cm") == "127");
    CHECK(std::stod(app::in_own_names(diameter_kind(), {{"girth_cm", "314.159265358979"}})->at("dbh_cm")) ==
          doctest::Approx(100).epsilon(1e-12));
    CHECK(app::in_own_names(tree_kind(), {{"dose_gal", "100"}})->at("dose_l") == "378.5411784");
    CHECK(app::in_own_names(tree_kind(), {{"crown_ft", "50"}})->at("crown_m") == "15.24");
    CHECK(app::in_own_names(tree_kind(), {{"hole_diameter_in", "0.3125"}})->at("hole_diameter_mm") == "7.9375");
    CHECK(std::stod(app::in_own_names(tree_kind(), {{"pressure_psi", "12"}})->at("pressure_kpa")) == doctest::Approx(82.737).epsilon(1e-5));
  }
  TEST_CASE("an empty cell under another name is nothing, and does not hide the field's own") {
    CHECK(app::in_own_names(tree_kind(), {{"dose_gal", " "}, {"dose_l", "250"}})->at("dose_l") == "250");
    CHECK(app::in_own_names(tree_kind(), {{"dose_gal", ""}})->at("dose_l").empty());
    CHECK(app::in_own_names(tree_kind(), {{"dose_gal", "66"}, {"dose_l", ""}})->at("dose_l").substr(0, 5) == "249.8");
  }
  TEST_CASE("limits are told in the unit that was written") {
    CHECK(app::in_own_names(diameter_kind(), {{"dbh_in", "200"}}).error().line() == "dbh_in: '200': expected a number from 0.7874 to 157.5");
    CHECK(app::in_own_names(diameter_kind(), {{"dbh_in", "wide"}}).error().line() == "dbh_in: 'wide': expected a number");
    CHECK(!app::in_own_names(diameter_kind(), {{"dbh_in", "50"}, {"dbh_cm", "127"}}));
  }
  TEST_CASE("no two names of a kind's fields are the same") {
    for (const book::Kind& kind : book::kinds()) {
      std::map<std::string, int> seen;
      for (const book::Field& field : kind.fields) {
        ++seen[field.name];
        for (const auto& other : app::other_names(field)) ++seen[other.name];
      }
      for (const auto& [name, times] : seen) CHECK_MESSAGE(times == 1, kind.name << "." << name);
    }
  }
  TEST_CASE("a cell for a spreadsheet starts no formula and comes back as it was") {
    // OWASP, CSV injection: a cell must not begin with = + - @, tab or carriage return.
    for (const std::string text : {"=1", "+1", "-1", "@x", "\tx", "\rx", "'=1", "''=1", "'t Hof", "''", "a=b", ""}) {
      const std::string cell = app::csv::for_sheet(text);
      const char first = cell.empty() ? 'x' : cell[cell[0] == '"' ? 1 : 0];
      CHECK(std::string{"=+-@\t\r"}.find(first) == std::string::npos);
      const bool quoted = cell.size() >= 2 && cell.front() == '"';
      CHECK(app::csv::from_sheet(quoted ? cell.substr(1, cell.size() - 2) : cell) == text);
    }
  }
  TEST_CASE("GeoJSON goes out and comes in by RFC 7946") {
    const book::Record elm{"tree", "elm-1", 1, false, {{"species", "American elm"}, {"site", "s"}, {"dose_l", "250.5"}, {"urgent", "yes"}}};
    const std::string text = app::geojson(tree_kind(), {{elm, 43.7, -91.9}});
    const auto json = nlohmann::json::parse(text);
    CHECK(json["features"][0]["geometry"]["coordinates"] == nlohmann::json::parse("[-91.9, 43.7]"));
    CHECK(json["features"][0]["properties"]["dose_l"] == 250.5);
    CHECK(json["features"][0]["properties"]["urgent"] == true);
    const auto back = app::read_geojson("t.geojson", text);
    REQUIRE(back);
    const auto cell = [&](const char* column) {
      return back->rows[0].cells[static_cast<std::size_t>(std::ranges::find(back->columns, column) - back->columns.begin())];
    };
    CHECK(cell("id") == "elm-1");
    CHECK(cell("lon") == "-91.9");
    CHECK(cell("dose_l") == "250.5");
    CHECK(cell("urgent") == "yes");
  }
  TEST_CASE("what is no GeoJSON is refused, and a feature without a point stands by its number") {
    for (const char* bad : {"{", "[]", "{}", R"({"type":"Feature"})", R"({"type":"FeatureCollection"})",
                            R"({"type":"FeatureCollection","features":3})", R"({"type":3,"features":[]})"})
      CHECK(!app::read_geojson("t", bad));
    for (const char* odd : {"null", "3", "{}", R"({"geometry":null})", R"({"geometry":{"type":"Point"}})",
                            R"({"geometry":{"type":"Point","coordinates":["a",1]}})", R"({"geometry":{"type":"Point","coordinates":7}})",
                            R"({"geometry":{"type":5,"coordinates":[1,2]}})", R"({"properties":[1],"id":{"a":1}})"}) {
      const auto read = app::read_geojson("t", std::string{R"({"type":"FeatureCollection","features":[)"} + odd + "]}");
      REQUIRE_MESSAGE(read, odd);
      CHECK(read->rows[0].cells[static_cast<std::size_t>(std::ranges::find(read->columns, "lat") - read->columns.begin())] == "no point");
    }
  }
  TEST_CASE("HTML holds no tag that a record brought") {
    CHECK(app::html::escaped("<script>\"a\" & 'b'</script>") == "&lt;script&gt;&quot;a&quot; &amp; 'b'&lt;/script&gt;");
  }
}
