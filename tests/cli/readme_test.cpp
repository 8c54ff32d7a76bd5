// What the README shows is what the program says, in words and in JSON alike.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include <map>
#include <sstream>

#include "program.h"

namespace {

const Arguments demo{"days", "--weather", demo_weather, "--trees", demo_trees, "--tree", "courthouse-elm", "--now", demo_now};

// The first fenced block of the README.
std::string sample_of_readme() {
  const std::string readme = content_of(std::string{SAPDRAW_SOURCE_DIR} + "/README.md");
  const auto begin = readme.find("```\n") + 4;
  return readme.substr(begin, readme.find("```", begin) - begin);
}

}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("the README's sample is the demo's first tree, to the letter") {
    const Ran ran = sapdraw(demo);
    CHECK(ran.exit == 0);
    CHECK(sample_of_readme() == ran.out);
  }

  TEST_CASE("every day of the demo's text has the rank, the verdict and the order of its JSON") {
    Arguments as_json = demo;
    as_json.push_back("--json");
    const auto json = nlohmann::json::parse(sapdraw(as_json).out);
    const std::map<std::string, std::string> words{{"go", "GO"}, {"tight", "TIGHT"}, {"no_go", "NO GO"}};
    std::vector<std::string> days;
    for (const auto& line : lines_of(sample_of_readme()))
      if (line.find(" Jul ") == 7) days.push_back(line);
    const auto& expected = json.at("trees").at(0).at("days");
    REQUIRE(days.size() == expected.size());
    for (std::size_t i = 0; i < days.size(); ++i) {
      CHECK(std::stoi(days[i].substr(0, 2)) == expected[i].at("rank").get<int>());
      CHECK((days[i][2] == '=') == expected[i].at("tied").get<bool>());
      CHECK(std::stoi(days[i].substr(12, 2)) == std::stoi(expected[i].at("date").get<std::string>().substr(8)));
      CHECK(days[i].substr(16).starts_with(words.at(expected[i].at("verdict").get<std::string>())));
    }
  }
}
