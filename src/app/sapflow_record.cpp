#include "app/sapflow_record.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <map>

#include "air/hours.h"
#include "app/csv.h"
#include "feeds/table_csv.h"
#include "params/lookup.h"
#include "sapflow/root_water.h"
#include "soil/water_balance.h"
#include "units/text.h"
#include "weather/gaps.h"
#include "weather/series.h"

namespace app {
namespace {

using weather::Variable;

constexpr std::array weather_columns{Variable::temperature, Variable::relative_humidity, Variable::shortwave, Variable::wind,
                                     Variable::rain};
constexpr std::string_view probe_column = "soil_moisture_m3_m3", target_column = "target";

struct Raw {
  weather::Series series;
  std::vector<std::optional<double>> probe_m3_m3, target;  // by hour of the series
  std::vector<std::string> labels;
  std::vector<std::size_t> hour_of_row;
};

// The cell's number; empty where the cell is. Fault: no number.
units::Result<std::optional<double>> number(const std::string& name, const feeds::TableRow& row, std::size_t column,
                                            const std::string& title) {
  const std::string_view cell = column < row.cells.size() ? units::trimmed(row.cells[column]) : std::string_view{};
  if (cell.empty()) return std::optional<double>{};
  const auto value = units::parse_number(cell);
  if (!value)
    return units::fault(name + ":" + std::to_string(row.line) + ": " + title, units::for_message(cell), "expected a number or nothing");
  return std::optional<double>{*value};
}

class Reader {
 public:
  Reader(const std::string& name, const feeds::Table& table, bool labels_start_hour)
      : name_(name), table_(table), labels_start_hour_(labels_start_hour) {}

  units::Result<Raw> read() {
    for (const std::string_view needed : {"time_utc", "temp_c", "rh_pct", "shortwave_w_m2"})
      if (!column(needed)) return units::fault(name_ + ":1", "", "expected a column " + std::string{needed});
    std::vector<units::UtcHour> times;
    for (const feeds::TableRow& row : table_.rows) {
      const auto time = time_of(row);
      if (!time) return tl::make_unexpected(time.error());
      if (!times.empty() && *time <= times.back())
        return units::fault(name_ + ":" + std::to_string(row.line) + ": time_utc", units::to_text(*time), "expected times that rise");
      times.push_back(*time);
    }
    if (times.empty()) return units::fault(name_, "", "expected at least one row");
    const auto hours = static_cast<std::size_t>((times.back() - times.front()).count()) + 1;
    Raw raw{weather::Series{times.front(), hours}, {}, {}, {}, {}};
    raw.probe_m3_m3.resize(hours);
    raw.target.resize(hours);
    for (std::size_t i = 0; i < times.size(); ++i)
      if (const auto done = place(table_.rows[i], *raw.series.index_of(times[i]), raw); !done) return tl::make_unexpected(done.error());
    return raw;
  }

 private:
  [[nodiscard]] std::optional<std::size_t> column(std::string_view title) const {
    const auto found = std::ranges::find(table_.columns, title);
    if (found == table_.columns.end()) return std::nullopt;
    return static_cast<std::size_t>(found - table_.columns.begin());
  }

  units::Result<units::UtcHour> time_of(const feeds::TableRow& row) const {
    const std::size_t at = *column("time_utc");
    const std::string text = at < row.cells.size() ? row.cells[at] : std::string{};
    const auto instant = units::parse_instant(text);
    if (!instant || *instant != std::chrono::floor<std::chrono::hours>(*instant))
      return units::fault(name_ + ":" + std::to_string(row.line) + ": time_utc", units::for_message(text), "expected YYYY-MM-DDTHH:00Z");
    return std::chrono::floor<std::chrono::hours>(*instant) + std::chrono::hours{labels_start_hour_ ? 1 : 0};
  }

  units::Result<void> place(const feeds::TableRow& row, std::size_t hour, Raw& raw) const {
    for (const Variable variable : weather_columns) {
      const weather::VariableTraits& traits = weather::traits(variable);
      const auto at = column(traits.name);
      if (!at) continue;
      const auto value = number(name_, row, *at, std::string{traits.name});
      if (!value) return tl::make_unexpected(value.error());
      if (*value && **value >= traits.lowest && **value <= traits.highest)
        raw.series[variable].set(hour, **value, weather::Provenance::observed);
    }
    for (const auto& [title, to] : {std::pair{probe_column, &raw.probe_m3_m3}, std::pair{target_column, &raw.target}})
      if (const auto at = column(title)) {
        const auto value = number(name_, row, *at, std::string{title});
        if (!value) return tl::make_unexpected(value.error());
        if (*value && **value >= 0.0) (*to)[hour] = *value;
      }
    raw.labels.push_back(row.cells[*column("time_utc")]);
    raw.hour_of_row.push_back(hour);
    return {};
  }

