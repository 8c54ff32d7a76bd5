#include "feeds/open_meteo.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <map>

#include "feeds/declared_unit.h"
#include "feeds/reader.h"
#include "feeds/sea_level.h"
#include "feeds/soil_alias.h"
#include "feeds/text.h"
#include "feeds/time_zone.h"
#include "weather/convention.h"

namespace feeds {
namespace {

using std::chrono::hours;
using std::chrono::seconds;
using units::Result;
using units::UtcHour;
using units::UtcTime;
using weather::SeriesBuilder;
using weather::Variable;

// A column by its present name and by the one of older requests, which the reply echoes.
struct Wanted {
  Variable variable;
  UnitKind unit;
  std::string_view name, older_name;
};
constexpr std::array<Wanted, 10> wanted{{
    {Variable::temperature, UnitKind::temperature, "temperature_2m", ""},
    {Variable::dew_point, UnitKind::temperature, "dew_point_2m", "dewpoint_2m"},
    {Variable::relative_humidity, UnitKind::percentage, "relative_humidity_2m", "relativehumidity_2m"},
    {Variable::pressure, UnitKind::pressure, "surface_pressure", ""},
    {Variable::wind, UnitKind::speed, "wind_speed_10m", "windspeed_10m"},
    {Variable::cloud, UnitKind::percentage, "cloud_cover", "cloudcover"},
    {Variable::rain, UnitKind::water_depth, "precipitation", ""},
    {Variable::shortwave, UnitKind::radiation, "shortwave_radiation", ""},
    {Variable::gust, UnitKind::speed, "wind_gusts_10m", "windgusts_10m"},
    {Variable::rain_chance, UnitKind::percentage, "precipitation_probability", ""},
}};

// Columns of one run by their name without the member's number.
using Run = std::map<std::string_view, JsonNode>;

// "temperature_2m_member07" is member 7 of temperature_2m; a name without a number belongs to the control, number 0.
std::pair<std::string_view, int> split_member(std::string_view column) {
  constexpr std::string_view mark = "_member";
  const auto at = column.rfind(mark);
  if (at == std::string_view::npos) return {column, 0};
  const std::string_view digits = column.substr(at + mark.size());
  int number = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  const bool whole = error == std::errc{} && end == digits.data() + digits.size() && digits.size() >= 2 && digits.size() <= 3 && number > 0;
  return whole ? std::pair{column.substr(0, at), number} : std::pair{column, 0};
}

// Soil depths out of "soil_moisture_0_to_10cm", the older "soil_moisture_0_10cm" and the thin model's points "soil_temperature_6cm".
std::optional<weather::SoilColumn> soil_column(std::string_view name) {
  using weather::SoilQuantity;
  constexpr std::string_view moisture = "soil_moisture_", temperature = "soil_temperature_";
  const bool is_moisture = name.starts_with(moisture);
  if (!is_moisture && !name.starts_with(temperature)) return std::nullopt;
  std::string_view depths = name.substr(is_moisture ? moisture.size() : temperature.size());
  if (!depths.ends_with("cm")) return std::nullopt;
  depths.remove_suffix(2);
  const auto quantity = is_moisture ? SoilQuantity::moisture : SoilQuantity::temperature;
  const auto gap = depths.find('_');
  if (gap == std::string_view::npos) {
    // The points lie in the middle of the layers for which the same model gives moisture.
    if (depths == "0") return weather::SoilColumn{units::Metres{0.0}, units::Metres{0.01}, quantity};
    if (depths == "6") return weather::SoilColumn{units::Metres{0.03}, units::Metres{0.09}, quantity};
    if (depths == "18") return weather::SoilColumn{units::Metres{0.09}, units::Metres{0.27}, quantity};
    if (depths == "54") return weather::SoilColumn{units::Metres{0.27}, units::Metres{0.81}, quantity};
    return std::nullopt;
  }
  std::string_view lower = depths.substr(gap);
  lower.remove_prefix(lower.starts_with("_to_") ? 4 : 1);
  const auto top_cm = parse_number(depths.substr(0, gap)), bottom_cm = parse_number(lower);
  if (!top_cm || !bottom_cm || *top_cm < 0.0 || *bottom_cm <= *top_cm || *bottom_cm > 1000.0) return std::nullopt;
  return weather::SoilColumn{units::Metres{*top_cm / 100.0}, units::Metres{*bottom_cm / 100.0}, quantity};
}

struct TimeAxis {
  std::vector<UtcTime> labels;
  bool wall_clock = false;  // labels were written with the reply's offset
};

// The instant of a label written with `offset`: data are read at full hours, also where the offset is not one.
UtcTime instant_of(UtcTime label, seconds offset) {
  const UtcTime naive = label - offset;
  if (std::chrono::floor<hours>(naive) == naive) return naive;
  return label - seconds{offset.count() / 3600 * 3600};
}

Result<UtcTime> label_of(const JsonNode& item, seconds offset) {
  if (item.is_text()) {
    const auto label = units::parse_instant(std::string{*item.text()} + "Z");
    if (!label) return tl::make_unexpected(item.fault("expected a time YYYY-MM-DDTHH:MM"));
    return instant_of(*label, offset);
  }
  constexpr double year_2200 = 7258118400.0;
  const auto unix_time = item.number();
  if (!unix_time || std::abs(*unix_time) > year_2200 || std::floor(*unix_time) != *unix_time)
    return tl::make_unexpected(item.fault("expected a time YYYY-MM-DDTHH:MM or seconds since 1970"));
  return instant_of(UtcTime{seconds{static_cast<long>(*unix_time)}} + offset, offset);
}

Result<TimeAxis> read_times(const JsonNode& hourly, seconds offset) {
  const auto times = hourly.need("time");
  if (!times) return tl::make_unexpected(times.error());
  if (!times->is_array() || times->size() == 0) return tl::make_unexpected(times->fault("expected a list of times"));
  if (times->size() > static_cast<std::size_t>(weather::longest_series.count()))
    return tl::make_unexpected(times->fault("expected fewer hours"));
  TimeAxis axis;
  axis.wall_clock = times->item(0).is_text();
  for (std::size_t i = 0; i < times->size(); ++i) {
    const auto label = label_of(times->item(i), offset);
    if (!label) return tl::make_unexpected(label.error());
    if (std::chrono::floor<hours>(*label) != *label) return tl::make_unexpected(times->item_fault(i, "expected a full hour"));
    if (!axis.labels.empty() && *label - axis.labels.back() != hours{1})
      return tl::make_unexpected(times->item_fault(i, "expected the hour after the one before it"));
    axis.labels.push_back(*label);
  }
  return axis;
}

Result<seconds> read_offset(const JsonNode& place) {
  const auto node = place.find("utc_offset_seconds");
  if (!node) return seconds{0};
  const auto offset = node->number();
  if (!offset || std::abs(*offset) > 18.0 * 3600.0 || std::floor(*offset) != *offset)
    return tl::make_unexpected(node->fault("expected whole seconds within 18 hours"));
  return seconds{static_cast<long>(*offset)};
}

// What a reader who took the labels for wall clocks would get wrong.
std::vector<std::string> clock_warnings(const JsonNode& place, const TimeAxis& axis, seconds offset) {
  std::vector<std::string> warnings;
  if (!axis.wall_clock) return warnings;
  if (offset.count() % 3600 != 0)
    warnings.push_back("Open-Meteo: labels of a zone off the full hour: the data are of full UTC hours, and are read so");
  const auto zone_node = place.find("timezone");
  if (!zone_node || !zone_node->is_text()) return warnings;
  const std::string zone_name{*zone_node->text()};
  const auto zone = load_zone(zone_name, axis.labels.front(), axis.labels.back());
  if (!zone) return warnings;
  for (const UtcTime label : axis.labels)
    if (zone->to_local(label).time_since_epoch() - label.time_since_epoch() != offset) {
      warnings.push_back(
          fmt::format("Open-Meteo: all labels carry one offset, {:+} s, which is not the clock of {} at {}: read with that offset",
                      offset.count(), for_message(zone_name), units::to_text(label)));
      break;
    }
  return warnings;
}

// One reply for one place, while its columns are read.
struct Reply {
  JsonNode declared_units;
  std::vector<UtcTime> labels;
  UtcTime now;
  std::optional<units::Metres> elevation;  // of the site, for sea-level pressure
};

Result<Conversion> declared(const Reply& reply, UnitKind kind, std::string_view column) {
  const auto node = reply.declared_units.need(column);
  if (!node) return tl::make_unexpected(node.error());
  const auto known = node->is_text() ? conversion(kind, *node->text()) : std::nullopt;
  if (!known) return tl::make_unexpected(node->fault(expected_units(kind)));
  return *known;
}

// Hands every value of a column that is there to `add`(label, value in our unit).
template <class Add>
Result<void> read_column(const Reply& reply, const JsonNode& column, std::string_view column_name, UnitKind kind, Add add) {
  const auto values = column.numbers();
  if (!values) return tl::make_unexpected(values.error());
  if (values->size() != reply.labels.size())
    return units::fault(column.where(), fmt::format("{} values", values->size()),
                        fmt::format("expected {}, one a time", reply.labels.size()));
  const auto ours = declared(reply, kind, column_name);
  if (!ours) return tl::make_unexpected(ours.error());
  for (std::size_t i = 0; i < values->size(); ++i) {
    if (!(*values)[i]) continue;
    if (Result<void> ok = add(reply.labels[i], (*ours)(*(*values)[i])); !ok) return located(ok.error(), column.item(i).where());
  }
  return {};
}

std::string member_name(std::string_view name, int member) {
  return member == 0 ? std::string{name} : fmt::format("{}_member{:02}", name, member);
}

const JsonNode* column_of(const Run& run, std::string_view name, std::string_view older_name) {
  auto column = run.find(name);
  if (column == run.end()) column = run.find(older_name);
  return column == run.end() ? nullptr : &column->second;
}

Result<void> read_thunder(const Reply& reply, const JsonNode& column, const std::string& column_name, SeriesBuilder& builder) {
  return read_column(reply, column, column_name, UnitKind::weather_code, [&](UtcTime label, double code) -> Result<void> {
    if (code < 0.0 || code > 99.0) return units::fault("", fmt::format("{}", code), "expected a WMO weather code from 0 to 99");
    return builder.add(Variable::thunder_chance, weather::MaximumOfPrecedingHour{label, code >= 95.0 ? 100.0 : 0.0});
  });
}

Result<void> read_sea_level_pressure(const Reply& reply, const JsonNode& column, const std::string& column_name, SeriesBuilder& builder) {
  return read_column(reply, column, column_name, UnitKind::pressure, [&](UtcTime label, double pressure_kpa) {
    const units::Kilopascals here = station_pressure(units::Kilopascals{pressure_kpa}, *reply.elevation);
    return builder.add(Variable::pressure, weather::Instant{label, here.value});
  });
}

Result<void> read_soil(const Reply& reply, const Run& run, int member, SeriesBuilder& builder) {
  for (const auto& [name, column] : run) {
    const auto soil = soil_column(name);
    if (!soil) continue;
    const UnitKind kind = soil->quantity == weather::SoilQuantity::moisture ? UnitKind::water_content : UnitKind::temperature;
    auto ok = read_column(reply, column, member_name(name, member), kind, [&](UtcTime label, double value) {
      return builder.add(*soil, weather::Instant{label, value});
    });
    if (!ok) return ok;
  }
  return {};
}

Result<weather::Series> read_run(const Reply& reply, const Run& run, int member) {
  SeriesBuilder builder{weather::Origin::model, reply.now};
  for (const Wanted& want : wanted) {
    const JsonNode* column = column_of(run, want.name, want.older_name);
    if (!column) continue;
    const std::string_view name = run.contains(want.name) ? want.name : want.older_name;
    auto ok = read_column(reply, *column, member_name(name, member), want.unit, [&](UtcTime label, double value) {
      return builder.add(want.variable, weather::hour_ending(want.variable, label, value));
    });
    if (!ok) return tl::make_unexpected(ok.error());
  }
  for (const std::string_view name : {"weather_code", "weathercode"})
    if (const JsonNode* column = column_of(run, name, name)) {
      if (auto ok = read_thunder(reply, *column, member_name(name, member), builder); !ok) return tl::make_unexpected(ok.error());
      break;
    }
  const JsonNode* sea_level = column_of(run, "pressure_msl", "pressure_msl");
  if (sea_level && reply.elevation && !run.contains("surface_pressure"))
    if (auto ok = read_sea_level_pressure(reply, *sea_level, member_name("pressure_msl", member), builder); !ok)
      return tl::make_unexpected(ok.error());
  if (auto ok = read_soil(reply, run, member, builder); !ok) return tl::make_unexpected(ok.error());
  return builder.build({std::chrono::floor<hours>(reply.labels.front()), std::chrono::floor<hours>(reply.labels.back())});
}

Result<void> read_place(const JsonNode& root, weather::Forecast& forecast) {
  const auto latitude = root.find("latitude"), longitude = root.find("longitude"), elevation = root.find("elevation");
  if (!latitude || !longitude) return {};
  const auto lat = latitude->number(), lon = longitude->number();
  if (!lat || std::abs(*lat) > 90.0) return tl::make_unexpected(latitude->fault("expected a latitude from -90 to 90"));
  if (!lon || std::abs(*lon) > 180.0) return tl::make_unexpected(longitude->fault("expected a longitude from -180 to 180"));
  const auto metres = elevation ? elevation->number() : Result<double>{0.0};
  forecast.elevation_known = elevation && metres && std::abs(*metres) < 9000.0;
  forecast.place = units::Site{units::Degrees{*lat}, units::Degrees{*lon}, units::Metres{forecast.elevation_known ? *metres : 0.0}};
  return {};
}

Result<std::map<int, Run>> runs_of(const JsonNode& hourly) {
  std::map<int, Run> runs;
  bool several_models = false;
  for (const std::string_view key : hourly.keys()) {
    if (key == "time") continue;
    const auto [base, member] = split_member(key);
    runs[member].emplace(base, *hourly.find(key));
    several_models = several_models || key.starts_with("temperature_2m_member01_") ||
                     (key.starts_with("temperature_2m_") && member == 0 && !key.starts_with("temperature_2m_previous_day"));
  }
  if (runs[0].contains("temperature_2m")) return runs;
  return units::fault(hourly.where() + ".temperature_2m", "",
                      several_models ? "missing: columns of several models in one reply; ask for one model at a time" : "missing");
}

Result<weather::Forecast> read_one(const JsonNode& root, const ReadOptions& options, std::size_t& hours_left) {
  weather::Forecast forecast;
  forecast.source = "Open-Meteo";
  forecast.credit = "Weather data by Open-Meteo.com";
  if (auto ok = read_place(root, forecast); !ok) return tl::make_unexpected(ok.error());
  const auto hourly = root.need("hourly"), declared_units = root.need("hourly_units");
  if (!hourly) return tl::make_unexpected(hourly.error());
  if (!declared_units) return tl::make_unexpected(declared_units.error());
  const auto offset = read_offset(root);
  if (!offset) return tl::make_unexpected(offset.error());
  auto axis = read_times(*hourly, *offset);
  if (!axis) return tl::make_unexpected(axis.error());
  forecast.warnings = clock_warnings(root, *axis, *offset);
  const auto runs = runs_of(*hourly);
  if (!runs) return tl::make_unexpected(runs.error());
  const std::size_t needed = runs->size() * axis->labels.size();
  if (needed > hours_left)
    return units::fault(hourly->where(), "",
                        fmt::format("expected at most {} hours of all places and members together", most_hours_in_one_input));
  hours_left -= needed;

  Reply reply{*declared_units, std::move(axis->labels), options.now, site_elevation(forecast, options)};
  bool merged = false;
  for (const auto& [member, run] : *runs) {
    auto series = read_run(reply, run, member);
    if (!series) return tl::make_unexpected(series.error());
    merged = merge_aliased_layers(*series) || merged;
    if (member == 0)
      forecast.control = *std::move(series);
    else
      forecast.members.push_back(*std::move(series));
  }
  if (merged) forecast.warnings.emplace_back("Open-Meteo: the top three soil layers are one layer under three names: read as 0-10 cm");
  return forecast;
}

}  // namespace

bool is_open_meteo(const JsonNode& root) {
  if (root.is_array()) return root.size() > 0 && root.item(0).is_object() && is_open_meteo(root.item(0));
  return root.find("hourly") || root.find("hourly_units") || root.find("utc_offset_seconds");
}

Result<std::vector<weather::Forecast>> read_open_meteo(const JsonNode& root, const ReadOptions& options) {
  std::vector<weather::Forecast> forecasts;
  std::size_t hours_left = most_hours_in_one_input;
  const std::size_t places = root.is_array() ? root.size() : 1;
  for (std::size_t i = 0; i < places; ++i) {
    auto forecast = read_one(root.is_array() ? root.item(i) : root, options, hours_left);
    if (!forecast) return tl::make_unexpected(forecast.error());
    forecasts.push_back(*std::move(forecast));
  }
  return forecasts;
}

}  // namespace feeds
