#include <doctest/doctest.h>
#include <sys/mount.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "office.h"

using Json = nlohmann::json;

namespace {

const std::string samples = SAPDRAW_SOURCE_DIR "/weather-samples/";

// The samples' site: the National Weather Service's grid and MET Norway's series are of one place and one week.
const std::string two_services_now = "2026-07-15T13:30Z";
const std::string site_tree = tree_header + "\nmill-elm,Mill elm,Ulmus americana,95,42.452,-72.604,96,America/New_York,loam\n";

std::string route(const std::string& path, const std::string& file, const std::string& kind = "application/geo+json",
                  const std::string& more = "") {
  return R"({"path":")" + path + R"(","file":")" + samples + file + R"(","type":")" + kind + "\"" + more + "}";
}

const std::string points_body = R"({\"properties\":{\"gridId\":\"MAP\",\"gridX\":1,\"gridY\":2,\"timeZone\":\"America/New_York\",)"
                                R"(\"forecastGridData\":\"https://api.weather.gov/gridpoints/MAP/1,2\",)"
                                R"(\"observationStations\":\"https://api.weather.gov/gridpoints/MAP/1,2/stations\"}})";

std::string all_services() {
  return "[" + std::string{R"({"path":"/points/","body":")"} + points_body + R"(","type":"application/geo+json"},)" +
         route("/gridpoints/MAP/1,2$", "nws-grid.json", "application/geo+json", R"(,"modified":"Wed, 15 Jul 2026 12:29:00 GMT")") + "," +
         R"({"path":"/gridpoints/MAP/1,2/stations","body":"{\"features\":[]}","type":"application/geo+json"},)" +
         R"({"path":"/alerts/","body":"{\"features\":[]}","type":"application/geo+json"},)" +
         route("/complete", "met-forecast.json", "application/json") + "," + R"({"path":"/search/","body":"{\"results\":[]}"})" + "]";
}

Json trees_of(const Ran& ran) {
  REQUIRE_MESSAGE(!ran.out.empty(), ran.err);
  return Json::parse(ran.out).at("trees");
}

