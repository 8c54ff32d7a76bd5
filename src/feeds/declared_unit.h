// The units that weather services declare, turned into ours. A unit that is not listed is a fault, never a guess.
#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace feeds {

// gauge_depth: rain as stations of the US National Weather Service report it, in metres at times; forecasts never do.
enum class UnitKind { temperature, speed, water_depth, gauge_depth, percentage, pressure, radiation, water_content, weather_code };

// ours = (theirs + shift) * factor.
struct Conversion {
  double shift = 0.0;
  double factor = 1.0;
  [[nodiscard]] double operator()(double theirs) const { return (theirs + shift) * factor; }
};

// To C, m/s, mm, %, kPa, W/m2, m3/m3. Knows the spellings of Open-Meteo ("mp/h"), NWS (without its "wmoUnit:") and MET Norway ("celsius").
[[nodiscard]] std::optional<Conversion> conversion(UnitKind kind, std::string_view declared);

// "degC" of "wmoUnit:degC", "unit:degC" and plain "degC": the US National Weather Service has written all three.
[[nodiscard]] std::string_view without_vocabulary(std::string_view unit);

// "expected one of celsius, degC, ..." for the fault about an unknown one.
[[nodiscard]] std::string expected_units(UnitKind kind);

}  // namespace feeds
