#include "air/sun_hours.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "air/shortwave.h"
#include "air/solar_terms.h"
#include "air/sun.h"
#include "units/lanes_array.h"
#include "units/lanes_trig.h"
#include "units/wide.h"

namespace air {
namespace {

using std::numbers::pi;
using units::Lanes;

constexpr std::size_t hours_per_day = 24;
constexpr double lowest_sun_rad = 0.3, low_noon_rad = 0.4, share_of_low_noon = 0.75;
// Days whose night is longer than 1 h and twice the equation of time: no hour reaches the daylight of the day before or after.
constexpr double sunset_of_proper_nights_rad = 2.9;

// The latitude, what turns eq. 28's radians at the top of the air into W/m2 at the ground, and the two limits of elevation.
struct Place {
  double sine, cosine, tangent, w_m2;
  double low_noon_sine = std::sin(low_noon_rad), lowest_sun_sine = std::sin(lowest_sun_rad);
};

// Eight solar days: what stays the same in each.
struct Days {
  Lanes w_m2;                     // eq. 28's factor, through a clear sky
  Lanes sine_part, cosine_part;   // sine of the sun's elevation = sine_part + cosine_part cos(hour angle)
  Lanes sunset_rad, sunset_sine;  // eq. 25
  Lanes first_rad;                // hour angle in the middle of the day's first hour
  Lanes judging_sine;             // sine of the elevation from which the sky is judged
};

// As units::map, through an array: GCC 12 takes lanes that are set one by one for uninitialised here.
template <class F>
SAPDRAW_INLINE Lanes each(Lanes lanes, F f) {
  std::array<double, Lanes::count> values;
  units::store(lanes, values.data(), Lanes::count);
  for (double& value : values) value = f(value);
  return units::load(values.data(), Lanes::count);
}

SAPDRAW_INLINE Days solar_days(const Place& place, Lanes day_of_year, double first_middle_h) {
  const SolarTerms<Lanes> terms = solar_terms(day_of_year);
  const units::SineCosine declination = units::sine_cosine(terms.declination_rad);
  Days days;
  days.w_m2 = place.w_m2 * terms.relative_distance;
  days.sine_part = place.sine * declination.sine;
  days.cosine_part = place.cosine * declination.cosine;
  const Lanes sunset_cosine = min(max(-place.tangent * declination.sine / declination.cosine, -1.0), 1.0);
  days.sunset_rad = each(sunset_cosine, [](double x) { return std::acos(x); });
  days.sunset_sine = units::sin(days.sunset_rad);
  days.first_rad = (first_middle_h + terms.seasonal_correction_h - 12.0) * (1.0 / hours_per_radian);
  days.judging_sine = each(days.sine_part + days.cosine_part, [&](double noon_sine) {
    if (noon_sine >= place.low_noon_sine) return place.lowest_sun_sine;
    return noon_sine > 0.0 ? std::sin(share_of_low_noon * std::asin(noon_sine)) : 2.0;
  });
  return days;
}

// Hours `from`..`until` of one of the days, 0..24; the arrays begin at `from`.
SAPDRAW_INLINE void hours_of(const Days& days, int day, std::size_t from, std::size_t until, double* clear_sky_w_m2,
                             double* judging_sky_w_m2) {
  const Lanes w_m2 = days.w_m2[day], sine_part = days.sine_part[day], cosine_part = days.cosine_part[day];
  const Lanes sunset = days.sunset_rad[day], sunset_sine = days.sunset_sine[day], judging_sine = days.judging_sine[day];
  const double half_hour = 0.5 / hours_per_radian;
  const double half_sine = std::sin(half_hour), half_cosine = std::cos(half_hour);
  const Lanes along{Lanes::Half{0, 1, 2, 3}, Lanes::Half{4, 5, 6, 7}};
  const bool short_night = days.sunset_rad[day] > sunset_of_proper_nights_rad;
  units::for_blocks(
      from, until, [&](std::size_t hour, auto count) __attribute__((always_inline)) {
        const Lanes middle = days.first_rad[day] + (static_cast<double>(hour) + along) * (1.0 / hours_per_radian);
        const units::SineCosine at = units::sine_cosine(middle);
        const Lanes begin = middle - half_hour, end = middle + half_hour;
        const Lanes begin_sine = at.sine * half_cosine - at.cosine * half_sine, end_sine = at.sine * half_cosine + at.cosine * half_sine;
        // Integral of the sine of the elevation over the part of the hour within the daylight around `noon`: the bracket of eq. 28.
        const auto daylight = [&](double noon) {
          const Lanes rise = noon - sunset, set = noon + sunset;
          const Lanes angle = min(end, set) - max(begin, rise);
          const Lanes sines = select(end < set, end_sine, sunset_sine) - select(begin > rise, begin_sine, -sunset_sine);
          return select(angle > 0.0, angle * sine_part + sines * cosine_part, 0.0);
        };
        Lanes received = daylight(0.0);
        if (short_night) received = received + daylight(-2.0 * pi) + daylight(2.0 * pi);
        const Lanes clear = w_m2 * max(received, 0.0);
        units::store(clear, clear_sky_w_m2 + (hour - from), count);
        units::store(select(sine_part + cosine_part * at.cosine >= judging_sine, clear, 0.0), judging_sky_w_m2 + (hour - from), count);
      });
}

// From hour `hour` of the solar day `day` on. `first_middle_h` is the mean solar time in the middle of a day's first hour.
SAPDRAW_WIDE void fill(const Place& place, units::LocalDay day, std::size_t hour, double first_middle_h, std::span<double> clear_sky_w_m2,
                       std::span<double> judging_sky_w_m2) {
  for (std::size_t done = 0; done < clear_sky_w_m2.size(); day += std::chrono::days{Lanes::count}) {
    std::array<double, Lanes::count> day_of_year;
    for (std::size_t d = 0; d < Lanes::count; ++d) day_of_year[d] = units::day_of_year(day + std::chrono::days{d});
    const Days days = solar_days(place, units::load(day_of_year.data(), Lanes::count), first_middle_h);
    for (int d = 0; d < Lanes::count && done < clear_sky_w_m2.size(); ++d) {
      const std::size_t until = std::min(hours_per_day, hour + clear_sky_w_m2.size() - done);
      hours_of(days, d, hour, until, clear_sky_w_m2.data() + done, judging_sky_w_m2.data() + done);
      done += until - hour;
      hour = 0;
    }
  }
}

}  // namespace

void sun_hours(const units::Site& site, units::UtcHour first_label, std::span<double> clear_sky_w_m2, std::span<double> judging_sky_w_m2) {
  const double latitude_rad = site.latitude.value * pi / 180.0;
  const double clear_share = clear_sky(units::MegajoulesPerSquareMetre{1.0}, site.elevation).value;
  const Place place{std::sin(latitude_rad), std::cos(latitude_rad), std::tan(latitude_rad),
                    solar_constant_mj_m2_rad * clear_share / megajoules_per_watt_hour};
  const units::UtcTime middle = units::UtcTime{first_label} - std::chrono::minutes{30};
  const units::LocalDay day = solar_date(middle, site.longitude);
  // Mean solar time since the beginning of that day, which solar_date rounds to a second.
  const double middle_h = std::chrono::duration<double, std::ratio<3600>>(middle.time_since_epoch() - day.time_since_epoch()).count() +
                          site.longitude.value / 15.0;
  const double hour = std::clamp(std::floor(middle_h), 0.0, 23.0);
  fill(place, day, static_cast<std::size_t>(hour), middle_h - hour, clear_sky_w_m2, judging_sky_w_m2);
}

}  // namespace air
