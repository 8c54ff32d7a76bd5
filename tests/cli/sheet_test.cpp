// `sapdraw sheet`: what a person takes to the truck.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace {

using Json = nlohmann::ordered_json;

const std::string label_tree_list = tree_header + ",dose_l,ports,hole_diameter_mm,pressure_kpa\n" + good_tree + ",227.1,24,8,69\n";

Ran sheet(const Arguments& arguments) {
  Arguments all{"sheet", "--now", demo_now};
  all.insert(all.end(), arguments.begin(), arguments.end());
  return sapdraw(all);
}
const Arguments mill{"--trees", demo_trees, "--tree", "mill-street-elm"};
const Arguments mill_on_wednesday{"--trees", demo_trees, "--tree", "mill-street-elm", "--weather", demo_weather, "--day", "2026-07-08"};

Arguments with(Arguments arguments, const Arguments& more) {
  arguments.insert(arguments.end(), more.begin(), more.end());
  return arguments;
}

// Whether `piece` stands in `text`, wherever lines break.
bool holds(const std::string& text, const std::string& piece) {
  std::string flat;
  for (const char c : text)
    if (c != '\n' && c != ' ')
      flat += c;
    else if (!flat.ends_with(' '))
      flat += ' ';
  return flat.find(piece) != std::string::npos;
}

}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("a sheet without the owner's label figure begins with DRAFT in capitals") {
    const Ran ran = sheet(mill);
    CHECK(ran.exit == 0);
    CHECK(ran.out.starts_with("DRAFT: THE DOSE BELOW IS COMMON PRACTICE"));
    CHECK(Json::parse(sheet(with(mill, {"--json"})).out)["draft"] == true);
  }

  TEST_CASE("a sheet with the owner's figure says it in gallons and is no draft") {
    const Scratch scratch;
    const Arguments church{"--trees", scratch.file("trees.csv", label_tree_list), "--tree", "elm-1"};
    const Ran ran = sheet(church);
    CHECK(ran.exit == 0);
    CHECK(!holds(ran.out, "DRAFT"));
    CHECK(holds(ran.out, "60 gal of mix"));
    CHECK(holds(ran.out, "24, one every "));
    CHECK(holds(ran.out, "10 psi at the ports"));
    CHECK(holds(sheet(with(church, {"--units", "si"})).out, "227 L of mix"));
    CHECK(holds(sheet(with(church, {"--units", "si"})).out, "69 kPa at the ports"));
    const Json json = Json::parse(sheet(with(church, {"--json"})).out);
    CHECK(json["draft"] == false);
    CHECK(json["dose_l"] == 227.1);
    CHECK(json["ports"]["count"] == 24);
    CHECK(json["ports"]["pressure_kpa"].get<double>() == doctest::Approx(69));
    CHECK(json["tanks"]["count"] == 2);
    CHECK(json["tanks"]["last_l"].get<double>() == doctest::Approx(227.1 - 114));
  }

  TEST_CASE("a sheet says where ports go, what to bring, the order of work and the cautions") {
    const std::string text = sheet(mill).out;
    for (const char* piece :
         {"ridges of the flare, not in the valleys", "move sideways first", "backflow preventer", "utilities are marked",
          "Fill and bleed the lines", "Drill and seat section by section", "That water is not dose", "Disinfect bits",
          "The label is the law", "stop for thunder", "Lines under pressure are attended", "9 in 10 sure"})
      CHECK_MESSAGE(holds(text, piece), piece);
    CHECK(text.find("Dig out the flare") < text.find("Drill and seat"));
    CHECK(text.find("Pressure up on plain water") < text.find("Mix the first tank"));
  }

  TEST_CASE("a sheet for a day has clock times in the order of the work") {
    const Ran ran = sheet(mill_on_wednesday);
    CHECK(ran.exit == 0);
    std::size_t at = 0;
    for (const char* phase :
         {"arrive; dig", "lay out", "drill and seat", "leak check", "mix the first tank", "valves open", "valves shut by", "off site by"}) {
      const auto next = ran.out.find(phase, at);
      CHECK_MESSAGE(next != std::string::npos, phase);
      at = next;
    }
    CHECK(holds(ran.out, "3:30 pm off site by"));
    CHECK(holds(ran.out, "Wed Jul 8"));
    const Json day = Json::parse(sheet(with(mill_on_wednesday, {"--json"})).out)["day"];
    CHECK(day["date"] == "2026-07-08");
    CHECK(day["off_site_by_local"] == "2026-07-08T15:30");
  }

  TEST_CASE("a sheet with weather and no day takes the best one that days gives") {
    const Arguments asked{"--trees", demo_trees, "--tree", "mill-street-elm", "--weather", demo_weather, "--json"};
    const Json json = Json::parse(sheet(asked).out);
    const Json days = Json::parse(sapdraw(with({"days", "--now", demo_now}, asked)).out);
    CHECK(json["day"]["date"] == days["trees"][0]["days"][0]["date"]);
    CHECK(json["day"]["chance_to_finish"] == days["trees"][0]["days"][0]["chance_to_finish"]);
    CHECK(json["day"]["start_local"] == days["trees"][0]["days"][0]["start_local"]);
    CHECK(json["ports"]["count"] == days["trees"][0]["ports"]);
  }

  TEST_CASE("a sheet for a day that the weather does not cover is refused") {
    Arguments asked = mill_on_wednesday;
    asked.back() = "2026-08-01";
    const Ran ran = sheet(asked);
    CHECK(ran.exit == 3);
    CHECK(ran.out.empty());
    CHECK(holds(ran.err, "--day: '2026-08-01': expected a day that the weather covers, 2026-07-07 to "));
  }

  TEST_CASE("a sheet is at most 100 columns wide and speaks no model's language") {
    for (const Arguments& asked : {mill, mill_on_wednesday, with(mill_on_wednesday, {"--units", "si"})}) {
      const std::string text = sheet(asked).out;
      CHECK(widest_line(text) <= 100);
      for (const char* word : {"VPD", "REW", "MPa", "embolism", "p90", "vpd"}) CHECK_MESSAGE(!holds(text, word), word);
    }
  }
}
