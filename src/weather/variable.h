// The hourly variables sapdraw knows, each with its unit, its hour convention and the limits of what can be real.
// The convention is part of a variable: hour h of a series is the label that ENDS it; instants are read AT that label,
// means, sums and maxima cover the hour before it.
#pragma once
#include <array>
#include <cstddef>
#include <string_view>

namespace weather {

enum class Variable : std::size_t {
  temperature,        // C at 2 m
  dew_point,          // C at 2 m
  relative_humidity,  // %
  pressure,           // kPa at the station, not reduced to sea level
  wind,               // m/s at the height the source states, 10 m unless it says otherwise
  cloud,              // % of sky
  rain,               // mm of water, all kinds of precipitation
  shortwave,          // W/m2 on a horizontal surface
  gust,               // m/s
  rain_chance,        // %
  thunder_chance,     // %: 100 where the source says thunder outright
};
inline constexpr std::size_t variable_count = 11;

enum class HourConvention { instant, mean_of_preceding_hour, sum_of_preceding_hour, maximum_of_preceding_hour };

struct VariableTraits {
  std::string_view name;  // with its unit, as in CSV headers
  HourConvention convention;
  double lowest, highest;  // outside: not weather, refused by the readers
};

inline constexpr std::array<VariableTraits, variable_count> variable_traits{{
    {"temp_c", HourConvention::instant, -60.0, 60.0},
    {"dew_point_c", HourConvention::instant, -90.0, 40.0},
    {"rh_pct", HourConvention::instant, 1.0, 105.0},
    {"pressure_kpa", HourConvention::instant, 40.0, 110.0},
    {"wind_m_s", HourConvention::instant, 0.0, 100.0},
    {"cloud_pct", HourConvention::instant, 0.0, 100.0},
    {"rain_mm", HourConvention::sum_of_preceding_hour, 0.0, 400.0},
    {"shortwave_w_m2", HourConvention::mean_of_preceding_hour, 0.0, 1500.0},
    {"wind_gust_m_s", HourConvention::maximum_of_preceding_hour, 0.0, 140.0},
    {"rain_chance_pct", HourConvention::maximum_of_preceding_hour, 0.0, 100.0},
    {"thunder_chance_pct", HourConvention::maximum_of_preceding_hour, 0.0, 100.0},
}};

[[nodiscard]] constexpr const VariableTraits& traits(Variable variable) { return variable_traits[static_cast<std::size_t>(variable)]; }

}  // namespace weather
