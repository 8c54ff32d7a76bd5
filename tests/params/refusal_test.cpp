// What the loader refuses, by the exact line that a person sees.
#include "params/scratch_models.h"

using Json = ScratchModels::Json;

TEST_SUITE("params") {
  TEST_CASE("a misspelt name is refused with the name that was meant") {
    const ScratchModels models;
    models.spoil("tree.json", [](Json& tree) {
      tree["stomata"]["g_reff"] = tree["stomata"]["g_ref"];
      tree["stomata"].erase("g_ref");
    });
    CHECK(models.line() == "tree.json: stomata.g_reff: unknown name: did you mean 'g_ref'?");
  }

  TEST_CASE("a name that nothing reads is refused with the names there are") {
    const ScratchModels models;
    models.spoil("tree.json", [](Json& tree) { tree["wet_crown"]["colour"] = tree["wet_crown"]["drying_factor"]; });
    CHECK(models.line() == "tree.json: wet_crown.colour: unknown name: expected 'drying_factor' or 'store_per_lai'");
  }

  TEST_CASE("a misspelt member of a parameter is refused") {
    const ScratchModels models;
    models.spoil("ports.json", [](Json& ports) { ports["conductance"]["comment"] = "x"; });
    CHECK(models.line() ==
          "ports.json: conductance.comment: unknown name: expected 'confidence', 'note', 'range', 'rests_on', 'source', "
          "'spread_ln_sd', 'unit' or 'value'");
  }

  TEST_CASE("a missing parameter is named") {
    const ScratchModels models;
    models.spoil("holds.json", [](Json& holds) { holds.erase("gust"); });
    CHECK(models.line() == "holds.json: gust: missing: expected here");
  }

  TEST_CASE("another unit is refused") {
    const ScratchModels models;
    models.spoil("tree.json", [](Json& tree) { tree["stomata"]["g_ref"]["unit"] = "mol/m2/s"; });
    CHECK(models.line() == "tree.json: stomata.g_ref: unit: 'mol/m2/s': expected 'mmol/m2/s'");
  }

  TEST_CASE("a value outside its range is refused with the limits") {
    const ScratchModels models;
    models.spoil("tree.json", [](Json& tree) { tree["stomata"]["g_ref"]["value"] = 750; });
    CHECK(models.line() == "tree.json: stomata.g_ref: '750': expected 40 to 100 mmol/m2/s");
  }

  TEST_CASE("a coefficient of a crown fit is held to the limits of all fits") {
    const ScratchModels models;
    models.spoil("species.json", [](Json& file) { file["allometry"]["ulmus_americana"]["leaf_area"]["slope"] = 18.8; });
    CHECK(models.line() == "species.json: allometry.ulmus_americana.leaf_area.slope: '18.8': expected 0.3 to 3.5");
  }

  TEST_CASE("text in place of a number is refused") {
    const ScratchModels models;
    models.spoil("tree.json", [](Json& tree) { tree["stomata"]["g_ref"]["value"] = "75"; });
    CHECK(models.line() == "tree.json: stomata.g_ref.value: '\"75\"': expected a number");
  }

  TEST_CASE("a range with its ends exchanged is refused") {
    const ScratchModels models;
    models.spoil("tree.json", [](Json& tree) { tree["stomata"]["g_ref"]["range"] = {100, 40}; });
    CHECK(models.line() == "tree.json: stomata.g_ref.range: '[100,40]': expected two numbers, the lower first");
  }

  TEST_CASE("a source that references.json does not hold is refused") {
    const ScratchModels models;
    models.spoil("ports.json", [](Json& ports) { ports["native_shape"]["source"] = "hearsay"; });
    CHECK(models.line() == "ports.json: native_shape.source: 'hearsay': expected a key of references.json");
  }

  TEST_CASE("a work that a source rests on must be known too") {
    const ScratchModels models;
    models.spoil("ports.json", [](Json& ports) { ports["native_p50"]["rests_on"] = {"hearsay"}; });
    CHECK(models.line() == "ports.json: native_p50.rests_on: 'hearsay': expected a key of references.json");
  }

  TEST_CASE("a parameter without its source is refused") {
    const ScratchModels models;
    models.spoil("ports.json", [](Json& ports) { ports["native_shape"].erase("source"); });
    CHECK(models.line() == "ports.json: native_shape.source: missing: expected here");
  }

  TEST_CASE("a confidence other than A to D is refused") {
    const ScratchModels models;
    models.spoil("holds.json", [](Json& holds) { holds["heat"]["confidence"] = "high"; });
    CHECK(models.line() == "holds.json: heat.confidence: 'high': expected A, B, C or D");
    models.spoil("holds.json", [](Json& holds) { holds["heat"]["confidence"] = "E"; });
    CHECK(models.line() == "holds.json: heat.confidence: 'E': expected A, B, C or D");
  }

  TEST_CASE("a parameter that differs between trees must have its spread") {
    const ScratchModels models;
    models.spoil("ports.json", [](Json& ports) { ports["lumens_hours"].erase("spread_ln_sd"); });
    CHECK(models.line() == "ports.json: lumens_hours.spread_ln_sd: missing: expected here");
  }

  TEST_CASE("a spread that nothing would use is refused") {
    const ScratchModels models;
    models.spoil("holds.json", [](Json& holds) { holds["heat"]["spread_ln_sd"] = 0.1; });
    CHECK(models.line() ==
          "holds.json: heat.spread_ln_sd: unknown name: expected 'confidence', 'note', 'range', 'rests_on', 'source', 'unit' or 'value'");
  }

  TEST_CASE("a spread in logarithms needs a range without negative values") {
    const ScratchModels models;
    models.spoil("ports.json", [](Json& ports) { ports["conductance"]["range"] = {-1, 80}; });
    CHECK(models.line() == "ports.json: conductance: range: '-1': expected 0 or more, because the spread is in logarithms");
  }

  TEST_CASE("broken JSON has its file and line") {
    const ScratchModels models;
    models.write("holds.json", "{\n  \"gust\": {\"value\": 11,,\n}\n");
    CHECK(models.line().starts_with("holds.json:2: not valid JSON: "));
    models.write("holds.json", "{\n\n\n");
    CHECK(models.line().starts_with("holds.json:4: not valid JSON: "));
    models.write("holds.json", "[1]");
    CHECK(models.line() == "holds.json: expected a JSON object");
    models.write("holds.json", "{\"gust\": {\"value\": 1e999}}");
    CHECK(models.line().starts_with("holds.json: not valid JSON: "));
  }

  TEST_CASE("a missing file is named") {
    const ScratchModels models;
    std::filesystem::remove(models.directory() / "ports.json");
    CHECK(models.line() == "ports.json: expected a readable file");
  }

  TEST_CASE("a species given twice is refused") {
    const ScratchModels models;
    std::string text = models.read("species.json");
    const std::string key = "\"ulmus_minor\": {";
    REQUIRE(text.find(key) != std::string::npos);
    text.replace(text.find(key), key.size(), "\"ulmus_pumila\": {");
    models.write("species.json", text);
    CHECK(models.line() == "species.json: species.ulmus_pumila: given twice: expected it once");
  }

  TEST_CASE("two species cannot answer to one name") {
    const ScratchModels models;
    models.spoil("species.json", [](Json& file) { file["species"]["ulmus_minor"]["english"] = {"American Elm"}; });
    CHECK(models.line() == "species.json: species.ulmus_minor.english: 'american elm': expected a name that no other species has");
  }

  TEST_CASE("a species names crown fits and a leaf calendar that exist") {
    const ScratchModels models;
    models.spoil("species.json", [](Json& file) { file["species"]["ulmus_minor"]["calendar"] = "palm"; });
    CHECK(models.line() == "species.json: species.ulmus_minor.calendar: 'palm': expected 'ash', 'broadleaf', 'elm', 'evergreen' or 'oak'");
  }

  TEST_CASE("lead days of the forecast error stand in rising order") {
    const ScratchModels models;
    models.spoil("weather-error.json", [](Json& file) { file["temperature"]["d2"] = file["temperature"]["d1"]; });
    CHECK(models.line() == "weather-error.json: temperature.d2: expected after 'd8' in rising order");
    models.spoil("weather-error.json", [](Json& file) {
      file["temperature"].erase("d2");
      file["temperature"]["day9"] = file["temperature"]["d1"];
    });
    CHECK(models.line() == "weather-error.json: temperature.day9: expected 'd' with a number");
  }

  TEST_CASE("soil layers go down") {
    const ScratchModels models;
    models.spoil("soils.json", [](Json& file) { file["root_zone"]["layer_bottoms"]["d2"]["value"] = 8; });
    CHECK(models.line() == "soils.json: root_zone.layer_bottoms.d2: '8': expected below the layer above it, which ends at 10 cm");
  }

  TEST_CASE("a soil cannot hold less at saturation than when dry") {
    const ScratchModels models;
    models.spoil("soils.json", [](Json& file) {
      file["textures"]["loam"]["theta_r"]["value"] = 0.3;
      file["textures"]["loam"]["theta_s"]["value"] = 0.25;
    });
    CHECK(models.line() == "soils.json: textures.loam.theta_r: expected theta_r (0.3) at or below theta_s (0.25)");
  }

  TEST_CASE("exponents that the engine computes in half steps are half steps") {
    const ScratchModels models;
    models.spoil("tree.json", [](Json& tree) { tree["hydraulics"]["vulnerability_shape"]["value"] = 2.4; });
    CHECK(models.line() == "tree.json: hydraulics.vulnerability_shape: '2.4': expected a multiple of 0.5");

    const ScratchModels others;
    others.spoil("ports.json", [](Json& ports) { ports["native_shape"]["value"] = 2.7; });
    CHECK(others.line() == "ports.json: native_shape: '2.7': expected a multiple of 0.5");
  }
}
