#include "feeds/nws_grid.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "feeds/declared_unit.h"
#include "feeds/iso_interval.h"
#include "feeds/reader.h"
#include "weather/convention.h"

namespace feeds {
namespace {

using std::chrono::hours;
using units::Result;
using weather::IntervalHold;
using weather::SeriesBuilder;
using weather::Variable;

struct Layer {
  Variable variable;
  UnitKind unit;
  std::string_view name;
};
constexpr std::array<Layer, 7> held_layers{{
    {Variable::temperature, UnitKind::temperature, "temperature"},
    {Variable::dew_point, UnitKind::temperature, "dewpoint"},
    {Variable::relative_humidity, UnitKind::percentage, "relativeHumidity"},
    {Variable::cloud, UnitKind::percentage, "skyCover"},
    {Variable::wind, UnitKind::speed, "windSpeed"},
    {Variable::gust, UnitKind::speed, "windGust"},
    {Variable::rain_chance, UnitKind::percentage, "probabilityOfPrecipitation"},
}};

// The upper end of the chance that a forecaster's word stands for (NWS terms for precipitation, from memory: slight chance 20 %,
// chance 30-50 %, likely 60-70 %, above that categorical; isolated, scattered, numerous and widespread likewise for area).
// A word that is not listed says thunder outright.
struct CoverageWord {
  std::string_view word;
  double chance_pct;
};
constexpr std::array<CoverageWord, 6> coverage_words{
    {{"slight_chance", 20.0}, {"isolated", 20.0}, {"chance", 50.0}, {"scattered", 50.0}, {"likely", 70.0}, {"numerous", 70.0}}};

Result<Conversion> declared(const JsonNode& layer, UnitKind kind) {
  const auto unit = layer.need("uom");
  if (!unit) return tl::make_unexpected(unit.error());
  const auto known = unit->is_text() ? conversion(kind, without_vocabulary(*unit->text())) : std::nullopt;
  if (!known) return tl::make_unexpected(unit->fault(expected_units(kind)));
  return *known;
}

// Hands each interval of a layer, with its value's node, to `add`; a layer that is absent has none.
template <class Add>
Result<void> each_interval(const JsonNode& layer, Add add) {
  const auto values = layer.find("values");
  if (!values) return {};
  if (!values->is_array()) return tl::make_unexpected(values->fault("expected a list"));
  for (std::size_t i = 0; i < values->size(); ++i) {
    const JsonNode item = values->item(i);
    const auto time = item.need("validTime"), value = item.need("value");
    if (!time) return tl::make_unexpected(time.error());
    if (!value) return tl::make_unexpected(value.error());
    const auto interval = time->is_text() ? parse_interval(*time->text()) : std::nullopt;
    if (!interval) return tl::make_unexpected(time->fault("expected an interval such as 2026-07-15T12:00:00+00:00/PT6H"));
    if (Result<void> ok = add(*interval, *value); !ok)
      return located(ok.error(), ok.error().where.empty() ? item.where() : ok.error().where);
  }
  return {};
}

Result<void> read_held(const JsonNode& layer, const Conversion& ours, Variable variable, SeriesBuilder& builder) {
  return each_interval(layer, [&](const IsoInterval& interval, const JsonNode& node) -> Result<void> {
    if (node.is_null()) return {};
    const auto value = node.number();
    if (!value) return tl::make_unexpected(value.error());
    return builder.add(variable, IntervalHold{interval.from, interval.until, ours(*value)});
  });
}

Result<void> read_totals(const JsonNode& layer, const Conversion& ours, SeriesBuilder& builder) {
  return each_interval(layer, [&](const IsoInterval& interval, const JsonNode& node) -> Result<void> {
    if (node.is_null()) return {};
    const auto value = node.number();
    if (!value) return tl::make_unexpected(value.error());
    if (interval.until - interval.from == hours{1})
      return builder.add(Variable::rain, weather::SumOfFollowingHour{interval.from, ours(*value)});
    return builder.add(Variable::rain, weather::IntervalTotal{interval.from, interval.until, ours(*value)});
  });
}

double thunder_chance(const JsonNode& phenomenon) {
  const auto kind = phenomenon.find("weather"), coverage = phenomenon.find("coverage");
  if (!kind || !kind->is_text() || *kind->text() != "thunderstorms") return 0.0;
  if (coverage && coverage->is_text())
    for (const CoverageWord& known : coverage_words)
      if (known.word == *coverage->text()) return known.chance_pct;
  return 100.0;
}

Result<void> read_words(const JsonNode& layer, SeriesBuilder& builder) {
  return each_interval(layer, [&](const IsoInterval& interval, const JsonNode& phenomena) -> Result<void> {
    if (phenomena.is_null()) return {};
    if (!phenomena.is_array()) return tl::make_unexpected(phenomena.fault("expected a list"));
    double chance = 0.0;
    for (std::size_t i = 0; i < phenomena.size(); ++i) chance = std::max(chance, thunder_chance(phenomena.item(i)));
    return builder.add(Variable::thunder_chance, IntervalHold{interval.from, interval.until, chance});
  });
}

void take_larger(weather::Column& into, const weather::Column& other) {
  for (std::size_t hour = 0; hour < into.size(); ++hour)
    if (other.has(hour) && (!into.has(hour) || *other.at(hour) > *into.at(hour))) into.set(hour, *other.at(hour), other.provenance(hour));
}

// The middle of the cell: the mean of the polygon's corners, of which the last repeats the first.
std::optional<units::Site> cell_centre(const JsonNode& root) {
  const auto coordinates = root.find_path("geometry.coordinates");
  if (!coordinates || !coordinates->is_array() || coordinates->size() == 0) return std::nullopt;
  const JsonNode ring = coordinates->item(0);
  if (!ring.is_array() || ring.size() < 2 || ring.size() > 100) return std::nullopt;
  double lat = 0.0, lon = 0.0;
  const std::size_t corners = ring.size() - 1;
  for (std::size_t i = 0; i < corners; ++i) {
    const JsonNode corner = ring.item(i);
    if (!corner.is_array() || corner.size() < 2) return std::nullopt;
    const auto x = corner.item(0).number(), y = corner.item(1).number();
    if (!x || !y || std::abs(*x) > 180.0 || std::abs(*y) > 90.0) return std::nullopt;
    lon += *x / static_cast<double>(corners);
    lat += *y / static_cast<double>(corners);
  }
  return units::Site{units::Degrees{lat}, units::Degrees{lon}, units::Metres{0.0}};
}

void read_elevation(const JsonNode& properties, weather::Forecast& forecast) {
  const auto value = properties.find_path("elevation.value"), unit = properties.find_path("elevation.unitCode");
  if (!forecast.place || !value || !unit || !unit->is_text() || without_vocabulary(*unit->text()) != "m") return;
  const auto metres = value->number();
  if (!metres || std::abs(*metres) > 9000.0) return;
  forecast.place->elevation = units::Metres{*metres};
  forecast.elevation_known = true;
}

std::string source_name(const JsonNode& properties) {
  const auto office = properties.find("gridId"), x = properties.find("gridX"), y = properties.find("gridY");
  if (!office || !x || !y) return "National Weather Service";
  return fmt::format("National Weather Service {} {},{}", office->printed(), x->printed(), y->printed());
}

Result<void> read_layers(const JsonNode& properties, SeriesBuilder& builder) {
  for (const Layer& wanted : held_layers) {
    const auto layer = properties.find(wanted.name);
    const auto values = layer ? layer->find("values") : std::nullopt;
    if (!values || values->size() == 0) continue;
    const auto ours = declared(*layer, wanted.unit);
    if (!ours) return tl::make_unexpected(ours.error());
    if (auto ok = read_held(*layer, *ours, wanted.variable, builder); !ok) return ok;
  }
  if (const auto layer = properties.find("quantitativePrecipitation");
      layer && layer->find("values") && layer->find("values")->size() > 0) {
    const auto ours = declared(*layer, UnitKind::water_depth);
    if (!ours) return tl::make_unexpected(ours.error());
    if (auto ok = read_totals(*layer, *ours, builder); !ok) return ok;
  }
  // The service declares no unit here; the figures are percentages.
  if (const auto layer = properties.find("probabilityOfThunder"))
    if (auto ok = read_held(*layer, Conversion{}, Variable::thunder_chance, builder); !ok) return ok;
  return {};
}

}  // namespace

bool is_nws_grid(const JsonNode& root) {
  const auto properties = root.find("properties");
  return properties && (properties->find("validTimes") || properties->find_path("temperature.values"));
}

Result<std::vector<weather::Forecast>> read_nws_grid(const JsonNode& root, const ReadOptions& options) {
  const JsonNode properties = *root.find("properties");
  SeriesBuilder builder{weather::Origin::model, options.now}, words{weather::Origin::model, options.now};
  if (auto ok = read_layers(properties, builder); !ok) return tl::make_unexpected(ok.error());
  if (const auto layer = properties.find("weather"))
    if (auto ok = read_words(*layer, words); !ok) return tl::make_unexpected(ok.error());
  const auto temperatures = properties.find_path("temperature.values");
  auto extent = builder.extent();
  if (!temperatures || temperatures->size() == 0 || !extent)
    return units::fault(properties.where() + ".temperature", "", "missing: expected hours with a temperature");
  if (const auto said = words.extent()) extent = {std::min(extent->first, said->first), std::max(extent->last, said->last)};
  if (extent->last - extent->first > weather::longest_series)
    return units::fault(properties.where(), "", "expected a shorter stretch of time");

  weather::Forecast forecast;
  forecast.source = source_name(properties);
  forecast.place = cell_centre(root);
  read_elevation(properties, forecast);
  if (const auto updated = properties.find("updateTime"); updated && updated->is_text())
    forecast.issued_at = units::parse_instant(*updated->text());
  forecast.control = builder.build(*extent);
  take_larger(forecast.control[Variable::thunder_chance], words.build(*extent)[Variable::thunder_chance]);

  const hours stale{12};
  if (forecast.issued_at && options.now - *forecast.issued_at > stale && options.now < units::UtcTime{extent->last})
    forecast.warnings.push_back(fmt::format("{}: issued {}, more than {} h ago: a stale copy", forecast.source,
                                            units::to_text(*forecast.issued_at), stale.count()));
  return std::vector{std::move(forecast)};
}

}  // namespace feeds
