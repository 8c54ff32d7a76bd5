#include "feeds/met_norway.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "feeds/declared_unit.h"
#include "feeds/reader.h"
#include "feeds/sea_level.h"
#include "weather/convention.h"

namespace feeds {
namespace {

using std::chrono::hours;
using units::Result;
using units::UtcTime;
using weather::SeriesBuilder;
using weather::Variable;

struct Detail {
  Variable variable;
  UnitKind unit;
  std::string_view name;
};
constexpr std::array<Detail, 7> instant_details{{
    {Variable::temperature, UnitKind::temperature, "air_temperature"},
    {Variable::dew_point, UnitKind::temperature, "dew_point_temperature"},
    {Variable::relative_humidity, UnitKind::percentage, "relative_humidity"},
    {Variable::cloud, UnitKind::percentage, "cloud_area_fraction"},
    {Variable::wind, UnitKind::speed, "wind_speed"},
    {Variable::gust, UnitKind::speed, "wind_speed_of_gust"},
    {Variable::pressure, UnitKind::pressure, "air_pressure_at_sea_level"},
}};

class Reader {
 public:
  Reader(JsonNode properties, UtcTime now, std::optional<units::Metres> elevation)
      : properties_(std::move(properties)), elevation_(elevation), builder_(weather::Origin::model, now) {}

  Result<weather::Series> read(const JsonNode& steps) {
    std::vector<UtcTime> times;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const auto time = steps.item(i).need("time");
      if (!time) return tl::make_unexpected(time.error());
      const auto instant = time->is_text() ? units::parse_instant(*time->text()) : std::nullopt;
      if (!instant) return tl::make_unexpected(time->fault("expected a time such as 2026-07-15T12:00:00Z"));
      if (!times.empty() && *instant <= times.back()) return tl::make_unexpected(time->fault("expected a time after the step before it"));
      times.push_back(*instant);
    }
    for (std::size_t i = 0; i < times.size(); ++i) {
      const auto next = i + 1 < times.size() ? std::optional{times[i + 1]} : std::nullopt;
      if (auto ok = read_step(steps.item(i), times[i], next); !ok) return tl::make_unexpected(ok.error());
    }
    const auto extent = builder_.extent();
    if (!has_temperature_ || !extent) return units::fault(steps.where(), "", "missing: expected steps with air_temperature");
    return builder_.build(*extent);
  }

 private:
  // The value of `details.name` in our unit; empty where it is not there or null.
  Result<std::optional<double>> value(const std::optional<JsonNode>& details, std::string_view name, UnitKind kind) const {
    const auto node = details ? details->find(name) : std::nullopt;
    if (!node || node->is_null()) return std::nullopt;
    const auto number = node->number();
    if (!number) return tl::make_unexpected(number.error());
    const auto declared = properties_.find_path("meta.units." + std::string{name});
    if (!declared) return units::fault(properties_.where() + ".meta.units." + std::string{name}, "", "missing");
    const auto ours = declared->is_text() ? conversion(kind, *declared->text()) : std::nullopt;
    if (!ours) return tl::make_unexpected(declared->fault(expected_units(kind)));
    return (*ours)(*number);
  }

  Result<void> add(Variable variable, const weather::Sample& sample, const JsonNode& step) {
    if (auto ok = builder_.add(variable, sample); !ok) return located(ok.error(), step.where());
    return {};
  }

  Result<void> read_step(const JsonNode& step, UtcTime time, std::optional<UtcTime> next) {
    const auto details = step.find_path("data.instant.details");
    for (const Detail& wanted : instant_details) {
      const auto found = value(details, wanted.name, wanted.unit);
      if (!found) return tl::make_unexpected(found.error());
      if (!*found) continue;
      double ours = **found;
      if (wanted.variable == Variable::pressure) {
        if (!elevation_) continue;
        ours = station_pressure(units::Kilopascals{ours}, *elevation_).value;
      }
      if (auto ok = add(wanted.variable, weather::hour_ending(wanted.variable, time, ours), *details); !ok) return ok;
      has_temperature_ = has_temperature_ || wanted.variable == Variable::temperature;
    }
    if (const auto hour = step.find_path("data.next_1_hours")) return read_following(*hour, time, hours{1}, next);
    if (const auto six = step.find_path("data.next_6_hours")) return read_following(*six, time, hours{6}, next);
    return {};
  }