std::string everything_written(const std::filesystem::path& folder) {
  std::string all;
  for (const auto& file : std::filesystem::recursive_directory_iterator{folder})
    if (file.is_regular_file() && file.path().string().find("/server/") == std::string::npos) all += content_of(file.path());
  return all;
}

}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("weather brings in what every service says, and straight after asks nobody") {
    const OfficeOfTests office;
    office.server().routes(all_services());
    const std::string trees = office.file("trees.csv", site_tree);
    const Ran first = office.run({"weather", "--trees", trees}, two_services_now);
    CHECK(first.exit == 0);
    CHECK(first.err == "");
    CHECK(lines_of(first.out)[0] == "1 site in 1 place: 6 new, 0 unchanged, 0 fresh already, 0 stale, 0 failed");
    CHECK(first.out.find("Data from MET Norway") != std::string::npos);
    CHECK(widest_line(first.out) <= 100);
    const std::size_t calls = office.server().calls();
    CHECK(calls == 6);
    const Ran again = office.run({"weather", "--trees", trees}, two_services_now);
    CHECK(lines_of(again.out)[0] == "1 site in 1 place: 0 new, 0 unchanged, 6 fresh already, 0 stale, 0 failed");
    CHECK(office.server().calls() == calls);
    // Every call says who asks, with the service's own bytes for a date it gave.
    for (const Asked& asked : office.server().asked()) {
      CHECK(asked.text.find("\"User-Agent\": \"sapdraw/") != std::string::npos);
      CHECK(asked.text.find("(office@trees.example)") != std::string::npos);
    }
    const Ran later = office.run({"weather", "--trees", trees, "--json"}, "2026-07-15T15:00Z");
    const Json json = Json::parse(later.out);
    CHECK(office.server().asked().back().path.size() > 0);
    bool unchanged = false;
    for (const Json& told : json.at("places")[0].at("services")) unchanged = unchanged || told.at("came") == "unchanged";
    CHECK(unchanged);
    CHECK(json.at("places")[0].at("usable") == true);
  }

  TEST_CASE("two services make one series with the source of every hour, and where they disagree the range is wider") {
    const OfficeOfTests both, one;
    both.server().routes(all_services());
    one.server().routes(all_services());
    one.settings(content_of(one.folder() / "config.toml")
                     .replace(content_of(one.folder() / "config.toml").find("[weather]\n"), 10, "[weather]\nservices = [\"nws\"]\n"));
    const std::string trees = both.file("trees.csv", site_tree);
    const Json two = trees_of(both.run({"days", "--trees", trees, "--json"}, two_services_now));
    const Json alone = trees_of(one.run({"days", "--trees", trees, "--json"}, two_services_now));
    // MET Norway goes on where the National Weather Service ends.
    CHECK(two[0].at("days").size() > alone[0].at("days").size());
    const auto width = [](const Json& tree, const std::string& date) {
      for (const Json& day : tree.at("days"))
        if (day.at("date") == date) return day.at("uptake_h").at("p90").get<double>() - day.at("uptake_h").at("p10").get<double>();
      return -1.0;
    };
    CHECK(width(two[0], "2026-07-16") > 0.0);
    CHECK(width(two[0], "2026-07-16") != width(alone[0], "2026-07-16"));
    const Ran shown = both.run({"weather", "show", "mill-elm", "--trees", trees}, two_services_now);
    CHECK(shown.exit == 0);
    CHECK(shown.out.find("National Weather Service XYZ 31,47") != std::string::npos);
    CHECK(shown.out.find("MET Norway") != std::string::npos);
    CHECK(shown.out.find("Thu Jul 16") != std::string::npos);
  }

  TEST_CASE("what comes over the line answers as the same bytes in a file do") {
    const OfficeOfTests office{"services = [\"open-meteo\"]\nopen_meteo = \"own-server\"\n"};
    office.server().routes("[" + route("/v1/forecast", "demo-fortnight.json", "application/json") + "]");
    const std::string trees = office.file("trees.csv", tree_header + "\n" + good_tree + "\n");
    CHECK(office.run({"weather", "--trees", trees}, demo_now).exit == 0);
    const Json from_line = trees_of(office.run({"days", "--trees", trees, "--json", "--draws", "64"}, demo_now));
    const std::string file = SAPDRAW_SOURCE_DIR "/" + demo_weather;
    const Json from_file = trees_of(sapdraw({"days", "--trees", trees, "--weather", file, "--json", "--draws", "64", "--now", demo_now}));
    CHECK(from_line == from_file);
    CHECK(office.server().calls() == 1);
    // The long past is asked for once; the next day brings only the days since.
    CHECK(office.server().asked()[0].path.find("past_days=92") != std::string::npos);
    CHECK(office.run({"weather", "--trees", trees}, "2026-07-07T10:30Z").exit == 0);
    CHECK(office.server().calls() == 2);
  }

  TEST_CASE("with the line down the cache answers and says how old it is, and beyond the owner's age nothing is GO") {
    const std::string trees_text = tree_header + "\n" + good_tree + "\n";
    const OfficeOfTests office{"services = [\"open-meteo\"]\nopen_meteo = \"own-server\"\n"};
    office.server().routes("[" + route("/v1/forecast", "demo-fortnight.json", "application/json") + "]");
    const std::string trees = office.file("trees.csv", trees_text);
    REQUIRE(office.run({"weather", "--trees", trees}, demo_now).exit == 0);
    office.server().routes(R"([{"path":"/","status":403,"body":"<html>no</html>","type":"text/html"}])");
    const Ran soon = office.run({"days", "--trees", trees, "--draws", "64"}, "2026-07-06T15:30Z");
    CHECK(soon.exit == 0);
    CHECK(soon.err == "warning: open-meteo: 127.0.0.1: does not let us in: is `contact` in config.toml right? (403)\n");
    CHECK(soon.out.find("Note: Open-Meteo does not answer: what it said 5 h ago serves.") != std::string::npos);
    CHECK(soon.out.find(" GO ") != std::string::npos);
    const Ran late = office.run({"days", "--trees", trees, "--draws", "64", "--offline"}, "2026-07-07T15:30Z");
    CHECK(late.exit == 0);
    CHECK(late.out.find("older than 24 h: TIGHT at best") != std::string::npos);
    for (const std::string& line : lines_of(late.out))
      if (line.size() > 22 && line.substr(16, 6) == "GO    ") FAIL(line);
    const Ran weather = office.run({"weather", "--trees", trees}, "2026-07-07T15:30Z");
    CHECK(weather.exit == 0);
    CHECK(lines_of(weather.out)[0] == "1 site in 1 place: 0 new, 0 unchanged, 0 fresh already, 1 stale, 0 failed");
  }

  TEST_CASE("a site without any usable weather is exit 4, said in one line, and the others are answered") {
    const OfficeOfTests office{"services = [\"open-meteo\"]\nopen_meteo = \"own-server\"\n"};
    office.server().routes("[" + route("/v1/forecast\\\\?latitude=43.7000", "demo-fortnight.json", "application/json") + "]");
    const std::string trees = office.file(
        "trees.csv", tree_header + "\n" + good_tree + "\nfar-elm,Far elm,Ulmus americana,60,45.1,-93.2,280,America/Chicago,loam\n");
    const Ran weather = office.run({"weather", "--trees", trees}, demo_now);
    CHECK(weather.exit == 4);
    CHECK(weather.out.find("No usable weather for 45.10,-93.20: far-elm.") != std::string::npos);
    const Ran days = office.run({"days", "--trees", trees, "--draws", "64", "--json"}, demo_now);
    CHECK(days.exit == 4);
    const Json trees_json = Json::parse(days.out).at("trees");
    REQUIRE(trees_json.size() == 2);
    CHECK(std::count_if(trees_json.begin(), trees_json.end(), [](const Json& tree) { return tree.contains("error"); }) == 1);
  }

  TEST_CASE("without a contact nobody is asked, and the line says what to set") {
    const OfficeOfTests office;
    office.settings("[weather.address]\nnws = \"" + office.server().address() + "\"\n");
    const std::string trees = office.file("trees.csv", site_tree);
    const Ran ran = office.run({"weather", "--trees", trees}, two_services_now);
    CHECK(ran.exit == 4);
    CHECK(ran.err.find("nws: 127.0.0.1: not asked: expected `contact` in config.toml") != std::string::npos);
    CHECK(office.server().calls() == 0);
  }

  TEST_CASE("Open-Meteo is not asked unless the owner says on what ground") {
    const OfficeOfTests office{"services = [\"open-meteo\"]\n"};
    const std::string trees = office.file("trees.csv", site_tree);
    const Ran ran = office.run({"weather", "--trees", trees}, two_services_now);
    CHECK(ran.exit == 3);
    CHECK(lines_of(ran.err)[0].starts_with("config.toml: weather.open_meteo: 'none': expected non-commercial, paid or own-server"));
    const OfficeOfTests paid{"services = [\"open-meteo\"]\nopen_meteo = \"paid\"\n"};
    CHECK(paid.run({"weather", "--trees", trees}, two_services_now).err.find("expected a key: SAPDRAW_OPEN_METEO_KEY") !=
          std::string::npos);
    CHECK(office.server().calls() + paid.server().calls() == 0);
  }

  TEST_CASE("a key is sent to its service and stands in nothing that is written, told or logged") {
    const OfficeOfTests office{"services = [\"open-meteo\"]\nopen_meteo = \"paid\"\n"};
    const std::string trees = office.file("trees.csv", tree_header + "\n" + good_tree + "\n");
    ::setenv("SAPDRAW_OPEN_METEO_KEY", "k3y-of-the-office", 1);
    std::string told;
    for (const std::string& routes : {std::string{R"([{"path":"/","status":302,"headers":{"Location":"/elsewhere"}}])"},
                                      std::string{R"([{"path":"/","status":401,"body":"{\"error\":true,\"reason\":\"key\"}"}])"},
                                      "[" + route("/v1/forecast", "demo-fortnight.json", "application/json") + "]"}) {
      office.server().routes(routes);
      const Ran ran = office.run({"weather", "--trees", trees, "--tell-calls"}, demo_now);
      const Ran json = office.run({"weather", "--trees", trees, "--json", "--tell-calls"}, demo_now);
      told += ran.out + ran.err + json.out + json.err;
    }
    ::unsetenv("SAPDRAW_OPEN_METEO_KEY");
    CHECK(told.find("call: open-meteo 127.0.0.1 200") != std::string::npos);
    CHECK(told.find("k3y-of-the-office") == std::string::npos);
    CHECK(everything_written(office.folder()).find("k3y-of-the-office") == std::string::npos);
    bool sent = false;
    for (const Asked& asked : office.server().asked()) {
      sent = sent || asked.text.find("\"X-Api-Key\": \"k3y-of-the-office\"") != std::string::npos;
      CHECK(asked.path != "/elsewhere");
      CHECK(asked.path.find("k3y") == std::string::npos);
    }
    CHECK(sent);
  }

  TEST_CASE("a warning holds its hours, a watch is told, and a cancelled one is neither") {
    const OfficeOfTests office;
    std::string routes = all_services();
    const auto at = routes.find(R"({"path":"/alerts/")");
    routes.insert(
        at,
        R"({"path":"/alerts/","type":"application/geo+json","body":"{\"features\":[)"
        R"({\"properties\":{\"id\":\"a\",\"status\":\"Actual\",\"messageType\":\"Alert\",\"event\":\"High Wind Warning\",\"sent\":\"2026-07-15T12:00:00Z\",\"onset\":\"2026-07-16T14:00:00Z\",\"expires\":\"2026-07-15T13:00:00Z\",\"ends\":\"2026-07-16T18:00:00Z\",\"parameters\":{\"VTEC\":[\"/O.NEW.KMAP.HW.W.0001.260716T1400Z-260716T1800Z/\"]}}},)"
        R"({\"properties\":{\"id\":\"b\",\"status\":\"Actual\",\"messageType\":\"Alert\",\"event\":\"Flood Watch\",\"sent\":\"2026-07-15T12:00:00Z\",\"onset\":\"2026-07-16T14:00:00Z\",\"expires\":\"2026-07-16T18:00:00Z\",\"ends\":null,\"parameters\":{\"VTEC\":[\"/O.NEW.KMAP.FA.A.0001.260716T1400Z-260716T1800Z/\"]}}},)"
        R"({\"properties\":{\"id\":\"c\",\"status\":\"Actual\",\"messageType\":\"Alert\",\"event\":\"Severe Thunderstorm Warning\",\"sent\":\"2026-07-15T12:00:00Z\",\"onset\":\"2026-07-16T14:00:00Z\",\"expires\":\"2026-07-16T18:00:00Z\",\"ends\":\"2026-07-16T18:00:00Z\",\"parameters\":{\"VTEC\":[\"/O.CAN.KMAP.SV.W.0001.260716T1400Z-260716T1800Z/\"]}}}]}"},)");
    office.server().routes(routes);
    const std::string trees = office.file("trees.csv", site_tree);
    const Ran ran = office.run({"days", "--trees", trees, "--draws", "64"}, two_services_now);
    CHECK(ran.out.find("HOLD 10:00 am to 2:00 pm: gusts: dead limbs over people (weather service: High Wind") != std::string::npos);
    CHECK(ran.out.find("Flood Watch of the weather service") != std::string::npos);
    CHECK(ran.out.find("Severe Thunderstorm") == std::string::npos);
  }

  TEST_CASE("a gauge's rain wins over the model's, and a bad line of it is refused whole") {
    const std::string file = SAPDRAW_SOURCE_DIR "/" + demo_weather;
    const Scratch scratch;
    const std::string trees = scratch.file("trees.csv", tree_header + "\n" + good_tree + "\n");
    const auto rew = [&](const std::string& gauge) {
      Arguments arguments{"days", "--trees", trees, "--weather", file, "--json", "--draws", "64", "--now", demo_now};
      if (!gauge.empty()) arguments.insert(arguments.end(), {"--rain", scratch.file("rain.csv", gauge)});
      return trees_of(sapdraw(arguments))[0].at("days")[0].at("conditions").at("rew").get<double>();
    };
    CHECK(rew("date,rain_in\n2026-07-03,2\n2026-07-04,1\n") > rew("") + 0.05);
    CHECK(rew("date,rain_mm,lat,lon\n2026-07-03,50,10,10\n") == rew(""));  // another continent's gauge
    const Ran bad = sapdraw({"days", "--trees", trees, "--weather", file, "--rain",
                             scratch.file("bad.csv", "date,rain_mm\n2026-07-03,lots\n"), "--now", demo_now});
    CHECK(bad.exit == 3);
    CHECK(bad.err == "bad.csv:2: rain_mm: 'lots': expected a number from 0 to 1000\n");
    CHECK(bad.out == "");
  }

  TEST_CASE("a place is found by its name") {
    const OfficeOfTests office{"open_meteo = \"non-commercial\"\n"};
    office.server().routes("[" + route("/v1/search", "places.json", "application/json") + "]");
    const Ran ran = office.run({"weather", "find", "Harrow Point"}, demo_now);
    CHECK(ran.exit == 0);
    CHECK(ran.out.find("GeoNames") != std::string::npos);
    CHECK(office.server().asked()[0].path.find("name=Harrow%20Point") != std::string::npos);
    office.server().routes(R"([{"path":"/v1/search","body":"{\"generationtime_ms\":0.1}"}])");
    CHECK(office.run({"weather", "find", "Nowhere"}, demo_now).out.starts_with("No place of that name."));
  }

  TEST_CASE("an ensemble's members stay whole, and go on as the other services do where they end") {
    const OfficeOfTests office{"services = [\"open-meteo\"]\nopen_meteo = \"own-server\"\nensemble = true\n"};
    office.server().routes("[" + route("/v1/forecast", "demo-fortnight.json", "application/json") + "," +
                           route("/v1/ensemble", "ensemble.json", "application/json") + "]");
    const std::string trees = office.file("trees.csv", tree_header + "\n" + good_tree + "\n");
    const Ran ran = office.run({"days", "--trees", trees, "--json", "--draws", "64"}, demo_now);
    CHECK(ran.exit == 0);
    CHECK(ran.err == "");
    const Json json = Json::parse(ran.out);
    CHECK(json.at("weather")[0].at("members").get<int>() > 1);
    CHECK(json.at("trees")[0].at("days").size() > 10);
  }

  TEST_CASE("past weather comes as a station's file that every command takes") {
    const OfficeOfTests office{"open_meteo = \"own-server\"\n"};
    office.server().routes("[" + route("/v1/archive", "demo-fortnight.json", "application/json") + "]");
    const std::string trees = office.file("trees.csv", tree_header + "\n" + good_tree + "\n");
    const Ran past =
        office.run({"weather", "past", "elm-1", "--trees", trees, "--from", "2026-05-06", "--to", "2026-07-05"}, "2026-09-01T12:00Z");
    CHECK(past.exit == 0);
    CHECK(office.server().asked()[0].path.find("start_date=2026-05-06&end_date=2026-07-05") != std::string::npos);
    const std::string file = office.file("past.csv", past.out);
    const Ran air = sapdraw({"air", "--weather", file, "--lat", "43.7", "--lon", "-91.9", "--elevation-m", "322"});
    CHECK(air.exit == 0);
    CHECK(lines_of(air.out).size() > 1000);
    CHECK(office.run({"weather", "past", "elm-1", "--trees", trees, "--from", "2026-07-05", "--to", "2026-07-04"}, demo_now).exit == 3);
  }

  TEST_CASE("a history that cannot be read is set aside and said, and the weather comes all the same") {
    const OfficeOfTests office;
    office.server().routes(all_services());
    const std::string trees = office.file("trees.csv", site_tree);
    REQUIRE(office.run({"weather", "--trees", trees}, two_services_now).exit == 0);
    const auto kept = office.folder() / "history" / "42.45,-72.60.csv";
    REQUIRE(std::filesystem::exists(kept));
    std::filesystem::resize_file(kept, std::filesystem::file_size(kept) / 2);
    const Ran ran = office.run({"weather", "--trees", trees}, two_services_now);
    CHECK(ran.exit == 0);
    CHECK(ran.err.find("42.45,-72.60.csv") != std::string::npos);
    CHECK(ran.err.find("set aside as 42.45,-72.60.csv.unreadable") != std::string::npos);
    CHECK(std::filesystem::exists(kept));
    CHECK(office.run({"weather", "--trees", trees}, two_services_now).err == "");
  }

  TEST_CASE("sites of one cell share their calls, and the calls are those of the plan") {
    const OfficeOfTests office{"", 20};
    office.server().routes(all_services());
    // Thirty sites in twelve cells.
    std::string list = tree_header + "\n";
    for (int n = 0; n < 30; ++n)
      list += "t" + std::to_string(n) + ",,Ulmus americana,60," + std::to_string(42.0 + 0.05 * (n % 12)) + "," +
              std::to_string(-72.6 + 0.004 * (n / 12)) + ",100,America/New_York,loam\n";
    const std::string trees = office.file("trees.csv", list);
    CHECK(lines_of(office.run({"weather", "--trees", trees}, two_services_now).out)[0].starts_with("30 sites in 12 places: "));
    // A cell: place, alerts, MET Norway, rain gauges; of all cells together one grid and one list of stations, which the samples share.
    CHECK(office.server().calls() == 12 * 4 + 2);
    static_cast<void>(office.run({"weather", "--trees", trees}, two_services_now));
    CHECK(office.server().calls() == 12 * 4 + 2);
  }

  TEST_CASE("outside the National Weather Service's country MET Norway answers, and nobody is asked for the place again") {
    const OfficeOfTests office;
    office.server().routes(
        "[" + route("/complete", "met-forecast.json", "application/json") + R"(,{"path":"/search/","body":"{\"results\":[]}"},)" +
        R"({"path":"/points/","status":404,"type":"application/problem+json","body":"{\"title\":\"Data Unavailable For Requested Point\"}"}])");
    const std::string trees = office.file("trees.csv", site_tree);
    const Ran ran = office.run({"weather", "--trees", trees}, two_services_now);
    CHECK(ran.exit == 0);
    CHECK(ran.err == "");
    CHECK(office.run({"days", "--trees", trees, "--draws", "64"}, two_services_now).out.find("Weather: MET Norway") != std::string::npos);
    CHECK(office.server().calls() == 3);
  }

  TEST_CASE("a grid that has moved is looked up anew, and meanwhile nothing good is lost") {
    const OfficeOfTests office;
    office.server().routes(all_services());
    const std::string trees = office.file("trees.csv", site_tree);
    REQUIRE(office.run({"weather", "--trees", trees}, two_services_now).exit == 0);
    // The old grid is gone; the place now lies in another.
    std::string moved = all_services();
    const std::string old_grid = "/gridpoints/MAP/1,2";
    for (auto at = moved.find("api.weather.gov" + old_grid); at != std::string::npos; at = moved.find("api.weather.gov" + old_grid, at + 1))
      moved.replace(at, 15 + old_grid.size(), "api.weather.gov/gridpoints/MAP/9,9");
    moved.replace(moved.find(R"("path":")" + old_grid + "$"), 9 + old_grid.size(), R"("path":"/gridpoints/MAP/9,9)");
    office.server().routes(moved);
    const Ran ran = office.run({"weather", "--trees", trees, "--json"}, "2026-07-15T15:00Z");
    CHECK(ran.exit == 0);
    bool told = false;
    const auto asked = office.server().asked();
    CHECK(std::count_if(asked.begin(), asked.end(), [](const Asked& a) { return a.path == "/gridpoints/MAP/9,9"; }) == 1);
    const Json json = Json::parse(ran.out);
    for (const Json& service : json.at("places")[0].at("services"))
      told = told || (service.at("what") == "place" && service.at("came") == "new");
    CHECK(told);
    CHECK(ran.err.find("nws: 127.0.0.1: knows no such place (404)") != std::string::npos);
  }

  TEST_CASE("on a full disk the weather is used all the same, and the line says what could not be kept") {
    const OfficeOfTests office;
    office.server().routes(all_services());
    const std::string trees = office.file("trees.csv", site_tree);
    const auto small = office.folder() / "small";
    std::filesystem::create_directories(small);
    if (::mount("tmpfs", small.c_str(), "tmpfs", 0, "size=32k") != 0) {
      MESSAGE("skipped: mounting a small file system needs root");
      return;
    }
    const Ran ran = sapdraw({"days", "--trees", trees, "--draws", "64", "--config", (office.folder() / "config.toml").string(), "--cache",
                             (small / "cache").string(), "--history", (small / "history").string(), "--now", two_services_now});
    ::umount(small.c_str());
    CHECK(ran.exit == 0);
    CHECK(ran.out.find("Thu Jul 16") != std::string::npos);
    CHECK(ran.err.find("No space left on device") != std::string::npos);
  }

  TEST_CASE("where the service that warns does not answer, the day says that warnings are not known") {
    const OfficeOfTests office;
    office.server().routes(
        "[" + route("/complete", "met-forecast.json", "application/json") +
        R"(,{"path":"/search/","body":"{\"results\":[]}"},{"path":"/","status":403,"body":"<html>","type":"text/html"}])");
    const std::string trees = office.file("trees.csv", site_tree);
    const Ran ran = office.run({"days", "--trees", trees, "--draws", "64"}, two_services_now);
    CHECK(ran.exit == 0);
    CHECK(ran.out.find("US National Weather Service does not answer, and nothing of it is kept") != std::string::npos);
    CHECK(ran.out.find("warnings of the weather service are not known as of now") != std::string::npos);
  }

  TEST_CASE("looking and replaying change nothing that is kept") {
    const OfficeOfTests office;
    office.server().routes(all_services());
    const std::string trees = office.file("trees.csv", site_tree);
    REQUIRE(office.run({"weather", "--trees", trees}, two_services_now).exit == 0);
    const auto kept = office.folder() / "history" / "42.45,-72.60.csv";
    const std::string before = content_of(kept);
    CHECK(before.find("a,") != std::string::npos);
    static_cast<void>(office.run({"weather", "show", "mill-elm", "--trees", trees}, "2027-07-15T13:30Z"));
    static_cast<void>(office.run({"weather", "--offline", "--trees", trees}, "2026-07-10T13:30Z"));
    static_cast<void>(office.run({"days", "--offline", "--trees", trees, "--draws", "64"}, "2026-07-18T13:30Z"));
    CHECK(content_of(kept) == before);
  }

  TEST_CASE("an hour that was only ever forecast is kept as a forecast") {
    const OfficeOfTests office;
    office.server().routes(all_services());
    const std::string trees = office.file("trees.csv", site_tree);
    REQUIRE(office.run({"weather", "--trees", trees}, two_services_now).exit == 0);
    // Two days on the services say the same old things.
    REQUIRE(office.run({"weather", "--trees", trees}, "2026-07-17T13:30Z").exit == 0);
    office.server().routes(R"([{"path":"/","status":404,"body":"{}"}])");
    const Ran shown = office.run({"weather", "show", "mill-elm", "--trees", trees, "--json"}, "2026-07-17T13:30Z");
    const Json rain = Json::parse(shown.out).at("past_rain_h");
    CHECK(rain.value("forecast", 0) + rain.value("derived", 0) > 0);
  }

  TEST_CASE("an address on another host, told by a reply, is not called") {
    const OfficeOfTests office;
    std::string routes = all_services();
    for (auto at = routes.find("https://api.weather.gov/"); at != std::string::npos; at = routes.find("https://api.weather.gov/", at + 1))
      routes.replace(at, 24, "https://api.weather.gov.evil.example/");
    office.server().routes(routes);
    const std::string trees = office.file("trees.csv", site_tree);
    const Ran ran = office.run({"weather", "--trees", trees}, two_services_now);
    CHECK(ran.err.find("api.weather.gov.evil.example: expected an address of its own") != std::string::npos);
    CHECK(ran.exit == 0);  // MET Norway serves
  }

  TEST_CASE("a page in the place of a settled answer settles nothing") {
    const OfficeOfTests office;
    office.server().routes(all_services());
    const std::string trees = office.file("trees.csv", site_tree);
    REQUIRE(office.run({"weather", "--trees", trees}, two_services_now).exit == 0);
    office.server().routes(
        "[" + route("/complete", "met-forecast.json", "application/json") +
        R"(,{"path":"/points/","status":404,"body":"<html>log in</html>","type":"text/html"},{"path":"/search/","body":"{\"results\":[]}"}])");
    CHECK(office.run({"weather", "--trees", trees}, "2026-07-19T13:30Z").err.find("knows no such place (404)") != std::string::npos);
    office.server().routes(all_services());
    const Ran well = office.run({"weather", "--trees", trees, "--json"}, "2026-07-19T13:31Z");
    bool grid = false;
    const Json json = Json::parse(well.out);
    for (const Json& told : json.at("places")[0].at("services"))
      grid = grid || (told.at("service") == "nws" && told.at("what") == "forecast" && told.at("came") != "failed");
    CHECK(grid);
  }
}
