// `sapdraw models`: every parameter shown; the owner's own values; broken models.
#include <doctest/doctest.h>

#include <array>
#include <nlohmann/json.hpp>

#include "program.h"

namespace {

using Json = nlohmann::ordered_json;

Json parameter(const Json& json, const std::string& key) {
  for (const Json& one : json["parameters"])
    if (one["key"] == key) return one;
  return nullptr;
}

// The shipped models with one piece of one file's text replaced.
Ran with_spoilt(const std::string& file, const std::string& piece, const std::string& by) {
  const Scratch scratch;
  std::filesystem::copy(SAPDRAW_SOURCE_DIR "/models", scratch.folder() / "models");
  std::string text = content_of(scratch.folder() / "models" / file);
  const auto at = text.find(piece);
  REQUIRE(at != std::string::npos);
  std::filesystem::remove(scratch.folder() / "models" / file);
  (void)scratch.file("models/" + file, text.replace(at, piece.size(), by));
  return sapdraw({"models", "--models", (scratch.folder() / "models").string()});
}

}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("models shows every parameter as text, JSON and CSV") {
    const Ran text = sapdraw({"models"});
    CHECK(text.exit == 0);
    CHECK(text.err.empty());
    CHECK(widest_line(text.out) <= 100);
    for (const std::string file : {"tree", "ports", "species", "soils", "practice", "holds", "weather-error"})
      CHECK_MESSAGE(text.out.find("\n" + file + ".json\n") != std::string::npos, file);
    const Json json = Json::parse(sapdraw({"models", "--json"}).out);
    CHECK(json["parameters"].size() > 250);
    for (const std::string key : {"value", "unit", "range", "spread_ln_sd", "source", "source_text", "rests_on", "confidence", "note",
                                  "overridden", "shipped_value"})
      CHECK_MESSAGE(json["parameters"][0].contains(key), key);
    CHECK(lines_of(sapdraw({"models", "--csv"}).out).size() == json["parameters"].size() + 1);
  }

  TEST_CASE("an owner's value is shown as such with the shipped one, and changes the answer") {
    const Scratch scratch;
    const std::string owner =
        scratch.file("owner.json", R"({"practice.set_up.dose": {"value": 1.9, "unit": "L/cm", "note": "label of 2026"}})");
    const Json dose = parameter(Json::parse(sapdraw({"models", "--json", "--owner", owner}).out), "practice.set_up.dose");
    CHECK(dose["value"] == 1.9);
    CHECK(dose["overridden"] == true);
    CHECK(dose["shipped_value"] == 1.78);
    CHECK(dose["note"] == "label of 2026");
    const Ran text = sapdraw({"models", "--owner", owner});
    CHECK(text.out.find("* set_up.dose") != std::string::npos);
    CHECK(text.out.find("the owner's; shipped 1.78. label of 2026") != std::string::npos);
    const auto dose_l = [](const Arguments& more) {
      Arguments all{"sheet", "--json", "--trees", demo_trees, "--tree", "courthouse-elm"};
      all.insert(all.end(), more.begin(), more.end());
      return Json::parse(sapdraw(all).out)["dose_l"].get<double>();
    };
    CHECK(dose_l({"--owner", owner}) == doctest::Approx(140 * 1.9));
    CHECK(dose_l({}) == doctest::Approx(140 * 1.78));
  }

  TEST_CASE("a fault in the models is told with file, key, value and limit") {
    struct Spoilt {
      std::string file, piece, by, line;
    };
    const std::array all{
        Spoilt{"practice.json", "\"tank_sure\"", "\"tank_shure\"", "practice.json: set_up.tank_shure"},
        Spoilt{"practice.json", "\"value\": 114, \"unit\": \"L\"", "\"value\": 114, \"unit\": \"gal\"", "practice.json: set_up.tank"},
        Spoilt{"practice.json", "\"value\": 114,", "\"value\": 1,", "practice.json: set_up.tank"},
        Spoilt{"holds.json", "}", "", "holds.json:"},
    };
    for (const Spoilt& spoilt : all) {
      CAPTURE(spoilt.by);
      const Ran ran = with_spoilt(spoilt.file, spoilt.piece, spoilt.by);
      CHECK(ran.exit == 3);
      CHECK(ran.out.empty());
      CHECK(lines_of(ran.err).size() == 1);
      CHECK_MESSAGE(ran.err.find(spoilt.line) != std::string::npos, ran.err);
    }
  }

  TEST_CASE("models that are not there and an owner's file that is not there are told") {
    const Ran models = sapdraw({"models", "--models", "no-such"});
    CHECK(models.exit == 3);
    CHECK(models.err == "models: expected a directory with references.json, looked in no-such\n");
    const Ran owner = sapdraw({"models", "--owner", "no-such.json"});
    CHECK(owner.exit == 3);
    CHECK(lines_of(owner.err).size() == 1);
    CHECK(owner.err.starts_with("no-such.json: "));
  }

  TEST_CASE("the fact table has one verdict a fact") {
    const Json json = Json::parse(sapdraw({"models", "--facts", "--json"}).out);
    CHECK(json["facts"].size() == json["of"]);
    std::size_t inside = 0;
    for (const Json& fact : json["facts"]) {
      const bool in = !fact["model"].is_null() && fact["model"] >= fact["bar"][0] && fact["model"] <= fact["bar"][1];
      CHECK(fact["inside"] == in);
      inside += in ? 1 : 0;
    }
    CHECK(json["inside"] == inside);
    const Ran text = sapdraw({"models", "--facts"});
    CHECK(widest_line(text.out) <= 100);
    CHECK(text.out.ends_with(std::to_string(inside) + " of " + std::to_string(json["facts"].size()) + " inside\n"));
  }
}
