// Records of one kind written out: as CSV that `import` takes back, or as GeoJSON points (RFC 7946).
#pragma once
#include <string>

#include "app/outcome.h"
#include "app/request.h"

namespace app {

struct ExportRequest {
  std::string kind;
  bool geojson = false;  // of kinds that have a place: trees, sites, depots
};

[[nodiscard]] Outcome export_command(const Common& common, const ExportRequest& request);

}  // namespace app
