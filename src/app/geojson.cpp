#include "app/geojson.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "app/csv.h"
#include "app/record_json.h"
#include "book/field.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;

constexpr int deepest = 32;  // levels of JSON; a point's feature has five

std::string cell_of(const Json& value) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
  if (value.is_number_integer()) return value.dump();  // an id of many digits keeps them all
  if (value.is_number()) {
    const double number = value.get<double>();
    return number == std::floor(number) && std::abs(number) < 1e15 ? std::to_string(static_cast<long long>(number))
                                                                   : book::shortest(number);
  }
  return value.is_null() ? std::string{} : value.dump();
}

// A feature's cells by column.
std::map<std::string, std::string> cells_of(const Json& feature) {
  std::map<std::string, std::string> cells;
  if (feature.contains("properties") && feature["properties"].is_object())
    for (const auto& [name, value] : feature["properties"].items()) cells[name] = cell_of(value);
  if (feature.contains("id")) {
    if (const auto property = cells.extract("id"); !property.empty()) cells["properties.id"] = property.mapped();
    cells["id"] = cell_of(feature["id"]);
  }
  const Json point = feature.contains("geometry") && feature["geometry"].is_object() ? feature["geometry"] : Json::object();
  const Json at = point.value("coordinates", Json::array());
  const bool is_point = point.value("type", Json{}) == "Point" && at.is_array() && at.size() >= 2 && at[0].is_number() && at[1].is_number();
  cells["lon"] = is_point ? book::shortest(at[0].get<double>()) : "no point";
  cells["lat"] = is_point ? book::shortest(at[1].get<double>()) : "no point";
  return cells;
}

}  // namespace

units::Result<feeds::Table> read_geojson(const std::string& name, std::string_view content) {
  if (content.starts_with("\xEF\xBB\xBF")) content.remove_prefix(3);
  bool too_deep = false;
  const Json::parser_callback_t watch = [&](int depth, Json::parse_event_t, Json&) {
    too_deep = too_deep || depth > deepest;
    return !too_deep;
  };
  const Json json = Json::parse(content, watch, false);
  if (too_deep) return units::fault(name, "", "expected GeoJSON: lists and objects lie too deep in each other");
  if (json.is_discarded()) return units::fault(name, "", "expected JSON: it is broken or cut off");
  if (!json.is_object() || json.value("type", Json{}) != "FeatureCollection" || !json.contains("features") || !json["features"].is_array())
    return units::fault(name, "", "expected a GeoJSON FeatureCollection");
  std::vector<std::map<std::string, std::string>> all;
  feeds::Table table;
  for (const Json& feature : json["features"]) {
    all.push_back(feature.is_object() ? cells_of(feature) : cells_of(Json::object()));
    for (const auto& [column, cell] : all.back())
      if (std::ranges::find(table.columns, column) == table.columns.end()) table.columns.push_back(column);
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    feeds::TableRow row{i + 1, 0, {}};
    for (const std::string& column : table.columns) row.cells.push_back(all[i].contains(column) ? all[i][column] : std::string{});
    table.rows.push_back(std::move(row));
  }
  return table;
}

std::string geojson(const book::Kind& kind, const std::vector<PlacedRecord>& records) {
  Json features = Json::array();
  for (const PlacedRecord& placed : records)
    features.push_back({{"type", "Feature"},
                        {"id", placed.record.id},
                        {"geometry", {{"type", "Point"}, {"coordinates", {placed.longitude_deg, placed.latitude_deg}}}},
                        {"properties", record_json(kind, placed.record)["fields"]}});
  return Json{{"type", "FeatureCollection"}, {"features", features}}.dump(1) + "\n";
}

}  // namespace app
