// `sapdraw air`: one state, and weather files by the hour.
#include <doctest/doctest.h>

#include <array>
#include <nlohmann/json.hpp>

#include "program.h"
#include "support/within.h"

namespace {

using Json = nlohmann::ordered_json;

Json state(const std::string& temp_c, const std::string& rh, const std::string& pressure_kpa = "101.3") {
  const Ran ran = sapdraw({"air", "--temp-c", temp_c, "--rh", rh, "--pressure-kpa", pressure_kpa, "--json"});
  REQUIRE(ran.exit == 0);
  return Json::parse(ran.out);
}

std::vector<std::string> keys(const Json& object) {
  std::vector<std::string> names;
  for (const auto& [key, value] : object.items()) names.push_back(key);
  return names;
}

std::vector<std::string> cells(const std::string& line) {
  std::vector<std::string> all{""};
  for (const char c : line)
    if (c == ',')
      all.emplace_back();
    else
      all.back() += c;
  return all;
}

// Rows by their label.
std::vector<std::string> row(const std::string& csv, const std::string& label) {
  for (const std::string& line : lines_of(csv))
    if (line.starts_with(label + ",")) return cells(line);
  return {};
}

const std::string header =
    "time_utc,temp_c,rh_pct,vpd_kpa,shortwave_w_m2,clear_sky_w_m2,net_radiation_mj_m2_h,et0_fao56_mm_h,et0_asce_short_mm_h,"
    "et0_asce_tall_mm_h";

}  // namespace

