// The outside check files and the values carried here must be the same: every check, every value, every tolerance.
#include <doctest/doctest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "support/outside.h"
#include "support/reference.h"

namespace {

using nlohmann::json;

std::vector<double> numbers(const json& value) {
  std::vector<double> all;
  for (const json& item : value.is_array() ? value : json::array({value}))
    all.push_back(item.is_string() ? reference::clock_seconds(item.get<std::string>()) : item.get<double>());
  return all;
}

std::size_t compare(const reference::Check& carried, const json& outside) {
  CAPTURE(carried.id());
  std::size_t values = 0;
  CHECK(carried.published().size() == outside.at("expected").size());
  for (const auto& [name, entry] : outside.at("expected").items()) {
    CAPTURE(name);
    const reference::Published& published = carried.published(name);
    CHECK(published.values == numbers(entry.at("value")));
    CHECK(published.tolerance == entry.at(entry.contains("tolerance") ? "tolerance" : "tolerance_s").get<double>());
    values += published.values.size();
  }
  for (const auto& [name, input] : outside.at("inputs").items()) {
    if (name == "note") continue;
    CAPTURE(name);
    CHECK(carried.has_input(name));
    if (input.is_number() || (input.is_array() && input.at(0).is_number())) CHECK(carried.inputs(name) == numbers(input));
  }
  return values;
}

}  // namespace

TEST_SUITE("reference") {
  TEST_CASE("every outside check on air is carried with its value, tolerance and inputs") {
    std::size_t values = 0;
    for (const char* name : {"fao56_ch3_examples", "fao56_annex2_pressure_vapour", "fao56_annex2_radiation_daylight",
                             "fao56_ch4_eto_examples", "asce_ewri_2005", "solar_position", "cloud_radiation"}) {
      const auto path = outside_data(std::string("reference/") + name + ".json");
      if (!path) return;
      CAPTURE(std::string(name));
      std::ifstream file(*path);
      const json outside = json::parse(file);
      CHECK(reference::load(name).size() == outside.at("checks").size());
      for (const json& check : outside.at("checks")) values += compare(reference::load(name, check.at("id").get<std::string>()), check);
    }
    MESSAGE(values << " outside values are carried");
  }
}
