// The balance against measured soil water, when the outside data are at hand: plausibility, not skill (nothing is fitted to a station).
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <optional>
#include <sstream>

#include "soil/water_balance.h"
#include "support/soil_fixture.h"

using namespace soil;

namespace {

struct Day {
  std::string date;
  double longitude = 0.0;
  std::optional<double> tmax_c, tmin_c, rain_mm, rs_mj, measured;  // measured: mean of 0-35 cm from 5, 10 and 20 cm
};

std::optional<double> number(const std::string& text) { return text.empty() ? std::nullopt : std::optional{std::stod(text)}; }

std::map<std::string, std::vector<Day>> read_stations(const std::string& path) {
  std::ifstream file(path);
  REQUIRE(file.good());
  std::map<std::string, std::vector<Day>> stations;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    std::vector<std::string> cell;
    std::stringstream cells(line);
    for (std::string text; std::getline(cells, text, ',');) cell.push_back(text);
    cell.resize(18);
    Day day{cell[1], std::stod(cell[3]), number(cell[4]), number(cell[5]), number(cell[6]), number(cell[7]), {}};
    const auto s5 = number(cell[11]), s10 = number(cell[12]), s20 = number(cell[13]);
    if (s5 && s10 && s20) day.measured = (75.0 * *s5 + 75.0 * *s10 + 200.0 * *s20) / 350.0;
    stations[cell[0]].push_back(day);
  }
  return stations;
}

// Days spread over their hours; ET0 by the radiation form of Hargreaves (1975), 0.0135 Rs (T + 17.8) / lambda.
Forcing forcing_of(const std::vector<Day>& days) {
  const std::size_t hours = 24 * days.size();
  Forcing f;
  f.rain_mm = f.et0_mm = f.temp_c = weather::Column(hours);
  f.leaf_share.assign(hours, 1.0);
  for (std::size_t h = 0; h < hours; ++h) {
    const Day& day = days[h / 24];
    if (day.rain_mm) f.rain_mm.set(h, h % 24 < 6 ? *day.rain_mm / 6.0 : 0.0, weather::Provenance::observed);
    if (!day.tmax_c || !day.tmin_c) continue;
    const double mean_c = 0.5 * (*day.tmax_c + *day.tmin_c);
    f.temp_c.set(h, mean_c, weather::Provenance::observed);
    if (day.rs_mj)
      f.et0_mm.set(h, std::clamp(0.0135 * *day.rs_mj * 0.408 * (mean_c + 17.8) / 24.0, 0.0, 1.0), weather::Provenance::derived);
  }
  return f;
}

// Open grass: no crown over the gauge.
RootZone grass() {
  Parameters p = soil_fixture::parameters();
  p.layer_bottoms_cm = {10, 35, 60, 100};
  p.crown_share = 0.0;
  p.kcb_full_leaf = 0.9;
  return RootZone::make(p, soil_fixture::texture("loam")).value();
}

std::optional<double> correlation(const std::vector<double>& a, const std::vector<double>& b) {
  const auto n = static_cast<double>(a.size());
  if (a.size() < 150) return std::nullopt;
  double ma = 0, mb = 0, ab = 0, aa = 0, bb = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    ma += a[i] / n;
    mb += b[i] / n;
  }
  for (std::size_t i = 0; i < a.size(); ++i) {
    ab += (a[i] - ma) * (b[i] - mb);
    aa += (a[i] - ma) * (a[i] - ma);
    bb += (b[i] - mb) * (b[i] - mb);
  }
  return aa > 0 && bb > 0 ? std::optional{ab / std::sqrt(aa * bb)} : std::nullopt;
}

}  // namespace

TEST_SUITE("soil") {
  TEST_CASE("modelled water of the upper 35 cm rises and falls with that measured at US Climate Reference Network stations") {
    const char* directory = std::getenv("SAPDRAW_OUTSIDE_DATA");
    if (directory == nullptr) {
      MESSAGE("skipped: SAPDRAW_OUTSIDE_DATA is not set");
      return;
    }
    const RootZone zone = grass();
    std::vector<double> correlations;
    double worst_imbalance = 0.0;
    for (const auto& [station, days] : read_stations(std::string(directory) + "/soil/uscrn_daily_2020_even_wban.csv")) {
      if (days.front().longitude < -100.0) continue;  // in the west a fixed loam says little
      const auto result = run(zone, guessed_start(zone), forcing_of(days));
      if (!result) continue;  // a station that never reports sun or temperature
      worst_imbalance = std::max(worst_imbalance, result->largest_imbalance_mm);
      std::vector<double> model, measured;
      for (std::size_t d = 0; d < days.size(); ++d)
        if (days[d].measured && days[d].date >= "2020-04-01" && days[d].date < "2020-11-01") {
          model.push_back((10.0 * result->hours.theta[0][24 * d + 23] + 25.0 * result->hours.theta[1][24 * d + 23]) / 35.0);
          measured.push_back(*days[d].measured);
        }
      if (const auto r = correlation(model, measured)) correlations.push_back(*r);
    }
    std::sort(correlations.begin(), correlations.end());
    REQUIRE(correlations.size() > 15);
    const double median = correlations[correlations.size() / 2];
    MESSAGE("stations " << correlations.size() << ", correlation median " << median << ", lowest " << correlations.front());
    CHECK(worst_imbalance <= 1e-9);
    CHECK(median > 0.6);
  }
}