  const std::string& name_;
  const feeds::Table& table_;
  bool labels_start_hour_;
};

// REW of a loam under full leaf, followed through the record's own rain.
units::Result<std::vector<double>> balance(const params::Models& models, const weather::Series& series, const air::AirHours& air) {
  const auto texture = params::find_texture(models, "loam");
  if (!texture) return tl::make_unexpected(texture.error());
  const auto zone = soil::RootZone::make(models.soil, *texture);
  if (!zone) return tl::make_unexpected(zone.error());
  soil::Forcing forcing;
  forcing.rain_mm = series[Variable::rain];
  forcing.et0_mm = weather::Column{air.hours()};
  for (std::size_t h = 0; h < air.hours(); ++h)
    if (const auto et0 = air.et0_asce_short_mm_h.at(h)) forcing.et0_mm.set(h, std::max(0.0, *et0), weather::Provenance::derived);
  forcing.temp_c = air.temp_c;
  forcing.leaf_share.assign(air.hours(), 1.0);
  const auto run = soil::run(*zone, soil::guessed_start(*zone), forcing);
  if (!run) return tl::make_unexpected(run.error());
  return run->hours.rew;
}

sapflow::Hours hours_of(const air::AirHours& air, const units::Site& site) {
  constexpr double watts_per_megajoule_hour = 1e6 / 3600.0;
  constexpr double psychrometric_per_kpa = 0.665e-3;                                  // FAO-56 eq. 8
  const std::chrono::seconds solar{static_cast<long>(site.longitude.value * 240.0)};  // four minutes a degree
  sapflow::Hours hours;
  for (std::size_t h = 0; h < air.hours(); ++h) {
    const auto temp = air.temp_c.at(h), vpd = air.vpd_kpa.at(h), sun = air.shortwave_w_m2.at(h), net = air.net_radiation_mj_m2_h.at(h);
    hours.known.push_back(temp && vpd && sun && net);
    hours.temp_c.push_back(temp.value_or(0.0));
    hours.vpd_kpa.push_back(vpd.value_or(0.0));
    hours.shortwave_w_m2.push_back(sun.value_or(0.0));
    hours.net_radiation_w_m2.push_back(net.value_or(0.0) * watts_per_megajoule_hour);
    hours.psychrometric_kpa_c.push_back(psychrometric_per_kpa * *air.pressure_kpa.at(h));
    hours.solar_day.push_back(
        std::chrono::floor<std::chrono::days>(units::UtcTime{air.label(h)} - std::chrono::minutes{30} + solar).time_since_epoch().count());
  }
  return hours;
}

}  // namespace

units::Result<SapflowRecord> read_sapflow_record(const std::string& name, std::string_view content, const params::Models& models,
                                                 const RecordOptions& options) {
  const auto table = feeds::read_table(name, content);
  if (!table) return tl::make_unexpected(table.error());
  auto raw = Reader{name, *table, options.labels_start_hour}.read();
  if (!raw) return tl::make_unexpected(raw.error());
  weather::bridge_gaps(raw->series);
  const air::AirHours air = air::complete(raw->series, options.site, {units::Metres{2.0}, true});

  SapflowRecord record;
  record.hours = hours_of(air, options.site);
  if (options.soil_water == SoilWater::probe_or_balance)
    record.hours.rew = sapflow::rew_of_probe(raw->probe_m3_m3, models.sapflow.stand.least_available_m3_m3);
  if (options.soil_water == SoilWater::none) record.hours.rew.assign(record.hours.size(), 1.0);
  if (record.hours.rew.empty()) {
    auto rew = balance(models, raw->series, air);
    if (!rew) return tl::make_unexpected(rew.error());
    record.hours.rew = std::move(*rew);
  }
  for (std::size_t h = 0; h < record.hours.size(); ++h)
    if (raw->target[h] && record.hours.known[h]) record.samples.push_back({h, *raw->target[h]});
  record.labels = std::move(raw->labels);
  record.hour_of_row = std::move(raw->hour_of_row);
  return record;
}

std::string sapflow_csv(const SapflowRecord& record, const sapflow::Prediction& prediction) {
  std::string text = "time_utc,p10,p50,p90\n";
  for (std::size_t row = 0; row < record.labels.size(); ++row)
    if (const auto& range = prediction.hours[record.hour_of_row[row]])
      text += record.labels[row] + "," + csv::number(range->p10) + "," + csv::number(range->p50) + "," + csv::number(range->p90) + "\n";
  return text;
}

}  // namespace app
