#include "app/plot_records.h"

#include <doctest/doctest.h>

#include <fmt/format.h>

#include "params/directory.h"
#include "support/within.h"

namespace {

const params::Models& models() {
  static const params::Models loaded = params::load_models(SAPDRAW_SOURCE_DIR "/models").value();
  return loaded;
}

constexpr const char* header = "station,date,latitude,tmax_c,tmin_c,precip_mm,swc_0_35\n";

std::string fault_of(const std::string& rows) { return app::read_plot_records("soil.csv", header + rows).error().line(); }

// A hundred days of ground that dries and is wetted every twentieth day; from day 80 on every tenth day is measured.
std::string hundred_days(double last_measured) {
  std::string text = header;
  for (int day = 0; day < 100; ++day) {
    const auto date = units::to_text(*units::parse_day("2020-04-01") + std::chrono::days{day});
    const double water = day == 90 ? last_measured : 0.34 - 0.008 * (day % 20);
    const std::string measured = day < 80 || day % 10 == 0 ? fmt::format("{:.4f}", water) : "";
    text += fmt::format("S,{},40,25,12,{},{}\n", date, day % 20 == 0 ? 40 : 0, measured);
  }
  return text;
}

}  // namespace

TEST_SUITE("app: soil records") {
  TEST_CASE("a day's reference evapotranspiration falls back on temperature where nothing else is measured") {
    // FAO-56 chapter 4 example 20: Lyon, 15 July, 26.6 and 14.8 C, by eq. 48 and 50 with 2 m/s: 4.56 mm/day. The example stands at 200 m,
    // the record is taken to at 300: a psychrometric constant 1 % smaller.
    const auto stations = app::read_plot_records("soil.csv", std::string{header} + "S,2019-07-15,45.72,26.6,14.8,0,0.3\n");
    REQUIRE(stations);
    double sum = 0.0;
    for (std::size_t h = 0; h < 24; ++h) sum += *(*stations)[0].record.forcing.et0_mm.at(h);
    CHECK(sum == within(4.56, 0.02));
  }

  TEST_CASE("what is empty or cannot be weather is missing, and days left out are missing days") {
    const auto stations = app::read_plot_records(
        "soil.csv", std::string{header} + "S,2020-04-01,40,25,12,,0.3\nS,2020-04-04,40,25,12,-9999,\nT,2020-04-01,40,,12,1,0.2\n");
    REQUIRE(stations);
    REQUIRE(stations->size() == 2);
    const auto& record = (*stations)[0].record;
    CHECK(record.days() == 4);
    CHECK(!record.forcing.rain_mm.has(0));
    CHECK(!record.forcing.rain_mm.has(72));
    CHECK(!record.forcing.et0_mm.has(30));
    CHECK(record.theta[0] == 0.3);
    CHECK(!record.theta[3]);
    CHECK(!(*stations)[1].record.forcing.et0_mm.has(0));
  }

  TEST_CASE("a cell that cannot be read is refused by line and column") {
    CHECK(fault_of("S,2020-04-01,40,warm,12,0,0.3\n") == "soil.csv:2: tmax_c: 'warm': expected a number or nothing");
    CHECK(fault_of("S,01.04.2020,40,25,12,0,0.3\n") == "soil.csv:2: date: '01.04.2020': expected YYYY-MM-DD");
    CHECK(fault_of("S,2020-04-02,40,25,12,0,0.3\nS,2020-04-01,40,25,12,0,0.3\n") ==
          "soil.csv:3: date: '2020-04-01': expected days of one station that rise");
    CHECK(fault_of("S,2020-04-01,140,25,12,0,0.3\n") == "soil.csv:2: latitude: '140': expected a number from -90 to 90");
    CHECK(app::read_plot_records("soil.csv", "station,date,latitude\n").error().line() == "soil.csv:1: expected a column tmax_c");
  }

  TEST_CASE("a week ahead is said for every day a week behind the last measurement, and no later measurement changes it") {
    for (const auto fit : {app::PlotFit::own, app::PlotFit::generic}) {
      const auto dry = app::read_plot_records("soil.csv", hundred_days(0.20)), wet = app::read_plot_records("soil.csv", hundred_days(0.33));
      REQUIRE(dry);
      REQUIRE(wet);
      const auto after_dry = app::week_ahead(models(), (*dry)[0], fit), after_wet = app::week_ahead(models(), (*wet)[0], fit);
      REQUIRE(after_dry);
      REQUIRE(after_wet);
      for (std::size_t day = 0; day < 100; ++day) CHECK((*after_dry)[day].has_value() == (day == 87 || day == 97));
      CHECK(*(*after_dry)[87] == *(*after_wet)[87]);
      CHECK(*(*after_dry)[97] < *(*after_wet)[97]);
      CHECK(app::week_ahead_csv((*dry)[0], *after_dry).starts_with("S,2020-06-27,0."));
    }
  }
}
