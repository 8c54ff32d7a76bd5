#include "feeds/nws_observations.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <map>

#include "feeds/declared_unit.h"
#include "feeds/geo_point.h"
#include "feeds/reader.h"
#include "feeds/reply.h"
#include "feeds/sea_level.h"
#include "feeds/text.h"
#include "weather/convention.h"

namespace feeds {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using units::Result;
using units::UtcHour;
using units::UtcTime;
using weather::Variable;

constexpr std::size_t most_reports = 20'000;
constexpr minutes longest_before_the_hour{20}, widest_from_regular{5};

struct Field {
  Variable variable;
  UnitKind unit;
  std::string_view name;
};
constexpr std::array<Field, 7> fields{{
    {Variable::temperature, UnitKind::temperature, "temperature"},
    {Variable::dew_point, UnitKind::temperature, "dewpoint"},
    {Variable::relative_humidity, UnitKind::percentage, "relativeHumidity"},
    {Variable::wind, UnitKind::speed, "windSpeed"},
    {Variable::gust, UnitKind::speed, "windGust"},
    {Variable::pressure, UnitKind::pressure, "barometricPressure"},
    {Variable::rain, UnitKind::gauge_depth, "precipitationLastHour"},
}};

struct Report {
  UtcTime at;
  std::array<std::optional<double>, fields.size()> values;

  [[nodiscard]] UtcHour hour() const { return std::chrono::ceil<hours>(at); }
  [[nodiscard]] minutes before_hour() const { return std::chrono::floor<minutes>(hour() - at); }
  [[nodiscard]] auto told() const {
    return std::count_if(values.begin(), values.end(), [](const auto& v) { return v.has_value(); });
  }
};

// "V", and in older replies "qc:V".
bool refused_by_control(const JsonNode& figure) {
  const auto control = figure.find("qualityControl");
  if (!control || !control->is_text()) return false;
  const std::string_view mark = without_vocabulary(*control->text());
  return mark == "X" || mark == "Q";
}

Result<std::optional<double>> figure_of(const JsonNode& properties, const Field& field) {
  const auto figure = properties.find(field.name);
  if (!figure || figure->is_null()) return std::optional<double>{};
  const auto value = figure->need("value");
  if (!value) return tl::make_unexpected(value.error());
  if (value->is_null() || refused_by_control(*figure)) return std::optional<double>{};
  const auto number = value->number();
  if (!number) return tl::make_unexpected(number.error());
  const auto unit = figure->need("unitCode");
  if (!unit) return tl::make_unexpected(unit.error());
  const auto ours = unit->is_text() ? conversion(field.unit, without_vocabulary(*unit->text())) : std::nullopt;
  if (!ours) return tl::make_unexpected(unit->fault(expected_units(field.unit)));
  return std::optional{(*ours)(*number)};
}

// A regular report carries its coded text.
bool is_coded(const JsonNode& properties) {
  const auto text = properties.find("rawMessage");
  return text && text->is_text() && !trimmed(*text->text()).empty();
}

class Record {
 public:
  explicit Record(const ReadOptions& options) : options_(options) {}

  Result<void> add(const JsonNode& feature) {
    const auto properties = feature.need("properties");
    if (!properties) return tl::make_unexpected(properties.error());
    if (auto ok = same_station(*properties); !ok) return ok;
    const auto time = properties->need("timestamp");
    if (!time) return tl::make_unexpected(time.error());
    const auto at = time->is_text() ? units::parse_instant(*time->text()) : std::nullopt;
    if (!at) return tl::make_unexpected(time->fault("expected a time such as 2026-07-15T12:53:00+00:00"));
    read_place(feature, *properties);
    if (!is_coded(*properties)) return {};
    Report report{*at, {}};
    for (std::size_t i = 0; i < fields.size(); ++i) {
      const auto value = figure_of(*properties, fields[i]);
      if (!value) return tl::make_unexpected(value.error());
      report.values[i] = *value;
    }
    if (report.before_hour() < longest_before_the_hour) reports_.push_back(report);
    return {};
  }

