#include "feeds/declared_unit.h"

#include <array>

#include "units/us_customary.h"

namespace feeds {
namespace {

struct DeclaredUnit {
  UnitKind kind;
  std::string_view name;
  Conversion to_ours;
};

constexpr Conversion same{};
constexpr Conversion from_fahrenheit{-32.0, 1.0 / 1.8};
constexpr Conversion from_kilometres_per_hour{0.0, 1.0 / 3.6};
constexpr Conversion from_miles_per_hour{0.0, units::us::metres_per_mile / 3600.0};
constexpr Conversion from_knots{0.0, 1852.0 / 3600.0};
constexpr Conversion from_inches{0.0, 10.0 * units::us::centimetres_per_inch};
constexpr Conversion from_metres{0.0, 1000.0};
constexpr Conversion from_hectopascals{0.0, 0.1};

constexpr std::array<DeclaredUnit, 23> known{{
    {UnitKind::temperature, "°C", same},
    {UnitKind::temperature, "degC", same},
    {UnitKind::temperature, "celsius", same},
    {UnitKind::temperature, "°F", from_fahrenheit},
    {UnitKind::temperature, "degF", from_fahrenheit},
    {UnitKind::speed, "m/s", same},
    {UnitKind::speed, "m_s-1", same},
    {UnitKind::speed, "km/h", from_kilometres_per_hour},
    {UnitKind::speed, "km_h-1", from_kilometres_per_hour},
    {UnitKind::speed, "mp/h", from_miles_per_hour},
    {UnitKind::speed, "kn", from_knots},
    {UnitKind::water_depth, "mm", same},
    {UnitKind::water_depth, "inch", from_inches},
    {UnitKind::gauge_depth, "m", from_metres},
    {UnitKind::gauge_depth, "mm", same},
    {UnitKind::percentage, "%", same},
    {UnitKind::percentage, "percent", same},
    {UnitKind::pressure, "hPa", from_hectopascals},
    {UnitKind::pressure, "kPa", same},
    {UnitKind::pressure, "Pa", {0.0, 0.001}},
    {UnitKind::radiation, "W/m²", same},
    {UnitKind::water_content, "m³/m³", same},
    {UnitKind::weather_code, "wmo code", same},
}};

}  // namespace

std::optional<Conversion> conversion(UnitKind kind, std::string_view declared) {
  for (const DeclaredUnit& unit : known)
    if (unit.kind == kind && unit.name == declared) return unit.to_ours;
  return std::nullopt;
}

std::string_view without_vocabulary(std::string_view unit) {
  const auto colon = unit.find(':');
  return colon == std::string_view::npos ? unit : unit.substr(colon + 1);
}

std::string expected_units(UnitKind kind) {
  std::string text;
  for (const DeclaredUnit& unit : known)
    if (unit.kind == kind) text += (text.empty() ? "expected the unit " : ", ") + std::string{unit.name};
  return text;
}

}  // namespace feeds
