// `sapdraw demand`: a tree's water demand by the hour.
#include <doctest/doctest.h>

#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "program.h"

namespace {

struct Hours {
  std::vector<std::string> labels;
  std::map<std::string, std::vector<double>> columns;
};

Hours demand(const Arguments& arguments) {
  Arguments all{"demand"};
  all.insert(all.end(), arguments.begin(), arguments.end());
  const Ran ran = sapdraw(all);
  REQUIRE(ran.exit == 0);
  const auto lines = lines_of(ran.out);
  REQUIRE(lines.front() == "time_utc,vpd_kpa,shortwave_w_m2,rew,wet_fraction,demand_l_h,psi_base_mpa,psi_leaf_mpa");
  std::vector<std::string> names;
  std::istringstream header{lines.front()};
  for (std::string name; std::getline(header, name, ',');) names.push_back(name);
  Hours hours;
  for (std::size_t i = 1; i < lines.size(); ++i) {
    std::istringstream line{lines[i]};
    std::string cell;
    for (const std::string& name : names) {
      std::getline(line, cell, ',');
      if (name == "time_utc")
        hours.labels.push_back(cell);
      else
        hours.columns[name].push_back(std::stod(cell));
    }
  }
  return hours;
}

const Arguments courthouse{"--weather", demo_weather, "--trees", demo_trees, "--tree", "courthouse-elm", "--now", demo_now};

}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("demand gives every usable hour, past and ahead, all numbers within what can be") {
    const Hours hours = demand(courthouse);
    CHECK(hours.labels.size() > 70 * 24);
    CHECK(hours.labels.front() < demo_now);
    CHECK(hours.labels.back() > "2026-07-20");
    double most = 0.0;
    for (std::size_t i = 0; i < hours.labels.size(); ++i) {
      const auto at = [&](const char* name) { return hours.columns.at(name)[i]; };
      CHECK(at("vpd_kpa") >= 0.0);
      CHECK(at("rew") >= 0.0);
      CHECK(at("wet_fraction") >= 0.0);
      CHECK(at("wet_fraction") <= 1.0);
      CHECK(at("demand_l_h") >= 0.0);
      CHECK(at("psi_base_mpa") <= 0.0);
      CHECK(at("psi_leaf_mpa") < at("psi_base_mpa"));
      most = std::max(most, at("demand_l_h"));
    }
    CHECK(most > 20.0);
    CHECK(most < 300.0);
  }

  TEST_CASE("demand falls with the sun and with rain") {
    const Hours hours = demand(courthouse);
    std::map<std::string, double> at;
    for (std::size_t i = 0; i < hours.labels.size(); ++i) at[hours.labels[i]] = hours.columns.at("demand_l_h")[i];
    // Wednesday is clear, Friday steady rain (weather-samples/README.md); local noon is 18 UTC.
    CHECK(at.at("2026-07-08T07:00Z") < 0.2 * at.at("2026-07-08T18:00Z"));
    CHECK(at.at("2026-07-10T18:00Z") < 0.2 * at.at("2026-07-08T18:00Z"));
  }

  TEST_CASE("demand takes a record that only looks back") {
    // A power cut of four hours ends on 6 June (weather-samples/README.md).
    const Ran ran = sapdraw({"demand", "--weather", "weather-samples/station.csv", "--trees", "weather-samples/harrow-point-trees.csv",
                             "--tree", "ferry-elm", "--now", "2027-01-01T00:00Z"});
    CHECK(ran.exit == 0);
    CHECK(lines_of(ran.out)[1].starts_with("2026-05-16T14:00Z,"));
    CHECK(lines_of(ran.out).back().starts_with("2026-07-15T13:00Z,"));
    CHECK(ran.err.find("warning: past hours without temperature or humidity take those of another day: 4 h\n") != std::string::npos);
  }

  TEST_CASE("demand gives the same hours as JSON") {
    Arguments arguments{"demand", "--json"};
    arguments.insert(arguments.end(), courthouse.begin(), courthouse.end());
    const auto json = nlohmann::json::parse(sapdraw(arguments).out);
    const Hours hours = demand(courthouse);
    CHECK(json["tree"] == "courthouse-elm");
    REQUIRE(json["hours"].size() == hours.labels.size());
    CHECK(json["hours"][100]["time_utc"] == hours.labels[100]);
    CHECK(json["hours"][100]["psi_leaf_mpa"] == hours.columns.at("psi_leaf_mpa")[100]);
  }
}
