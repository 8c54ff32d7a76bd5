// The owner's values over the shipped ones.
#include <algorithm>

#include "params/scratch_models.h"

namespace {

const params::Row& row(const params::Models& models, const std::string& key) {
  const auto found = std::find_if(models.rows.begin(), models.rows.end(), [&](const params::Row& r) { return r.key == key; });
  REQUIRE(found != models.rows.end());
  return *found;
}

}  // namespace

TEST_SUITE("params") {
  TEST_CASE("an owner's value is used, and shown as such beside the shipped one") {
    const ScratchModels scratch;
    scratch.write("owner.json", R"({"practice.set_up.dose": {"value": 1.9, "unit": "L/cm", "note": "our label"},
                                    "tree.stomata.g_ref": {"value": 60, "unit": "mmol/m2/s"},
                                    "weather-error.cloud.d7.5": {"value": 40, "unit": "%"},
                                    "species.species.acer_saccharum.port_factor": {"value": 0.5, "unit": "1"}})");
    const auto models = params::load_models(scratch.directory(), scratch.directory() / "owner.json");
    REQUIRE(models);
    CHECK(models->practice.set_up.dose_l_per_cm == 1.9);
    CHECK(models->tree.stomata.g_ref_mmol_m2_s.value == 60.0);
    CHECK(models->tree.stomata.g_ref_mmol_m2_s.spread_ln_sd == 0.08);
    CHECK(models->practice.weather_error.cloud_sd_pct.value.back() == 40.0);

    const params::Row& dose = row(*models, "practice.set_up.dose");
    CHECK(dose.overridden);
    CHECK(dose.value == 1.9);
    CHECK(dose.shipped_value == 1.78);
    CHECK(dose.note == "our label");
    CHECK(std::count_if(models->rows.begin(), models->rows.end(), [](const params::Row& r) { return r.overridden; }) == 4);
    CHECK_FALSE(row(*models, "holds.heat").overridden);
  }

  TEST_CASE("an owner's value outside the shipped range is refused in the owner's file") {
    const ScratchModels scratch;
    scratch.write("owner.json", R"({"practice.set_up.pressure": {"value": 700, "unit": "kPa"}})");
    CHECK(scratch.line("owner.json") == "owner.json: practice.set_up.pressure: '700': expected 40 to 200 kPa");
    scratch.write("owner.json", R"({"practice.set_up.pressure": {"value": 12, "unit": "psi"}})");
    CHECK(scratch.line("owner.json") == "owner.json: practice.set_up.pressure: unit: 'psi': expected 'kPa'");
  }

  TEST_CASE("an owner's value for an unknown parameter is refused with the near ones") {
    const ScratchModels scratch;
    scratch.write("owner.json", R"({"practice.set_up.doze": {"value": 1.9, "unit": "L/cm"}})");
    CHECK(scratch.line("owner.json") == "owner.json: practice.set_up.doze: unknown parameter: did you mean 'practice.set_up.dose'?");
    scratch.write("owner.json", R"({"moon phase": {"value": 1, "unit": "1"}})");
    CHECK(scratch.line("owner.json") == "owner.json: moon phase: unknown parameter: the command `models` lists them");
  }

  TEST_CASE("an owner's entry has a value and a unit and nothing strange") {
    const ScratchModels scratch;
    scratch.write("owner.json", R"({"practice.set_up.dose": {"value": 1.9}})");
    CHECK(scratch.line("owner.json") == "owner.json: practice.set_up.dose.unit: missing: expected here");
    scratch.write("owner.json", R"({"practice.set_up.dose": 1.9})");
    CHECK(scratch.line("owner.json") == "owner.json: practice.set_up.dose: '1.9': expected an object");
    scratch.write("owner.json", R"({"practice.set_up.dose": {"value": 1.9, "unit": "L/cm", "range": [0, 9]}})");
    CHECK(scratch.line("owner.json") == "owner.json: practice.set_up.dose.range: unknown name: expected 'note', 'unit' or 'value'");
    CHECK(scratch.line("none.json") == "none.json: expected a readable file");
  }

  TEST_CASE("an owner's value that cannot go with a shipped one is refused in the owner's file") {
    const ScratchModels scratch;
    scratch.write("owner.json", R"({"practice.day.latest_start": {"value": 21, "unit": "h"}})");
    CHECK(scratch.line("owner.json") == "owner.json: practice.day.latest_start: expected latest_start (21) at or below off_site (20)");
    scratch.write("owner.json", R"({"practice.decision.go_chance": {"value": 0.6, "unit": "1"}})");
    CHECK(scratch.line("owner.json") ==
          "owner.json: practice.decision.go_chance: expected tight_chance (0.65) at or below go_chance (0.6)");
  }
}
