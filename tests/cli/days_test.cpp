// `sapdraw days` as a user meets it; what the answers are worth is tested in tests/app and tests/days.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace {

using Json = nlohmann::ordered_json;

const Arguments one_elm{"days", "--weather", demo_weather, "--trees", demo_trees, "--tree", "schoolyard-elm", "--now", demo_now};

Ran days(const Arguments& more) {
  Arguments all = one_elm;
  all.insert(all.end(), more.begin(), more.end());
  return sapdraw(all);
}

void has(const Json& object, const std::vector<std::string>& keys) {
  for (const std::string& key : keys) CHECK_MESSAGE(object.contains(key), key);
}

}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("days prints the contract's keys as JSON") {
    const Ran ran = days({"--json"});
    CHECK(ran.exit == 0);
    const Json json = Json::parse(ran.out);
    has(json, {"made_at", "weather", "trees"});
    has(json["weather"][0], {"source", "issued_at", "age_h", "members", "past_days", "site"});
    const Json& tree = json["trees"][0];
    has(tree, {"tree", "name", "species", "dbh_cm", "dose_l", "dose_from", "ports", "days", "wait"});
    // The local days 7 to 19 July lie whole in the forecast: the 20th ends five hours after it.
    CHECK(tree["days"].size() == 13);
    for (const Json& day : tree["days"]) {
      has(day,
          {"date", "rank", "verdict", "start_local", "uptake_h", "on_site_h", "valves_open_local", "valves_shut_by_local", "off_site_local",
           "peak_rate_l_h", "chance_to_finish", "mc_error", "expected_cost_h", "conditions", "reasons", "holds", "advice"});
      has(day["uptake_h"], {"p10", "p50", "p90"});
      has(day["on_site_h"], {"p10", "p50", "p90"});
      has(day["off_site_local"], {"p50", "p90"});
      has(day["conditions"],
          {"rew", "vpd_kpa_max", "cloud_pct_mean", "rain_7d_mm", "rain_today_mm", "wet_leaf_h", "temp_max_c", "gust_max_m_s"});
      CHECK(day["reasons"].size() == 6);
      for (const Json& reason : day["reasons"]) has(reason, {"factor", "hours", "text"});
      for (const Json& advice : day["advice"]) {
        has(advice, {"code", "hours", "chance", "chance_otherwise", "text"});
        for (const char* key : {"chance", "chance_otherwise"}) CHECK((advice[key] >= 0.0 && advice[key] <= 1.0));
      }
      for (const Json& hold : day["holds"]) has(hold, {"code", "from_local", "until_local", "text"});
      CHECK(day["chance_to_finish"] >= 0.0);
      CHECK(day["chance_to_finish"] <= 1.0);
    }
  }

  TEST_CASE("a replay gives identical bytes and another seed other numbers") {
    const std::string first = days({"--json"}).out;
    CHECK(first == days({"--json"}).out);
    CHECK(first != days({"--json", "--seed", "2"}).out);
    CHECK(days({}).out == days({}).out);
  }

  TEST_CASE("one thread and three give the same bytes for a whole list of trees") {
    const auto with = [](const std::string& threads) {
      return sapdraw({"days", "--weather", demo_weather, "--trees", demo_trees, "--now", demo_now, "--json", "--threads", threads});
    };
    const Ran one = with("1");
    CHECK(one.exit == 0);
    CHECK(one.out == with("3").out);
  }

  TEST_CASE("more draws make the odds steadier") {
    const auto error = [](const std::string& draws) {
      const Json json = Json::parse(days({"--json", "--draws", draws}).out);
      double sum = 0.0;
      for (const Json& day : json["trees"][0]["days"]) sum += day["mc_error"].get<double>();
      return sum;
    };
    CHECK(error("1024") < 0.6 * error("256"));
    CHECK(error("1024") > 0.4 * error("256"));
  }

  TEST_CASE("numbers of threads and draws are refused outside their bounds") {
    CHECK(days({"--threads", "0"}).exit == 2);
    CHECK(days({"--threads", "many"}).err.find("expected a whole number from 1 to 256") != std::string::npos);
    CHECK(days({"--draws", "1"}).exit == 2);
    CHECK(days({"--draws", "99999999999"}).exit == 2);
  }

  TEST_CASE("the text of days is at most 100 columns wide, speaks no model's language and shows the cautions") {
    for (const std::string units : {"us", "si"}) {
      const Ran ran = days({"--units", units});
      CHECK(ran.exit == 0);
      CHECK(widest_line(ran.out) <= 100);
      CHECK(ran.out.find('\033') == std::string::npos);
      CHECK(ran.out.find("The label is the law") != std::string::npos);
      for (const char* word : {"VPD", "REW", "MPa", "embolism", "p90", "vpd"}) CHECK_MESSAGE(ran.out.find(word) == std::string::npos, word);
      CHECK((ran.out.find(" gal ") != std::string::npos) == (units == "us"));
      CHECK((ran.out.find(" L of mix") != std::string::npos) == (units == "si"));
    }
  }

  TEST_CASE("the best day's first two pieces of advice stand under it in the text") {
    const Json json = Json::parse(days({"--json", "--units", "si"}).out);
    const Json& advice = json["trees"][0]["days"][0]["advice"];
    REQUIRE(advice.size() >= 1);
    const std::string text = days({"--units", "si"}).out;
    for (std::size_t i = 0; i < advice.size(); ++i) {
      // Its beginning: a long one goes on in the next line.
      const std::string begins = "\n  " + advice[i]["text"].get<std::string>().substr(0, 40);
      CHECK((text.find(begins) != std::string::npos) == (i < 2));
    }
  }

  TEST_CASE("what a probe, a hand or a stated figure found corrects the soil on its day, and days says what it was without them") {
    const Scratch scratch;
    const auto of = [&](const std::string& columns, const std::string& cells) {
      const std::string list = scratch.file("trees.csv", tree_header + columns + "\n" + good_tree + cells + "\n");
      const Ran ran = sapdraw({"days", "--weather", demo_weather, "--trees", list, "--now", demo_now, "--draws", "64", "--json"});
      CHECK(ran.exit == 0);
      return Json::parse(ran.out)["trees"][0];
    };
    const Json untouched = of("", ""), alone = untouched["soil_model_alone"];
    REQUIRE(!alone.is_null());  // the demo's service gives its own soil moisture
    CHECK(alone["corrected_by"] == Json{"the service's own soil moisture"});
    const Json dry = of(",probe_pct,probe_cm", ",14,20"), wet = of(",probe_pct,probe_cm", ",30,20");
    CHECK(dry["rew_now"] < untouched["rew_now"]);
    CHECK(wet["rew_now"] > dry["rew_now"]);
    CHECK(wet["rew_sd_now"] < untouched["rew_sd_now"]);
    CHECK(dry["soil_model_alone"]["rew"] == alone["rew"]);
    CHECK(dry["soil_model_alone"]["corrected_by"].back() == "the probe");
    const std::string story = dry["soil_story"];
    CHECK(story.find("where the model alone had") != std::string::npos);
    const Json felt_dry = of(",soil_feel", ",dry"), felt_wet = of(",soil_feel", ",Field capacity");
    CHECK(felt_dry["rew_now"] < felt_wet["rew_now"]);
    CHECK(felt_wet["soil_model_alone"]["corrected_by"].back() == "the hand's judgement");
    CHECK(of(",rew_now", ",0.2")["rew_now"] < 0.3);
    // A look of last week has less to say about today than one of today.
    const Json last_week = of(",soil_feel,soil_on", ",dry,2026-06-29");
    CHECK(last_week["soil_model_alone"]["corrected_by"].back() == "the hand's judgement on Mon Jun 29");
    CHECK(last_week["rew_now"] > felt_dry["rew_now"]);
    const Json last_year = of(",soil_feel,soil_on", ",dry,2025-06-29");
    CHECK(last_year["rew_now"] == untouched["rew_now"]);
    CHECK(std::string{last_year["soil_story"]}.find("lies before the weather begins and is not used") != std::string::npos);
  }

  TEST_CASE("a look at the soil that cannot be is refused by field") {
    const Scratch scratch;
    const auto fault = [&](const std::string& columns, const std::string& cells) {
      const std::string list = scratch.file("trees.csv", tree_header + columns + "\n" + good_tree + cells + "\n");
      const Ran ran = sapdraw({"days", "--weather", demo_weather, "--trees", list, "--now", demo_now});
      CHECK(ran.exit == 3);
      return lines_of(ran.err).front();
    };
    CHECK(fault(",probe_pct,probe_cm", ",25,") == "trees.csv:2: probe_cm: expected the depth of the reading in probe_pct");
    CHECK(fault(",probe_pct,probe_cm", ",130,20") == "trees.csv:2: probe_pct: '130': expected a number from 0 to 100");
    CHECK(fault(",soil_feel", ",damp") ==
          "trees.csv:2: soil_feel: 'damp': expected one of dry, slightly_moist, moist, wet, field_capacity");
    CHECK(fault(",soil_feel,soil_on", ",dry,2026-07-09") == "trees.csv:2: soil_on: '2026-07-09': expected a day that is not ahead");
  }

  TEST_CASE("units change nothing in the JSON") { CHECK(days({"--json"}).out == days({"--json", "--units", "si"}).out); }

  TEST_CASE("strict days exit 1 when no tree has a go day") {
    const Arguments cold{"days",
                         "--weather",
                         "weather-samples/cold-spring.json",
                         "--trees",
                         "weather-samples/cold-spring-trees.csv",
                         "--tree",
                         "sawmill-elm",
                         "--now",
                         "2026-04-14T11:30Z"};
    CHECK(sapdraw(cold).exit == 0);
    Arguments strict = cold;
    strict.push_back("--strict");
    CHECK(sapdraw(strict).exit == 1);
    CHECK(days({"--strict"}).exit == 0);
  }

  TEST_CASE("where a fresher forecast is worth waiting for, text and JSON say until when") {
    Arguments far{"days",
                  "--weather",
                  "weather-samples/saturated-clay.json",
                  "--trees",
                  "weather-samples/saturated-clay-trees.csv",
                  "--tree",
                  "canal-elm",
                  "--now",
                  "2026-04-14T11:30Z"};
    const std::string text = sapdraw(far).out;
    far.push_back("--json");
    const Json wait = Json::parse(sapdraw(far).out)["trees"][0]["wait"];
    has(wait, {"decide_by_local", "gain_h", "text"});
    CHECK(wait["gain_h"] >= 0.5);
    CHECK(wait["decide_by_local"].get<std::string>().ends_with("T17:00"));
    // Broken over lines in the text.
    CHECK(wait["text"].get<std::string>().find("are close: decide by") != std::string::npos);
    CHECK(text.find(wait["text"].get<std::string>().substr(0, 40)) != std::string::npos);
    CHECK(Json::parse(days({"--json"}).out)["trees"][0]["wait"].is_null());
  }
}
