// Points with properties, as RFC 7946 has them: a FeatureCollection of Point features, longitude before latitude, degrees of WGS 84.
#pragma once
#include <string>
#include <string_view>

#include "book/kind.h"
#include "book/record.h"
#include "feeds/table_csv.h"

namespace app {

// One row a feature: its properties as columns, its point as `lat` and `lon`, its id, where it has one, as `id`. A feature that is no point
// gets cells that no field takes, so that its row is refused by number. Fault: no JSON, no FeatureCollection.
[[nodiscard]] units::Result<feeds::Table> read_geojson(const std::string& name, std::string_view content);

struct PlacedRecord {
  book::Record record;
  double latitude_deg, longitude_deg;
};
[[nodiscard]] std::string geojson(const book::Kind& kind, const std::vector<PlacedRecord>& records);

}  // namespace app