TEST_SUITE("cli") {
  TEST_CASE("air gives the contract's keys for one state and no others") {
    CHECK(keys(state("25", "50")) == std::vector<std::string>{"temp_c", "rh_pct", "pressure_kpa", "es_kpa", "ea_kpa", "vpd_kpa",
                                                              "dew_point_c", "slope_kpa_per_c", "gamma_kpa_per_c"});
  }

  TEST_CASE("air gives printed values of FAO-56 annex 2") {
    // Table 2.3: 25.0 C, 3.168 kPa. Table 2.4: 25.0 C, 0.189 kPa/C. Table 2.2: 100.1 kPa (100 m), 0.067 kPa/C.
    const Json json = state("25", "100", "100.1");
    CHECK(json["es_kpa"].get<double>() == within(3.168, 0.0005));
    CHECK(json["slope_kpa_per_c"].get<double>() == within(0.189, 0.0005));
    CHECK(json["gamma_kpa_per_c"].get<double>() == within(0.067, 0.0005));
    CHECK(json["vpd_kpa"] == 0.0);
    CHECK(json["dew_point_c"].get<double>() == within(25.0, 1e-9));
  }

  TEST_CASE("air says one state in US or SI units, and JSON and CSV do not change with them") {
    const Arguments asked{"air", "--temp-c", "25", "--rh", "50", "--units"};
    const auto in = [&asked](const std::string& units, const std::string& form) {
      Arguments all = asked;
      all.push_back(units);
      if (!form.empty()) all.push_back(form);
      return sapdraw(all).out;
    };
    CHECK(lines_of(in("us", ""))[0] == "temperature                  77.0    F");
    CHECK(lines_of(in("si", ""))[0] == "temperature                  25.0    C");
    CHECK(in("us", "--json") == in("si", "--json"));
    CHECK(in("us", "--csv") == in("si", "--csv"));
    CHECK(widest_line(in("us", "")) <= 100);
  }

  TEST_CASE("air refuses what air cannot be, each with one line") {
    struct Refused {
      std::string option, value, line;
    };
    const std::array all{
        Refused{"--rh", "0", "--rh: '0': expected a relative humidity in % above 0, at most 100\n"},
        Refused{"--rh", "-5", "--rh: '-5': expected a relative humidity in % above 0, at most 100\n"},
        Refused{"--rh", "150", "--rh: '150': expected a relative humidity in % above 0, at most 100\n"},
        Refused{"--rh", "nan", "--rh: 'nan': expected a relative humidity in % above 0, at most 100\n"},
        Refused{"--temp-c", "68", "--temp-c: '68': expected a temperature in C from -60 to 60\n"},
        Refused{"--temp-c", "inf", "--temp-c: 'inf': expected a temperature in C from -60 to 60\n"},
        Refused{"--pressure-kpa", "1013", "--pressure-kpa: '1013': expected an air pressure in kPa from 40 to 110\n"},
    };
    for (const Refused& refused : all) {
      Arguments arguments{"air", "--temp-c", "25", "--rh", "50", "--pressure-kpa", "101.3"};
      for (std::size_t i = 1; i + 1 < arguments.size(); i += 2)
        if (arguments[i] == refused.option) arguments[i + 1] = refused.value;
      const Ran ran = sapdraw(arguments);
      CHECK(ran.exit == 3);
      CHECK(ran.out.empty());
      CHECK(ran.err == refused.line);
    }
  }

  TEST_CASE("air prints every hour of a forecast that has any value, with the contract's columns") {
    const Ran ran = sapdraw({"air", "--weather", demo_weather, "--now", demo_now});
    CHECK(ran.exit == 0);
    CHECK(ran.err.empty());
    const auto lines = lines_of(ran.out);
    CHECK(lines.front() == header);
    // 61 days back and 15 ahead; the sixteenth is all null.
    const Json file = Json::parse(content_of(SAPDRAW_SOURCE_DIR "/" + demo_weather));
    std::size_t hours = 0;
    for (const auto& temperature : file["hourly"]["temperature_2m"]) hours += temperature.is_null() ? 0 : 1;
    CHECK(lines.size() == hours + 1);
    CHECK(hours < file["hourly"]["temperature_2m"].size());
  }

  TEST_CASE("air does not ask what time it is") {
    const Arguments asked{"air", "--weather", demo_weather, "--now"};
    const auto at = [&asked](const std::string& now) {
      Arguments all = asked;
      all.push_back(now);
      return sapdraw(all).out;
    };
    CHECK(at("2026-01-01T00:00Z") == at("2027-01-01T00:00Z"));
  }

  TEST_CASE("air gives the same hours as JSON") {
    const Json json = Json::parse(sapdraw({"air", "--weather", demo_weather, "--json"}).out);
    const auto lines = lines_of(sapdraw({"air", "--weather", demo_weather}).out);
    REQUIRE(json["hours"].size() + 1 == lines.size());
    CHECK(keys(json["hours"][0]) == cells(header));
    CHECK(json["hours"][30]["temp_c"].get<double>() == std::stod(cells(lines[31])[1]));
  }

  TEST_CASE("temperature and humidity are the instants at the label and gaps stay empty") {
    const Scratch scratch;
    const std::string station = scratch.file("station.csv",
                                             "time_utc,temp_c,rh_pct,shortwave_w_m2\n"
                                             "2026-07-06T15:00Z,20,50,500\n"
                                             "2026-07-06T16:00Z,,,\n"
                                             "2026-07-06T17:00Z,,,520\n"
                                             "2026-07-06T18:00Z,24,,540\n"
                                             "2026-07-06T19:00Z,25,40,\n");
    const Ran ran = sapdraw({"air", "--weather", station, "--lat", "43.7", "--lon", "-91.9", "--elevation-m", "320"});
    CHECK(ran.exit == 0);
    CHECK(ran.err.empty());
    CHECK(lines_of(ran.out).size() == 5);
    CHECK(row(ran.out, "2026-07-06T15:00Z")[1] == "20");
    CHECK(row(ran.out, "2026-07-06T16:00Z").empty());
    const auto sun_only = row(ran.out, "2026-07-06T17:00Z");
    CHECK(sun_only[1].empty());
    CHECK(sun_only[4] == "520");
    CHECK(sun_only[7].empty());
    CHECK(row(ran.out, "2026-07-06T18:00Z")[2].empty());
    CHECK(row(ran.out, "2026-07-06T18:00Z")[3].empty());
    CHECK(row(ran.out, "2026-07-06T19:00Z")[4].empty());
  }

  TEST_CASE("labels that start the hour are moved to its end") {
    const Scratch scratch;
    const std::string station = scratch.file("station.csv", "time_utc,temp_c,rh_pct\n2026-07-06T15:00Z,20,50\n");
    const Arguments asked{"air", "--weather", station, "--lat", "43.7", "--lon", "-91.9", "--elevation-m", "320", "--label"};
    Arguments starts = asked, ends = asked;
    starts.push_back("starts");
    ends.push_back("ends");
    CHECK(lines_of(sapdraw(starts).out)[1].starts_with("2026-07-06T16:00Z,20,50,"));
    CHECK(lines_of(sapdraw(ends).out)[1].starts_with("2026-07-06T15:00Z,20,50,"));
  }

  TEST_CASE("an unknown elevation is told and taken as 300 m") {
    const Scratch scratch;
    const std::string station = scratch.file("station.csv", "time_utc,temp_c,rh_pct,shortwave_w_m2\n2026-07-06T18:00Z,25,50,700\n");
    const Arguments asked{"air", "--weather", station, "--lat", "43.7", "--lon", "-91.9"};
    const Ran unknown = sapdraw(asked);
    Arguments known = asked;
    known.insert(known.end(), {"--elevation-m", "300"});
    CHECK(unknown.exit == 0);
    CHECK(unknown.err == "warning: elevation unknown: taken as 300 m, --elevation-m sets it\n");
    CHECK(unknown.out == sapdraw(known).out);
    CHECK(sapdraw(known).err.empty());
  }

  TEST_CASE("a place must be possible and whole") {
    const Arguments asked{"air", "--weather", demo_weather};
    const auto refusal = [&asked](const Arguments& place) {
      Arguments all = asked;
      all.insert(all.end(), place.begin(), place.end());
      const Ran ran = sapdraw(all);
      CHECK(ran.exit == 3);
      CHECK(ran.out.empty());
      return ran.err;
    };
    CHECK(refusal({"--lat", "91", "--lon", "0"}) == "--lat: '91': expected a latitude from -90 to 90\n");
    CHECK(refusal({"--lat", "43", "--lon", "-193.4"}) == "--lon: '-193.4': expected a longitude from -180 to 180\n");
    CHECK(refusal({"--lat", "43"}) == "--lon: missing: latitude and longitude go together\n");
    CHECK(refusal({"--elevation-m", "10000"}) == "--elevation-m: '10000': expected metres above sea level from -430 to 9000\n");
    CHECK(refusal({"--wind-height-m", "0"}) == "--wind-height-m: '0': expected metres above ground from 0.5 to 200\n");
  }

  TEST_CASE("a place far from the file's own is told") {
    const Ran ran = sapdraw({"air", "--weather", demo_weather, "--lat", "44.7", "--lon", "-91.9"});
    CHECK(ran.exit == 0);
    REQUIRE(lines_of(ran.err).size() == 1);
    CHECK(ran.err.starts_with("warning: the weather file is for a place 110 km away"));
  }

  TEST_CASE("a station record without a place asks for one") {
    const Ran ran = sapdraw({"air", "--weather", "weather-samples/station.csv"});
    CHECK(ran.exit == 3);
    CHECK(ran.err == "--lat, --lon: expected a place: the weather file states none\n");
  }

  TEST_CASE("an interval of the NWS grid holds at each full hour until its end") {
    const Json file = Json::parse(content_of(SAPDRAW_SOURCE_DIR "/weather-samples/nws-grid.json"));
    const Json& values = file["properties"]["temperature"]["values"];
    REQUIRE(values[2]["validTime"] == "2026-07-15T07:00:00+00:00/PT2H");
    const Ran ran = sapdraw({"air", "--weather", "weather-samples/nws-grid.json"});
    CHECK(ran.exit == 0);
    const auto temperature = [&ran](const std::string& label) { return std::stod(row(ran.out, label).at(1)); };
    CHECK(temperature("2026-07-15T06:00Z") == values[1]["value"].get<double>());
    CHECK(temperature("2026-07-15T07:00Z") == values[2]["value"].get<double>());
    CHECK(temperature("2026-07-15T08:00Z") == values[2]["value"].get<double>());
    CHECK(temperature("2026-07-15T09:00Z") == values[3]["value"].get<double>());
  }
}
