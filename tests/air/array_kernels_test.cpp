// The kernels over arrays against the functions that hold one published formula each, over random hours of the whole earth and year.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <vector>

#include "air/et_hours.h"
#include "air/humidity.h"
#include "air/net_radiation.h"
#include "air/pressure.h"
#include "air/reference_et.h"
#include "air/shortwave.h"
#include "air/sky_hours.h"
#include "air/sun.h"
#include "air/sun_hours.h"
#include "air/vapour_hours.h"
#include "bench/et_kernel.h"
#include "bench/et_plain.h"
#include "support/within.h"

using units::Celsius;
using units::Degrees;
using units::Fraction;
using units::Kilopascals;
using units::MegajoulesPerSquareMetre;
using units::Metres;
using units::MetresPerSecond;
using units::Radians;
using namespace std::chrono_literals;

namespace {

class Random {
 public:
  double between(double from, double to) { return from + (to - from) * static_cast<double>(bits_() >> 11) * 0x1p-53; }
  std::vector<double> column(std::size_t hours, double from, double to) {
    std::vector<double> column(hours);
    for (double& value : column) value = between(from, to);
    return column;
  }

 private:
  std::mt19937_64 bits_{7};
};

double clear_w_m2(const units::Site& site, units::UtcTime end) {
  return air::clear_sky(air::extraterrestrial(site, end - 1h, end), site.elevation).value / air::megajoules_per_watt_hour;
}

// The rule of air/sun_hours.h on the functions of air/sun.h: how far the sun in the middle of the hour is above what judges the sky.
double above_judging_rad(const units::Site& site, units::UtcTime end) {
  const units::UtcTime middle = end - 30min;
  const air::SolarDay day = air::solar_day(units::day_of_year(air::solar_date(middle, site.longitude)), site.latitude);
  const double noon = air::elevation_angle(day, Radians{0.0}).value;
  if (noon <= 0.0) return -1.0;
  return air::elevation_angle(day, air::hour_angle(day, middle, site.longitude)).value - (noon < 0.4 ? 0.75 * noon : 0.3);
}

// Against the larger of the two, or of `floor` where both are near zero.
bool agree(double a, double b, double floor) { return std::abs(a - b) <= 1e-12 * std::max({std::abs(a), std::abs(b), floor}); }

}  // namespace

