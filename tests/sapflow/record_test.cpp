// From a CSV table to hours and samples, and back.
#include "app/sapflow_record.h"

#include <doctest/doctest.h>

#include "support/shipped_models.h"
#include "support/within.h"

namespace {

const std::string header = "time_utc,temp_c,rh_pct,vpd_kpa,shortwave_w_m2,wind_m_s,rain_mm,soil_moisture_m3_m3,target\n";
const app::RecordOptions tennessee{{units::Degrees{36.0}, units::Degrees{-84.0}, units::Metres{300.0}}, false, app::SoilWater::none};

units::Result<app::SapflowRecord> read(const std::string& rows, app::RecordOptions options = tennessee) {
  return app::read_sapflow_record("fit.csv", header + rows, shipped::models(), options);
}

std::string fault(const std::string& rows) {
  const auto record = read(rows);
  REQUIRE_FALSE(record);
  return record.error().line();
}

}  // namespace

TEST_SUITE("sapflow") {
  TEST_CASE("a row becomes an hour with its sample") {
    const auto record = read("2001-06-01T17:00Z,25,50,1.58,700,2,0,0.3,0.9\n2001-06-01T18:00Z,26,48,1.7,650,2,0,0.3,\n");
    REQUIRE(record);
    REQUIRE(record->hours.size() == 2);
    CHECK(record->hours.vpd_kpa[0] == within(1.584, 0.002));  // FAO-56: es(25 C) = 3.168 kPa
    REQUIRE(record->samples.size() == 1);
    CHECK(record->samples[0].flow == 0.9);
  }

  TEST_CASE("a label that starts its hour belongs to the hour's end, and is printed as it came") {
    auto options = tennessee;
    options.labels_start_hour = true;
    // 4:30 UTC is 22:54 of the day before by the sun at 84 W, 5:30 is 23:54, 6:30 another day.
    const std::string rows =
        "2001-06-01T04:00Z,15,80,,0,1,0,,0.1\n2001-06-01T05:00Z,15,80,,0,1,0,,0.1\n2001-06-01T06:00Z,15,80,,0,1,0,,0.1\n";
    const auto starts = read(rows, options), ends = read(rows);
    REQUIRE((starts && ends));
    CHECK(starts->hours.solar_day[1] + 1 == starts->hours.solar_day[2]);
    CHECK(ends->hours.solar_day[1] == ends->hours.solar_day[2]);
    sapflow::Prediction prediction;
    prediction.hours = {sapflow::Range{0.0, 0.5, 1.0}, std::nullopt, std::nullopt};
    CHECK(app::sapflow_csv(*starts, prediction) == "time_utc,p10,p50,p90\n2001-06-01T04:00Z,0,0.5,1\n");
  }

  TEST_CASE("short holes in the weather are bridged, long ones leave hours unknown, a sample there is passed over") {
    std::string rows;
    for (int hour = 0; hour < 24; ++hour) {
      const bool hole = hour == 3 || (hour >= 8 && hour < 16);
      rows +=
          "2001-06-01T" + std::string(hour < 10 ? "0" : "") + std::to_string(hour) + ":00Z," + (hole ? "," : "20,60") + ",,300,2,0,,0.5\n";
    }
    const auto record = read(rows);
    REQUIRE(record);
    CHECK(record->hours.known[3]);
    CHECK_FALSE(record->hours.known[10]);
    CHECK(record->samples.size() == 16);
  }

  TEST_CASE("what cannot be weather is missing, what cannot be read is a fault") {
    const auto record = read("2001-06-01T17:00Z,-9999,50,,700,2,0,,0.9\n");
    REQUIRE(record);
    CHECK_FALSE(record->hours.known[0]);
    CHECK(fault("2001-06-01T17:00Z,warm,50,,700,2,0,,0.9\n") == "fit.csv:2: temp_c: 'warm': expected a number or nothing");
    CHECK(fault("2001-06-01T17:30Z,20,50,,700,2,0,,\n") == "fit.csv:2: time_utc: '2001-06-01T17:30Z': expected YYYY-MM-DDTHH:00Z");
    CHECK(fault("2001-06-01T17:00Z,20,50,,700,2,0,,\n2001-06-01T16:00Z,20,50,,700,2,0,,\n") ==
          "fit.csv:3: time_utc: '2001-06-01T16:00Z': expected times that rise");
    CHECK_FALSE(app::read_sapflow_record("fit.csv", "time_utc,temp_c,rh_pct\n", shipped::models(), tennessee));
  }

  TEST_CASE("without a probe the ground is followed through the record's rain") {
    std::string rows;
    for (int day = 1; day <= 30; ++day)
      for (int hour = 0; hour < 24; ++hour)
        rows += "2001-06-" + std::string(day < 10 ? "0" : "") + std::to_string(day) + "T" + (hour < 10 ? "0" : "") + std::to_string(hour) +
                ":00Z,25,50,," + (hour > 11 ? "600" : "0") + ",2," + (day == 20 ? "2" : "0") + ",,\n";
    auto options = tennessee;
    options.soil_water = app::SoilWater::probe_or_balance;
    const auto record = read(rows, options);
    REQUIRE(record);
    CHECK(record->hours.rew[18 * 24] < record->hours.rew[0]);
    CHECK(record->hours.rew[20 * 24] > record->hours.rew[18 * 24]);
    CHECK(record->hours.rew.size() == record->hours.size());
  }
}
