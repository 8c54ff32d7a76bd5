// `sapdraw reading`: gallons taken at the tree.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "office.h"
#include "program.h"
#include "support/within.h"

namespace {

using Json = nlohmann::ordered_json;

Arguments with(Arguments arguments, const Arguments& more) {
  arguments.insert(arguments.end(), more.begin(), more.end());
  return arguments;
}

const Arguments courthouse{"reading", "--weather", demo_weather, "--trees", demo_trees, "--tree", "courthouse-elm"};
const Arguments at_ten{"--now", "2026-07-06T15:30Z", "--opened", "9:00"};

Ran reading(const Arguments& more) { return sapdraw(with(with(courthouse, at_ten), more)); }
Json json_of(const Arguments& more) { return Json::parse(reading(with(more, {"--json"})).out); }

bool holds(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("a reading gives the crew ten lines at most: finish, what is normal, odds, the tank") {
    const Ran ran = reading({"--taken", "9:30 7gal", "--taken", "10:00 12gal"});
    CHECK(ran.exit == 0);
    CHECK(ran.err.empty());
    CHECK(lines_of(ran.out).size() <= 10);
    CHECK(widest_line(ran.out) <= 100);
    for (const char* piece :
         {"Courthouse elm, valves open 9:00 am: 12 gal of 66 gal by 10:00 am (DRAFT dose).", "Dose in: likely ", "Normal: ", " an hour",
          "This tree: 10 gal an hour.", "Valves shut by 7:30 pm: ", "Tank: ", "9 in 10 sure", "The label is the law"})
      CHECK_MESSAGE(holds(ran.out, piece), piece);
    for (const char* word : {"VPD", "REW", "MPa", "p90", "WARNING"}) CHECK_MESSAGE(!holds(ran.out, word), word);
  }

  TEST_CASE("the same reading in litres, with a day, as an instant or as what is left in the tank gives the same answer") {
    const Json a = json_of({"--taken", "10:00 12gal"});
    for (const Arguments& same : {Arguments{"--taken", "2026-07-06 10:00 12 gal"}, Arguments{"--taken", "2026-07-06T15:00Z 45.424941408L"},
                                  Arguments{"--left", "10:00 am 18gal", "--filled", "30gal"}}) {
      const Json b = json_of(same);
      CHECK(b["finish_h"]["p50"].get<double>() == within(a["finish_h"]["p50"].get<double>(), 1e-6));
      CHECK(b["at_local"] == "2026-07-06T10:00");
    }
    const Json si = Json::parse(reading({"--taken", "10:00 45.424941408", "--units", "si", "--json"}).out);
    CHECK(si["taken_l"].get<double>() == within(45.424941408, 1e-9));
  }

  TEST_CASE("the order of typing does not matter") {
    const Ran a = reading({"--taken", "9:30 7gal", "--taken", "10:00 12gal", "--json"});
    const Ran b = reading({"--taken", "10:00 12gal", "--taken", "9:30 7gal", "--json"});
    CHECK(a.out == b.out);
  }

  TEST_CASE("without a reading the answer is what was said before") {
    const Json json = json_of({});
    for (const char* q : {"p10", "p50", "p90"}) CHECK(json["finish_h"][q].get<double>() == within(json["before"][q].get<double>(), 1e-9));
    CHECK(json["chance_to_finish"].get<double>() == within(json["chance_before"].get<double>(), 1e-9));
    CHECK(json["at_local"].is_null());
    CHECK(json["rate_l_h"].is_null());
    CHECK(reading({}).exit == 0);
  }

  TEST_CASE("the JSON of a reading is in SI with the keys that scripts use") {
    const Json json = json_of({"--taken", "10:00 12gal"});
    for (const char* key :
         {"tree", "at_local", "opened_local", "taken_l", "finish_local", "finish_h", "before", "normal_now_l", "rate_l_h",
          "chance_to_finish", "sure_l_before_shut", "tank", "mc_error", "effective_draws", "warning", "valves_shut_by_local"})
      CHECK_MESSAGE(json.contains(key), key);
    CHECK(json["opened_local"] == "2026-07-06T09:00");
    CHECK(json["taken_l"].get<double>() == within(45.424941408, 1e-9));
    CHECK(json["rate_l_h"].get<double>() == within(45.424941408, 1e-9));
    CHECK(json["finish_h"]["p10"] < json["finish_h"]["p50"]);
    CHECK(json["finish_h"]["p50"] < json["finish_h"]["p90"]);
    CHECK(json["normal_now_l"]["p10"] < json["normal_now_l"]["p90"]);
    CHECK(json["tank"]["mixed_l"] == 114.0);
    CHECK(json["warning"].is_null());
  }

  TEST_CASE("the hours of a reading and the hours before it narrow as the crew goes on reading") {
    const Json one = json_of({"--taken", "9:15 4gal"}),
               three = json_of({"--taken", "9:15 4gal", "--taken", "9:30 7gal", "--taken", "10:00 12gal"});
    const auto width = [](const Json& q) { return q["p90"].get<double>() / q["p10"].get<double>(); };
    CHECK(width(one["finish_h"]) < width(one["before"]));
    CHECK(width(three["finish_h"]) < width(one["finish_h"]));
    CHECK(three["before"] == one["before"]);
  }

  TEST_CASE("an earlier shut-off lowers the odds and what may be mixed") {
    const Json early = json_of({"--taken", "10:00 12gal", "--shut-by", "12:00 pm"});
    const Json late = json_of({"--taken", "10:00 12gal"});
    CHECK(early["valves_shut_by_local"] == "2026-07-06T12:00");
    CHECK(early["chance_to_finish"] < late["chance_to_finish"]);
    CHECK(early["sure_l_before_shut"] < late["sure_l_before_shut"]);
    CHECK(early["tank"]["advice"] == "do_not_mix");
    CHECK(late["tank"]["advice"] != "do_not_mix");
    CHECK(holds(reading({"--taken", "10:00 12gal", "--shut-by", "12:00 pm"}).out, "DO NOT MIX"));
  }

  TEST_CASE("a hold ahead is told and counts for the tank, not for the odds") {
    // Thunder from 3 pm on that Thursday of the demo.
    const Arguments thursday = with(courthouse, {"--now", "2026-07-09T15:30Z", "--opened", "9:00", "--taken", "10:00 12gal"});
    const Ran ran = sapdraw(thursday);
    CHECK(lines_of(ran.out).size() <= 10);
    CHECK(holds(ran.out, "HOLD from 3:00 pm: thunder: valves shut"));
    CHECK(holds(ran.out, "9 in 10 sure before the hold: "));
    const Json held = Json::parse(sapdraw(with(thursday, {"--json"})).out);
    const Json until_then = Json::parse(sapdraw(with(thursday, {"--json", "--shut-by", "3 pm"})).out);
    CHECK(held["hold"]["code"] == "thunder");
    CHECK(held["hold"]["from_local"] == "2026-07-09T15:00");
    CHECK(held["sure_l_before_shut"] == until_then["sure_l_before_shut"]);
    CHECK(held["chance_to_finish"] > until_then["chance_to_finish"]);
    CHECK(until_then["hold"].is_null());
  }

  TEST_CASE("a reading far outside what trees do is told with what to look for") {
    const Ran leak = reading({"--taken", "10:00 60gal"});
    CHECK(leak.exit == 0);
    CHECK(holds(leak.out, "WARNING: 60 gal by 10:00 am: no tree we know takes that much; look for a leak."));
    CHECK(lines_of(leak.out).size() <= 10);
    const Ran shut = reading({"--taken", "10:00 1gal"});
    CHECK(holds(shut.out, "WARNING: 1 gal by 10:00 am is far too little: a shut valve, air in a section, leaves still wet?"));
    CHECK(json_of({"--taken", "10:00 60gal"})["warning"]["code"] == "above");
    CHECK(json_of({"--taken", "10:00 1gal"})["warning"]["code"] == "below");
  }

  TEST_CASE("a reading that cannot be is refused with the option, what was typed and what was expected") {
    struct Bad {
      Arguments arguments;
      std::string line;
    };
    for (const Bad& bad :
         {Bad{{"--taken", "8:30 2gal"}, "--taken: '8:30 2gal': expected a time after the valves opened at 9:00 am"},
          Bad{{"--taken", "10:00 90gal"},
              "--taken: '10:00 90gal': expected at most the dose, 66 gal: is there a leak, or water that is not mix?"},
          Bad{{"--taken", "9:30 8gal", "--taken", "10:00 7gal"},
              "--taken: '10:00 7gal': expected no less than was taken at an earlier reading"},
          Bad{{"--taken", "2026-07-07 9:30 8gal"},
              "--taken: '2026-07-07 9:30 8gal': expected a time within a day of 9:00 am, when the valves opened"},
          Bad{{"--left", "10:00 40gal", "--filled", "30gal"}, "--left: '10:00 40gal': expected at most what was put into the tank, 30 gal"},
          Bad{{"--taken", "10:00 12gal", "--filled", "10gal"}, "--filled: '10gal': expected at least what the tree has taken, 12 gal"},
          Bad{{"--shut-by", "8:00"}, "--shut-by: '8:00': expected a time after the valves opened"}}) {
      const Ran ran = reading(bad.arguments);
      CHECK(ran.exit == 3);
      CHECK(ran.out.empty());
      CHECK(ran.err == bad.line + "\n");
    }
  }

  TEST_CASE("a time or an amount that cannot be read is wrong use") {
    for (const Arguments& bad :
         {Arguments{"--taken", "half past nine 12gal"}, Arguments{"--taken", "10:00 12cups"}, Arguments{"--taken", "10:00"},
          Arguments{"--left", "10:00 12gal"}, Arguments{"--filled", "much"}, Arguments{"--shut-by", "later"}}) {
      const Ran ran = reading(bad);
      CHECK(ran.exit == 2);
      CHECK(lines_of(ran.err).size() == 1);
      CHECK(holds(ran.err, bad.front()));
    }
  }

  TEST_CASE("an unknown tree, and an opening that the weather does not cover, are refused") {
    const Ran unknown = sapdraw(with({"reading", "--weather", demo_weather, "--trees", demo_trees, "--tree", "oak-9"}, at_ten));
    CHECK(unknown.exit == 3);
    CHECK(unknown.err == "--tree: 'oak-9': expected an id of trees.csv\n");
    const Ran late = sapdraw(with(courthouse, {"--now", demo_now, "--opened", "2026-09-01 9:00"}));
    CHECK(late.exit == 3);
    CHECK(holds(late.err, "--opened: '2026-09-01T09:00': expected a time from "));
  }

  TEST_CASE("a reading that lies ahead of now is answered with a warning") {
    const Ran ran = sapdraw(with(courthouse, {"--now", demo_now, "--opened", "9:00", "--taken", "10:00 12gal"}));
    CHECK(ran.exit == 0);
    CHECK(ran.err == "warning: courthouse-elm: 10:00 am lies ahead of now, 5:30 am\n");
  }

  TEST_CASE("without a weather file the office's own weather serves, and with none kept the service has failed") {
    const OfficeOfTests office{"services = [\"open-meteo\"]\nopen_meteo = \"own-server\"\n"};
    const std::string trees = office.file("trees.csv", tree_header + "\n" + good_tree + "\n");
    const Arguments asked{"reading", "--trees", trees, "--tree", "elm-1", "--opened", "9:00", "--taken", "9:30 4gal", "--json"};
    const Ran none = office.run(with(asked, {"--offline"}), demo_now);
    CHECK(none.exit == 4);
    CHECK(none.out.empty());
    office.server().routes(R"([{"path":"/v1/forecast","type":"application/json","file":")" SAPDRAW_SOURCE_DIR
                           R"(/weather-samples/demo-fortnight.json"}])");
    const Json kept = Json::parse(office.run(asked, demo_now).out);
    const std::string file = SAPDRAW_SOURCE_DIR "/" + demo_weather;
    const Json from_file = Json::parse(sapdraw(with(asked, {"--weather", file, "--now", demo_now})).out);
    CHECK(kept["finish_h"] == from_file["finish_h"]);
    CHECK(kept["tank"] == from_file["tank"]);
  }
}
