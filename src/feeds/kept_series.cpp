#include "feeds/kept_series.h"

#include <fmt/format.h>

#include <array>
#include <functional>

#include "feeds/csv.h"
#include "feeds/text.h"
#include "weather/convention.h"

namespace feeds {
namespace {

using units::Result;
using weather::Column;
using weather::Provenance;

constexpr std::string_view shape =
    "# sapdraw kept weather 1: each hour is named by its end; o observed, a analysed, f forecast, i filled in, d derived";
constexpr std::size_t most_hours = 24 * 3653;

constexpr std::array<std::pair<Provenance, char>, 5> letters{{{Provenance::observed, 'o'},
                                                              {Provenance::analysed, 'a'},
                                                              {Provenance::forecast, 'f'},
                                                              {Provenance::filled, 'i'},
                                                              {Provenance::derived, 'd'}}};

char letter_of(Provenance provenance) {
  for (const auto& [kind, letter] : letters)
    if (kind == provenance) return letter;
  return '?';
}

std::optional<Provenance> provenance_of(char letter) {
  for (const auto& [kind, known] : letters)
    if (known == letter) return kind;
  return std::nullopt;
}

std::string field(const Column& column, std::size_t hour) {
  return column.has(hour) ? fmt::format("{}{}", *column.at(hour), letter_of(column.provenance(hour))) : std::string{};
}

// "soil_moisture_0_0.1_m": top and bottom in metres.
std::string soil_name(std::string_view quantity, const weather::SoilLayer& layer) {
  return fmt::format("{}_{}_{}_m", quantity, layer.top.value, layer.bottom.value);
}

constexpr std::string_view moisture = "soil_moisture", temperature = "soil_temperature";

struct SoilName {
  units::Metres top, bottom;
};
std::optional<SoilName> parse_soil(std::string_view name, std::string_view quantity) {
  if (!name.starts_with(quantity) || !name.ends_with("_m")) return std::nullopt;
  name = name.substr(quantity.size(), name.size() - quantity.size() - 2);
  if (!name.starts_with('_')) return std::nullopt;
  const auto gap = name.find('_', 1);
  if (gap == std::string_view::npos) return std::nullopt;
  const auto top = parse_number(name.substr(1, gap - 1)), bottom = parse_number(name.substr(gap + 1));
  if (!top || !bottom || *top < 0.0 || *bottom <= *top || *bottom > 10.0) return std::nullopt;
  return SoilName{units::Metres{*top}, units::Metres{*bottom}};
}

// What a column of the file fills.
struct Target {
  std::string name;
  std::function<Column&(weather::Series&)> column;
  double lowest, highest;
};

units::Result<std::vector<Target>> targets(const CsvRow& header, const std::string& where, std::vector<weather::SoilLayer>& layers) {
  std::vector<Target> all;
  for (std::size_t i = 1; i < header.fields.size(); ++i) {
    const std::string& name = header.fields[i];
    for (const Target& before : all)
      if (before.name == name) return units::fault(where, for_message(name), "expected a column once");
    std::optional<Target> target;
    for (std::size_t v = 0; v < weather::variable_count; ++v) {
      const auto variable = static_cast<weather::Variable>(v);
      const auto& traits = weather::traits(variable);
      if (traits.name == name)
        target = Target{name, [variable](weather::Series& s) -> Column& { return s[variable]; }, traits.lowest, traits.highest};
    }
    const auto wet = parse_soil(name, moisture), warm = parse_soil(name, temperature);
    if (const auto& layer = wet ? wet : warm) {
      std::size_t at = 0;
      while (at < layers.size() && !(layers[at].top == layer->top && layers[at].bottom == layer->bottom)) ++at;
      if (at == layers.size()) layers.push_back({layer->top, layer->bottom, {}, {}});
      if (wet)
        target = Target{name, [at](weather::Series& s) -> Column& { return s.soil[at].moisture_m3_m3; }, weather::lowest_soil_moisture,
                        weather::highest_soil_moisture};
      else
        target = Target{name, [at](weather::Series& s) -> Column& { return s.soil[at].temperature_c; }, weather::lowest_soil_temperature_c,
                        weather::highest_soil_temperature_c};
    }
    if (!target) return units::fault(where, for_message(name), "expected a column of kept weather");
    all.push_back(std::move(*target));
  }
  return all;
}

}  // namespace

std::string write_kept(const weather::Series& series) {
  std::vector<std::pair<std::string, const Column*>> columns;
  for (std::size_t v = 0; v < weather::variable_count; ++v) {
    const auto variable = static_cast<weather::Variable>(v);
    if (!series[variable].empty()) columns.emplace_back(weather::traits(variable).name, &series[variable]);
  }
  for (const auto& layer : series.soil) {
    if (!layer.moisture_m3_m3.empty()) columns.emplace_back(soil_name(moisture, layer), &layer.moisture_m3_m3);
    if (!layer.temperature_c.empty()) columns.emplace_back(soil_name(temperature, layer), &layer.temperature_c);
  }
  std::string text = fmt::format("{}\ntime_utc", shape);
  for (const auto& [name, column] : columns) text += "," + name;
  text += '\n';
  for (std::size_t hour = 0; hour < series.hours(); ++hour) {
    text += units::to_text(units::UtcTime{series.label(hour)});
    for (const auto& [name, column] : columns) text += "," + field(*column, hour);
    text += '\n';
  }
  return text + fmt::format("# end: {} hours\n", series.hours());
}

Result<weather::Series> read_kept(const std::string& name, std::string_view content) {
  if (!content.starts_with(shape))
    return units::fault(name + ":1", for_message(content.substr(0, content.find('\n'))), "expected kept weather, version 1");
  CsvReader reader{name, content};
  const auto header = reader.next();
  if (!header) return units::fault(name + ":2", "", "expected a header");
  if (!*header) return tl::make_unexpected(header->error());
  const std::string header_where = reader.where(reader.line());
  if ((*header)->fields.front() != "time_utc")
    return units::fault(header_where, for_message((*header)->fields.front()), "expected time_utc");
  std::vector<weather::SoilLayer> layers;
  const auto columns = targets(**header, header_where, layers);
  if (!columns) return tl::make_unexpected(columns.error());

  std::vector<CsvRow> rows;
  std::optional<units::UtcHour> first;
  while (const auto row = reader.next()) {
    if (!*row) return tl::make_unexpected(row->error());
    const std::string where = reader.where((*row)->line, "time_utc");
    if ((*row)->fields.size() != columns->size() + 1)
      return units::fault(reader.where((*row)->line), fmt::format("{} fields", (*row)->fields.size()),
                          fmt::format("expected {}", columns->size() + 1));
    const auto time = units::parse_instant((*row)->fields.front());
    if (!time || std::chrono::floor<std::chrono::hours>(*time) != *time)
      return units::fault(where, for_message((*row)->fields.front()), "expected a full hour");
    const auto label = std::chrono::floor<std::chrono::hours>(*time);
    if (!first) first = label;
    if (label != *first + std::chrono::hours{static_cast<long>(rows.size())})
      return units::fault(where, for_message((*row)->fields.front()), "expected the hour after the one above");
    if (rows.size() >= most_hours) return units::fault(where, "", fmt::format("expected at most {} hours", most_hours));
    rows.push_back(**row);
  }
  if (!content.ends_with(fmt::format("# end: {} hours\n", rows.size())))
    return units::fault(name, "", fmt::format("expected '# end: {} hours' as the last line: the file is cut off", rows.size()));
  if (!first) return weather::Series{};

  weather::Series series{*first, rows.size()};
  for (auto& layer : layers) {
    layer.moisture_m3_m3 = Column{rows.size()};
    layer.temperature_c = Column{rows.size()};
  }
  series.soil = std::move(layers);
  for (std::size_t hour = 0; hour < rows.size(); ++hour)
    for (std::size_t c = 0; c < columns->size(); ++c) {
      const std::string& text = rows[hour].fields[c + 1];
      if (text.empty()) continue;
      const Target& target = (*columns)[c];
      const auto kind = provenance_of(text.back());
      const auto value = parse_number(std::string_view{text}.substr(0, text.size() - 1));
      if (!kind || !value || !(*value >= target.lowest && *value <= target.highest))
        return units::fault(reader.where(rows[hour].line, target.name), for_message(text),
                            fmt::format("expected a number from {} to {} and a letter", target.lowest, target.highest));
      target.column(series).set(hour, *value, *kind);
    }
  return series;
}

}  // namespace feeds
