// Tree lists with faults: each told by line and column, the other trees answered all the same.
#include <doctest/doctest.h>

#include <array>
#include <nlohmann/json.hpp>

#include "program.h"

namespace {

using Json = nlohmann::ordered_json;

// Weather for two whole local days, with a day's past; small enough to ask often.
const std::string weather = [] {
  std::string text = "time_utc,temp_c,rh_pct,cloud_pct,rain_mm\n";
  for (int i = 0; i < 96; ++i) {
    char line[64];
    std::snprintf(line, sizeof line, "2026-07-%02dT%02d:00Z,%d,60,20,0\n", 5 + i / 24, i % 24, i % 24 > 12 ? 27 : 19);
    text += line;
  }
  return text;
}();

Ran days_json(const std::string& trees) {
  const Scratch scratch;
  return sapdraw({"days", "--json", "--weather", scratch.file("weather.csv", weather), "--trees", scratch.file("trees.csv", trees), "--now",
                  "2026-07-06T00:00Z"});
}

// The good tree with one cell changed.
std::string line_with(const std::string& column, const std::string& value, const std::string& id) {
  std::string header = tree_header + ",", good = good_tree + ",", line;
  while (!header.empty()) {
    const std::string name = header.substr(0, header.find(',')), cell = good.substr(0, good.find(','));
    line += (line.empty() ? "" : ",") + (name == column ? value : name == "tree" ? id : cell);
    header.erase(0, name.size() + 1);
    good.erase(0, cell.size() + 1);
  }
  return line;
}

}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("a fault in one tree's line is told once, in JSON too, and the other tree is answered") {
    struct Bad {
      std::string column, value, line;
    };
    const std::array all{
        Bad{"dbh_cm", "0", "trees.csv:3: dbh_cm: '0': expected a number from 2 to 400"},
        Bad{"dbh_cm", "-1", "trees.csv:3: dbh_cm: '-1': expected a number from 2 to 400"},
        Bad{"dbh_cm", "401", "trees.csv:3: dbh_cm: '401': expected a number from 2 to 400"},
        Bad{"dbh_cm", "forty", "trees.csv:3: dbh_cm: 'forty': expected a number from 2 to 400"},
        Bad{"lat", "91", "trees.csv:3: lat: '91': expected a number from -90 to 90"},
        Bad{"lon", "-193.4", "trees.csv:3: lon: '-193.4': expected a number from -180 to 180"},
        Bad{"species", "Ulmus americanna", "trees.csv:3: species: 'Ulmus americanna': unknown species: did you mean 'Ulmus americana'?"},
        Bad{"soil", "moon dust", "trees.csv:3: soil: 'moon dust': unknown texture: expected "},
        Bad{"zone", "America/Thornby", "trees.csv:3: zone: 'America/Thornby': "},
    };
    // All in one list, so that the good tree is computed once.
    std::string trees = tree_header + "\n" + good_tree + "\n";
    std::vector<std::string> ids;
    for (std::size_t i = 0; i < all.size(); ++i) {
      ids.push_back("bad-" + std::to_string(i));
      trees += line_with(all[i].column, all[i].value, ids.back()) + "\n";
    }
    const Ran ran = days_json(trees);
    CHECK(ran.exit == 3);
    const Json json = Json::parse(ran.out);
    REQUIRE(json["trees"].size() == all.size() + 1);
    const auto err = lines_of(ran.err);
    CHECK(err.size() == all.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
      std::string expected = all[i].line;
      expected.replace(expected.find(":3:"), 3, ":" + std::to_string(i + 3) + ":");
      CAPTURE(expected);
      bool in_json = false, on_stderr = false;
      for (const Json& tree : json["trees"])
        in_json = in_json || (tree["tree"] == ids[i] && tree.size() == 2 && tree["error"].get<std::string>().starts_with(expected));
      for (const std::string& line : err) on_stderr = on_stderr || line.starts_with(expected);
      CHECK(in_json);
      CHECK(on_stderr);
    }
    bool answered = false;
    for (const Json& tree : json["trees"]) answered = answered || (tree["tree"] == "elm-1" && tree["days"].size() == 2);
    CHECK(answered);
  }

  TEST_CASE("two trees with one id are told with both lines") {
    const Ran ran = sapdraw({"sheet", "--trees", "tests/broken/trees-same-id.csv", "--tree", "oak-1"});
    CHECK(ran.exit == 0);
    const Ran days = days_json(tree_header + "\n" + good_tree + "\n" + good_tree + "\n");
    CHECK(days.exit == 3);
    CHECK(days.err.find("trees.csv:3: tree: 'elm-1': ") != std::string::npos);
    CHECK(days.err.find("line 2") != std::string::npos);
  }

  TEST_CASE("a list with a byte-order mark, CRLF and quotes is read") {
    const Scratch scratch;
    const std::string trees = scratch.file(
        "trees.csv", "\xEF\xBB\xBF" + tree_header +
                         "\r\nelm-1,\"The \"\"big\"\" elm, north\",Ulmus americana,95,43.7,-91.9,320,America/Chicago,clay loam\r\n");
    const Ran ran = sapdraw({"sheet", "--trees", trees, "--tree", "elm-1"});
    CHECK(ran.exit == 0);
    CHECK(ran.err.empty());
    CHECK(ran.out.find("The \"big\" elm, north") != std::string::npos);
  }

  TEST_CASE("a list that cannot be read at all is refused with one line") {
    const Scratch scratch;
    const auto refusal = [](const std::string& file) {
      const Ran ran = sapdraw({"sheet", "--trees", file, "--tree", "elm-1"});
      CHECK(ran.exit == 3);
      CHECK(ran.out.empty());
      CHECK(lines_of(ran.err).size() == 1);
      return ran.err;
    };
    CHECK(refusal("no-such.csv") == "no-such.csv: expected a file: there is none of that name\n");
    CHECK(refusal("tests/broken/trees-no-soil.csv").starts_with("trees-no-soil.csv:1: soil: missing in the header"));
    CHECK(refusal(scratch.file("empty.csv", "")).starts_with("empty.csv"));
    CHECK(refusal(scratch.file("long.csv", tree_header + "\nelm-1," + std::string(10'000'000, 'x') + "\n")).starts_with("long.csv:2: "));
    CHECK(widest_line(refusal(scratch.file("long.csv", std::string(10'000'000, 'x')))) < 300);
  }

  TEST_CASE("a tree that is not in the list is named, and other trees' faults are left alone") {
    const Ran ran = sapdraw({"sheet", "--trees", "tests/broken/trees-forty.csv", "--tree", "elm-9"});
    CHECK(ran.exit == 3);
    CHECK(ran.err == "--tree: 'elm-9': expected an id of trees-forty.csv\n");
    CHECK(sapdraw({"sheet", "--trees", "tests/broken/trees-forty.csv", "--tree", "elm-2"}).exit == 0);
    const Ran forty = sapdraw({"sheet", "--trees", "tests/broken/trees-forty.csv", "--tree", "elm-3"});
    CHECK(forty.exit == 3);
    CHECK(forty.err == "trees-forty.csv:4: dbh_cm: 'forty': expected a number from 2 to 400\n");
  }
}