  Result<weather::Forecast> finish(const std::string& where) {
    weather::SeriesBuilder builder{weather::Origin::station, options_.now};
    for (const auto& [label, report] : regular())
      for (std::size_t i = 0; i < fields.size(); ++i)
        if (auto value = kept(fields[i].variable, report.values[i]))
          if (auto ok = builder.add(fields[i].variable, weather::hour_ending(fields[i].variable, label, *value)); !ok)
            return located(ok.error(), where);
    const auto extent = builder.extent();
    if (!extent) return units::fault(where, "", "expected a regular report with a figure in it");
    if (extent->last - extent->first > weather::longest_series) return units::fault(where, "", "expected a shorter stretch of time");
    forecast_.source = "National Weather Service station " + (station_.empty() ? std::string{"without a name"} : station_);
    forecast_.control = builder.build(*extent);
    if (not_weather_ > 0)
      forecast_.warnings.push_back(fmt::format("{}: {} figures that cannot be weather are left out, the first: {}", forecast_.source,
                                               not_weather_, first_not_weather_));
    return std::move(forecast_);
  }

 private:
  Result<void> same_station(const JsonNode& properties) {
    const auto node = properties.find("station");
    if (!node || !node->is_text()) return {};
    const std::string_view address = *node->text();
    const std::string id = for_message(address.substr(address.rfind('/') + 1), 20);
    if (station_.empty()) station_ = id;
    if (id != station_) return tl::make_unexpected(node->fault("expected reports of one station, " + station_));
    return {};
  }

  void read_place(const JsonNode& feature, const JsonNode& properties) {
    if (forecast_.place) return;
    const auto point = point_of(feature);
    if (!point) return;
    forecast_.place = units::Site{point->latitude, point->longitude, units::Metres{0.0}};
    const auto metres = properties.find_path("elevation.value"), unit = properties.find_path("elevation.unitCode");
    if (!metres || !unit || !unit->is_text() || without_vocabulary(*unit->text()) != "m") return;
    const auto value = metres->number();
    if (!value || *value < -430.0 || *value > 9000.0) return;
    forecast_.place->elevation = units::Metres{*value};
    forecast_.elevation_known = true;
  }

  // The report that speaks for each full hour.
  [[nodiscard]] std::map<UtcHour, Report> regular() const {
    std::map<minutes, std::size_t> often;
    for (const Report& report : reports_) ++often[report.before_hour()];
    const auto most = std::max_element(often.begin(), often.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
    std::map<UtcHour, Report> chosen;
    for (const Report& report : reports_) {
      const auto off = [&](const Report& r) { return std::chrono::abs(r.before_hour() - most->first); };
      if (off(report) > widest_from_regular) continue;
      const auto [known, fresh] = chosen.try_emplace(report.hour(), report);
      if (fresh) continue;
      const bool nearer = off(report) < off(known->second), as_near = off(report) == off(known->second);
      if (nearer || (as_near && report.told() > known->second.told())) known->second = report;
    }
    return chosen;
  }

  // The figure in its final form; empty where it is missing or cannot be weather.
  std::optional<double> kept(Variable variable, std::optional<double> value) {
    if (value && variable == Variable::pressure) {
      // The station's own elevation, not the tree's: it is the station's instrument.
      const auto elevation = forecast_.elevation_known ? std::optional{forecast_.place->elevation} : options_.elevation;
      if (!elevation) return std::nullopt;
      value = station_pressure(units::Kilopascals{*value}, *elevation).value;
    }
    const auto& limits = weather::traits(variable);
    if (!value || (*value >= limits.lowest && *value <= limits.highest)) return value;
    if (not_weather_++ == 0) first_not_weather_ = fmt::format("{} {:g}", limits.name, *value);
    return std::nullopt;
  }

  const ReadOptions& options_;
  weather::Forecast forecast_;
  std::string station_;
  std::vector<Report> reports_;
  std::size_t not_weather_ = 0;
  std::string first_not_weather_;
};

}  // namespace

Result<weather::Forecast> read_nws_observations(const std::string& name, std::string_view content, const ReadOptions& options) {
  const auto document = parse_reply(name, content, "station reports");
  if (!document) return tl::make_unexpected(document.error());
  const JsonNode root = document->root();
  Record record{options};
  if (const auto features = root.find("features")) {
    if (!features->is_array()) return tl::make_unexpected(features->fault("expected a list"));
    if (features->size() > most_reports)
      return units::fault(features->where(), fmt::format("{} reports", features->size()), fmt::format("expected at most {}", most_reports));
    for (std::size_t i = 0; i < features->size(); ++i)
      if (auto ok = record.add(features->item(i)); !ok) return tl::make_unexpected(ok.error());
  } else if (auto ok = record.add(root); !ok) {
    return tl::make_unexpected(ok.error());
  }
  return record.finish(name);
}

}  // namespace feeds
