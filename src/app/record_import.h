// Lists of records from elsewhere into the book: CSV of any columns, or GeoJSON points (RFC 7946). Every bad row is told by number and
// reason; then all are taken or none, unless the good ones are asked for.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "app/outcome.h"
#include "app/request.h"

namespace app {

struct ImportRequest {
  std::string kind;
  std::filesystem::path file;
  std::vector<std::string> map;  // FIELD=COLUMN: where a field stands under another name
  std::vector<std::string> set;  // FIELD=VALUE: for every row
  bool dry_run = false;
  bool leave_out_bad = false;  // take the good rows
  bool change_known = false;   // a row whose id is in the book changes it; else it is refused
};

[[nodiscard]] Outcome import_command(const Common& common, const ImportRequest& request);

}  // namespace app
