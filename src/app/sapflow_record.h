// A sap-flow record as a CSV table, brought to what sapflow/ computes with: air completed, soil water followed or read off the record's
// own probe.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "params/models.h"
#include "sapflow/hours.h"
#include "sapflow/predict.h"
#include "units/fault.h"
#include "units/site.h"

namespace app {

enum class SoilWater { none, probe_or_balance, balance };

struct RecordOptions {
  units::Site site;
  bool labels_start_hour = false;
  SoilWater soil_water = SoilWater::probe_or_balance;
};

struct SapflowRecord {
  std::vector<std::string> labels;  // of every row, as the file has them
  std::vector<std::size_t> hour_of_row;
  sapflow::Hours hours;
  std::vector<sapflow::Sample> samples;
  std::vector<std::string> warnings;
};

// Columns time_utc, temp_c, rh_pct and shortwave_w_m2, and where there are any wind_m_s (at 2 m), rain_mm, soil_moisture_m3_m3 and target;
// others are passed over. Empty cells, and numbers that cannot be weather, are missing. Rows rise by the hour; holes are allowed. Fault: a
// column missing, a time or number that cannot be read, times that do not rise.
[[nodiscard]] units::Result<SapflowRecord> read_sapflow_record(const std::string& name, std::string_view content,
                                                               const params::Models& models, const RecordOptions& options);

// `time_utc,p10,p50,p90` for every row whose weather is known.
[[nodiscard]] std::string sapflow_csv(const SapflowRecord& record, const sapflow::Prediction& prediction);

}  // namespace app