  Result<void> read_following(const JsonNode& following, UtcTime time, hours length, std::optional<UtcTime> next) {
    const UtcTime until = next ? std::min(time + length, *next) : time + length;
    const auto details = following.find("details");
    const auto rain = value(details, "precipitation_amount", UnitKind::water_depth);
    const auto chance = value(details, "probability_of_precipitation", UnitKind::percentage);
    const auto thunder = thunder_chance(following, details);
    if (!rain) return tl::make_unexpected(rain.error());
    if (!chance) return tl::make_unexpected(chance.error());
    if (!thunder) return tl::make_unexpected(thunder.error());
    if (*rain) {
      const double share = std::chrono::duration<double>(until - time) / std::chrono::duration<double>(length);
      const weather::Sample sample = length == hours{1} ? weather::Sample{weather::SumOfFollowingHour{time, **rain}}
                                                        : weather::Sample{weather::IntervalTotal{time, until, **rain * share}};
      if (auto ok = add(Variable::rain, sample, following); !ok) return ok;
    }
    if (*chance)
      if (auto ok = add(Variable::rain_chance, weather::IntervalHold{time, until, **chance}, following); !ok) return ok;
    if (*thunder) return add(Variable::thunder_chance, weather::IntervalHold{time, until, **thunder}, following);
    return {};
  }

  Result<std::optional<double>> thunder_chance(const JsonNode& following, const std::optional<JsonNode>& details) const {
    auto stated = value(details, "probability_of_thunder", UnitKind::percentage);
    if (!stated || *stated) return stated;
    const auto symbol = following.find_path("summary.symbol_code");
    if (!symbol || !symbol->is_text()) return std::nullopt;
    return symbol->text()->find("thunder") != std::string_view::npos ? 100.0 : 0.0;
  }

  JsonNode properties_;
  std::optional<units::Metres> elevation_;
  SeriesBuilder builder_;
  bool has_temperature_ = false;
};

void read_place(const JsonNode& root, weather::Forecast& forecast) {
  const auto point = root.find_path("geometry.coordinates");
  if (!point || !point->is_array() || point->size() < 2) return;
  const auto lon = point->item(0).number(), lat = point->item(1).number();
  if (!lat || !lon || std::abs(*lat) > 90.0 || std::abs(*lon) > 180.0) return;
  forecast.place = units::Site{units::Degrees{*lat}, units::Degrees{*lon}, units::Metres{0.0}};
  if (point->size() < 3) return;
  const auto elevation = point->item(2).number();
  if (!elevation || std::abs(*elevation) > 9000.0) return;
  forecast.place->elevation = units::Metres{*elevation};
  forecast.elevation_known = true;
}

}  // namespace

bool is_met_norway(const JsonNode& root) { return root.find_path("properties.timeseries").has_value(); }

Result<std::vector<weather::Forecast>> read_met_norway(const JsonNode& root, const ReadOptions& options) {
  weather::Forecast forecast;
  forecast.source = "MET Norway";
  forecast.credit = "Data from MET Norway";
  read_place(root, forecast);
  const JsonNode properties = *root.find("properties");
  if (const auto updated = properties.find_path("meta.updated_at"); updated && updated->is_text())
    forecast.issued_at = units::parse_instant(*updated->text());
  const JsonNode steps = *properties.find("timeseries");
  if (!steps.is_array()) return tl::make_unexpected(steps.fault("expected a list of steps"));
  auto series = Reader{properties, options.now, site_elevation(forecast, options)}.read(steps);
  if (!series) return tl::make_unexpected(series.error());
  forecast.control = *std::move(series);
  return std::vector{std::move(forecast)};
}

}  // namespace feeds
