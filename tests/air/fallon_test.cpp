// A year of a real station through the whole hourly record, against the reference evapotranspiration published with it.
// Fallon, Nevada, USBR AgriMet 2015 (39.4575 N, 118.77388 W, 1208.5 m, anemometer at 3 m; hours end at the label, clock of
// 120 W all year; humidity from the published dew point). US Government data, kept with the RefET test data at 2c3e2e0.
#include <doctest/doctest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "air/hours.h"
#include "air/humidity.h"
#include "air/net_radiation.h"
#include "air/pressure.h"
#include "air/reference_et.h"
#include "air/shortwave.h"
#include "air/sun.h"
#include "air/wind.h"
#include "support/outside.h"
#include "support/within.h"

using units::Celsius;
using units::Degrees;
using units::Fraction;
using units::Kilopascals;
using units::MegajoulesPerSquareMetre;
using units::Metres;
using units::MetresPerSecond;
using weather::Provenance;
using weather::Variable;
using namespace std::chrono_literals;

namespace {

const units::Site fallon{Degrees{39.4575}, Degrees{-118.77388}, Metres{1208.5}};
const Metres anemometer{3.0};

using Row = std::map<std::string, double>;

std::vector<Row> table(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::string line, field;
  std::vector<std::string> names;
  std::getline(file, line);
  for (std::istringstream header(line); std::getline(header, field, ',');) names.push_back(field);
  std::vector<Row> rows;
  while (std::getline(file, line)) {
    Row row;
    std::istringstream fields(line);
    for (std::size_t i = 0; std::getline(fields, field, ','); ++i) row[names.at(i)] = std::stod(field);
    rows.push_back(row);
  }
  return rows;
}

units::LocalDay day_of(const Row& row) {
  return units::LocalDay{std::chrono::year{static_cast<int>(row.at("year"))} / static_cast<int>(row.at("month")) /
                         static_cast<int>(row.at("day"))};
}

units::UtcHour label_of(const Row& row) {
  return units::UtcHour{day_of(row).time_since_epoch()} + std::chrono::hours{static_cast<int>(row.at("hour")) + 8};
}

weather::Series series_of(const std::vector<Row>& rows) {
  const units::UtcHour first = label_of(rows.front());
  weather::Series series(first, static_cast<std::size_t>((label_of(rows.back()) - first).count()) + 1);
  for (const Row& row : rows) {
    const std::size_t hour = *series.index_of(label_of(row));
    series[Variable::temperature].set(hour, row.at("ta_c"), Provenance::observed);
    series[Variable::dew_point].set(hour, row.at("tdew_c"), Provenance::observed);
    series[Variable::wind].set(hour, row.at("u3_ms"), Provenance::observed);
    series[Variable::shortwave].set(hour, row.at("rs_wm2"), Provenance::observed);
  }
  return series;
}

struct Agreement {
  double squares = 0.0, ours = 0.0, published = 0.0;
  std::size_t count = 0;
  void add(double mine, double theirs) {
    squares += (mine - theirs) * (mine - theirs);
    ours += mine;
    published += theirs;
    ++count;
  }
  [[nodiscard]] double rmse() const { return std::sqrt(squares / static_cast<double>(count)); }
  [[nodiscard]] double total_error_pct() const { return 100.0 * (ours / published - 1.0); }
};

std::ostream& operator<<(std::ostream& out, const Agreement& a) {
  return out << a.count << " values, RMSE " << a.rmse() << " mm, total " << a.ours << " mm against " << a.published << " mm ("
             << a.total_error_pct() << " %)";
}

air::Evaporation evaporation_of_day(const Row& row) {
  const Celsius highest{row.at("tmax_c")}, lowest{row.at("tmin_c")};
  const Kilopascals ea = air::saturation_pressure(Celsius{row.at("tdew_c")});
  const air::SolarDay solar = air::solar_day(units::day_of_year(day_of(row)), fallon.latitude);
  // The published days come from a program that takes the clear sky by air (ASCE-EWRI 2005 appendix D).
  const Kilopascals pressure = air::pressure_at(fallon.elevation);
  const MegajoulesPerSquareMetre rs{row.at("rs_mj_m2_d")};
  const MegajoulesPerSquareMetre rso =
      air::clear_sky_by_air(air::extraterrestrial_daily(solar), air::daily_sun_elevation(units::day_of_year(day_of(row)), fallon.latitude),
                            pressure, air::precipitable_water(ea, pressure));
  air::Evaporation e;
  e.temperature = 0.5 * (highest + lowest);
  e.slope = air::asce_saturation_slope(e.temperature);
  e.psychrometric_constant = air::psychrometric_constant(pressure);
  e.deficit = air::vapour_pressure_deficit(air::mean_saturation_pressure(highest, lowest), ea);
  e.wind_2m = air::wind_at_2m(MetresPerSecond{row.at("u3_ms")}, anemometer);
  e.net_radiation = air::net_shortwave(rs) - air::net_longwave_daily(highest, lowest, ea, Fraction{rs / rso}, air::stefan_boltzmann_asce);
  return e;
}

}  // namespace

TEST_SUITE("air") {
  TEST_CASE("a year of hours at Fallon gives the published ASCE evapotranspiration") {
    const auto path = outside_data("et0/fallon_agrimet_hourly_2015.csv");
    if (!path) return;
    const std::vector<Row> rows = table(*path);
    const weather::Series series = series_of(rows);
    const air::AirHours hours = air::complete(series, fallon, {anemometer, true});
    Agreement grass, alfalfa;
    for (const Row& row : rows) {
      const std::size_t hour = *series.index_of(label_of(row));
      grass.add(hours.et0_asce_short_mm_h.at(hour).value(), row.at("eto_mm_h"));
      alfalfa.add(hours.et0_asce_tall_mm_h.at(hour).value(), row.at("etr_mm_h"));
    }
    MESSAGE("short: " << grass);
    MESSAGE("tall: " << alfalfa);
    CHECK(grass.count == 8758);
    CHECK(grass.rmse() <= 0.012);
    CHECK(std::abs(grass.total_error_pct()) <= 1.0);
    CHECK(alfalfa.rmse() <= 0.018);
    CHECK(std::abs(alfalfa.total_error_pct()) <= 1.0);
  }

  TEST_CASE("a year of days at Fallon gives the published ASCE evapotranspiration") {
    const auto path = outside_data("et0/fallon_agrimet_daily_2015.csv");
    if (!path) return;
    Agreement grass, alfalfa;
    for (const Row& row : table(*path)) {
      const air::Evaporation e = evaporation_of_day(row);
      grass.add(air::reference_et(e, air::short_reference(air::Step::daily)).total().value, row.at("eto_mm_d"));
      alfalfa.add(air::reference_et(e, air::tall_reference(air::Step::daily)).total().value, row.at("etr_mm_d"));
    }
    MESSAGE("short: " << grass);
    MESSAGE("tall: " << alfalfa);
    CHECK(grass.count == 365);
    CHECK(grass.rmse() <= 0.01);
    CHECK(std::abs(grass.total_error_pct()) <= 0.1);
    CHECK(alfalfa.rmse() <= 0.02);
    CHECK(std::abs(alfalfa.total_error_pct()) <= 0.1);
  }
}