TEST_SUITE("air") {
  TEST_CASE("clear sky in arrays is that of single hours to a billionth of a watt, from pole to pole and all year") {
    Random random;
    double worst = 0.0;
    std::size_t wrongly_judged = 0;
    for (int run = 0; run < 300; ++run) {
      const double latitude =
          run < 6 ? std::array{90.0, -90.0, 67.0, 66.3, 0.0, 62.0}[static_cast<std::size_t>(run)] : random.between(-90, 90);
      const units::Site site{Degrees{latitude}, Degrees{random.between(-180, 180)}, Metres{random.between(-400, 4000)}};
      const units::UtcHour first{std::chrono::sys_days{2023y / 1 / 1} + std::chrono::hours{std::lround(random.between(0, 17520))}};
      std::vector<double> clear(run < 40 ? static_cast<std::size_t>(run) : 701), judging(clear.size());
      air::sun_hours(site, first, clear, judging);
      for (std::size_t hour = 0; hour < clear.size(); ++hour) {
        const units::UtcTime end = first + std::chrono::hours{static_cast<long>(hour)};
        worst = std::max(worst, std::abs(clear[hour] - clear_w_m2(site, end)));
        const double above = above_judging_rad(site, end);
        if (std::abs(above) > 1e-12) wrongly_judged += judging[hour] != (above > 0.0 ? clear[hour] : 0.0);
      }
    }
    CHECK(worst <= 1e-9);
    CHECK(wrongly_judged == 0);
  }

  TEST_CASE("the sky keeps the last ratio it was judged by, across the end of one array and the beginning of the next") {
    const std::vector<double> shortwave{10, 300, 50, 700, 0, 0, 0, 0, 0, 90}, judging{0, 600, 0, 1000, 0, 0, 0, 0, 0, 0};
    std::vector<double> ratios(10), next(2);
    CHECK(air::sky_ratios(shortwave, judging, 0.4, ratios) == 0.7);
    CHECK(ratios == std::vector{0.4, 0.5, 0.5, 0.7, 0.7, 0.7, 0.7, 0.7, 0.7, 0.7});
    CHECK(air::sky_ratios(std::vector{5.0, 6.0}, std::vector{0.0, 0.0}, ratios.back(), next) == 0.7);
    CHECK(next == std::vector{0.7, 0.7});
    CHECK(air::first_sky_ratio(shortwave, judging) == 0.5);
    CHECK_FALSE(air::first_sky_ratio(std::vector{5.0}, std::vector{0.0}));
  }

  TEST_CASE("evapotranspiration and deficit in arrays are those of single hours to a trillionth part") {
    Random random;
    std::size_t apart = 0, nights = 0;
    for (std::size_t hours : {1, 7, 8, 9, 255, 256, 257, 20001}) {
      const auto temp_c = random.column(hours, -45, 50), rh_pct = random.column(hours, 0, 105), wind = random.column(hours, 0, 20),
                 pressure = random.column(hours, 60, 106), shortwave = random.column(hours, 0, 1100), ratio = random.column(hours, 0, 1.3);
      auto by_night = shortwave;
      for (std::size_t i = 0; i < hours; i += 2) by_night[i] = 0.0;
      std::vector<double> net(hours), fao56(hours), asce_short(hours), asce_tall(hours), es(hours), vpd(hours), alone(hours);
      const air::EtInputs in{temp_c, rh_pct, wind, pressure, by_night, ratio};
      air::et_hours(in, {net, fao56, asce_short, asce_tall});
      air::et_hours(in, {{}, {}, {}, alone});
      CHECK(alone == asce_tall);
      air::vapour_hours(temp_c, rh_pct, es, vpd);
      for (std::size_t i = 0; i < hours; ++i) {
        const Celsius t{temp_c[i]};
        air::Evaporation e;
        e.temperature = t;
        e.slope = air::saturation_slope(t);
        e.psychrometric_constant = air::psychrometric_constant(Kilopascals{pressure[i]});
        e.deficit = air::vapour_pressure_deficit(t, Fraction{rh_pct[i] / 100.0});
        e.wind_2m = MetresPerSecond{wind[i]};
        e.net_radiation = air::net_shortwave(MegajoulesPerSquareMetre{by_night[i] * air::megajoules_per_watt_hour}) -
                          air::net_longwave_hourly(t, air::vapour_pressure(t, Fraction{rh_pct[i] / 100.0}), Fraction{ratio[i]});
        e.soil_heat = air::soil_heat_hourly(e.net_radiation);
        nights += e.net_radiation.value < 0.0;
        apart += !agree(net[i], e.net_radiation.value, 1.0) + !agree(fao56[i], air::fao56_hourly(e).total().value, 0.1) +
                 !agree(asce_short[i], air::asce_short_hourly(e).total().value, 0.1) +
                 !agree(asce_tall[i], air::asce_tall_hourly(e).total().value, 0.1);
        apart += !agree(es[i], air::saturation_pressure(t).value, 0.0) + !agree(vpd[i], e.deficit.value, es[i]);
      }
    }
    CHECK(apart == 0);
    CHECK(nights > 5000);
  }

  TEST_CASE("what the benchmarks measure against gives the same evapotranspiration and deficit") {
    const bench::Record record = bench::record(24 * 500);
    const std::size_t hours = record.hours();
    std::vector<double> fao56(hours), asce(hours), fao56_plain(hours), asce_plain(hours), es(hours), vpd(hours), es_plain(hours),
        vpd_plain(hours);
    bench::et_kernel(record, 0.6, fao56, asce);
    bench::et_plain(record, 0.6, fao56_plain, asce_plain);
    air::vapour_hours(record.temp_c, record.rh_pct, es, vpd);
    bench::vapour_plain(record.temp_c, record.rh_pct, es_plain, vpd_plain);
    double worst = 0.0;
    for (std::size_t i = 0; i < hours; ++i)
      worst = std::max({worst, std::abs(fao56[i] - fao56_plain[i]), std::abs(asce[i] - asce_plain[i]), std::abs(es[i] - es_plain[i]),
                        std::abs(vpd[i] - vpd_plain[i])});
    CHECK(worst <= 1e-12);
  }
}
