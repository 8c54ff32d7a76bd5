#include "feeds/station_csv.h"

#include <fmt/format.h>

#include <array>

#include "feeds/csv.h"
#include "feeds/reader.h"
#include "feeds/text.h"
#include "weather/convention.h"

namespace feeds {
namespace {

using units::Result;
using units::UtcTime;
using weather::SeriesBuilder;
using weather::Variable;

constexpr std::array station_variables{Variable::temperature, Variable::relative_humidity,
                                       Variable::dew_point,   Variable::rain,
                                       Variable::shortwave,   Variable::cloud,
                                       Variable::wind,        Variable::gust,
                                       Variable::pressure};
constexpr std::string_view soil_name = "soil_moisture_m3_m3";
constexpr weather::SoilColumn top_soil{units::Metres{0.0}, units::Metres{0.3}, weather::SoilQuantity::moisture};

std::optional<UtcTime> parse_time(std::string_view text) {
  const auto time = units::parse_instant(text);
  return time ? time : units::parse_instant(std::string{text} + "Z");
}

class Rows {
 public:
  Rows(CsvReader& reader, const CsvHeader& header, const ReadOptions& options)
      : reader_(reader), header_(header), options_(options), builder_(weather::Origin::station, options.now) {}

  Result<weather::Series> read() {
    while (const auto row = reader_.next()) {
      if (!*row) return tl::make_unexpected(row->error());
      if (auto ok = read_row(**row); !ok) return tl::make_unexpected(ok.error());
    }
    const auto extent = builder_.extent();
    if (!extent) return units::fault(reader_.where(reader_.line() + 1), "", "expected at least one row with a value");
    return builder_.build(*extent);
  }

 private:
  Result<void> read_row(const CsvRow& row) {
    if (row.fields.size() != header_.size())
      return units::fault(reader_.where(row.line), fmt::format("{} fields", row.fields.size()),
                          fmt::format("expected {}, as in the header", header_.size()));
    const auto written = header_.field(row, "time_utc");
    const auto time = parse_time(written);
    if (!time || std::chrono::floor<std::chrono::hours>(*time) != *time)
      return units::fault(reader_.where(row.line, "time_utc"), for_message(written), "expected a full hour as YYYY-MM-DDTHH:MMZ");
    if (last_ && *time <= *last_)
      return units::fault(reader_.where(row.line, "time_utc"), for_message(written), "expected a time after " + units::to_text(*last_));
    last_ = *time;
    const UtcTime label = options_.labels_start_hour ? *time + std::chrono::hours{1} : *time;
    for (const Variable variable : station_variables) {
      const std::string_view column = weather::traits(variable).name;
      auto ok = read_field(row, column, [&](double value) { return builder_.add(variable, weather::hour_ending(variable, label, value)); });
      if (!ok) return ok;
    }
    return read_field(row, soil_name, [&](double value) { return builder_.add(top_soil, weather::Instant{label, value}); });
  }

  template <class Add>
  Result<void> read_field(const CsvRow& row, std::string_view column, Add add) {
    const std::string_view field = header_.field(row, column);
    if (field.empty()) return {};
    const auto value = parse_number(field);
    if (!value) return units::fault(reader_.where(row.line, column), for_message(field), "expected a number or nothing");
    if (Result<void> ok = add(*value); !ok) return located(ok.error(), reader_.where(row.line, column));
    return {};
  }

  CsvReader& reader_;
  const CsvHeader& header_;
  const ReadOptions& options_;
  SeriesBuilder builder_;
  std::optional<UtcTime> last_;
};

}  // namespace

Result<std::vector<weather::Forecast>> read_station_csv(const std::string& name, std::string_view content, const ReadOptions& options) {
  CsvReader reader{name, content};
  std::vector<std::string_view> others{soil_name};
  for (const Variable variable : station_variables) others.push_back(weather::traits(variable).name);
  const auto header = CsvHeader::read(reader, {"time_utc", "temp_c"}, others);
  if (!header) return tl::make_unexpected(header.error());
  if (!header->has("rh_pct") && !header->has("dew_point_c"))
    return units::fault(reader.where(reader.line(), "rh_pct"), "", "missing in the header: expected rh_pct or dew_point_c");
  auto series = Rows{reader, *header, options}.read();
  if (!series) return tl::make_unexpected(series.error());
  weather::Forecast forecast;
  forecast.source = "station CSV " + name;
  forecast.place = options.place;
  forecast.elevation_known = forecast.place && options.elevation;
  if (forecast.elevation_known) forecast.place->elevation = *options.elevation;
  forecast.control = *std::move(series);
  forecast.warnings = header->warnings();
  return std::vector{std::move(forecast)};
}

}  // namespace feeds
