#include "feeds/gauge_csv.h"

#include <fmt/format.h>

#include <set>
#include <tuple>

#include "feeds/csv.h"
#include "feeds/text.h"
#include "units/us_customary.h"

namespace feeds {
namespace {

using units::Result;

constexpr double most_mm = 1'000.0;

class Rows {
 public:
  Rows(CsvReader& reader, const CsvHeader& header) : reader_(reader), header_(header) {}

  Result<GaugeDay> read(const CsvRow& row) const {
    const auto written = header_.field(row, "date");
    const auto day = units::parse_day(written);
    if (!day) return units::fault(reader_.where(row.line, "date"), for_message(written), "expected a day as YYYY-MM-DD");
    const bool inches = header_.has("rain_in");
    const double factor = inches ? 10.0 * units::us::centimetres_per_inch : 1.0;
    const auto rain = number(row, inches ? "rain_in" : "rain_mm", 0.0, most_mm / factor);
    if (!rain) return tl::make_unexpected(rain.error());
    GaugeDay gauge{*day, *rain * factor, {}};
    if (!header_.has("lat")) return gauge;
    const auto north = number(row, "lat", -90.0, 90.0), east = number(row, "lon", -180.0, 180.0);
    if (!north) return tl::make_unexpected(north.error());
    if (!east) return tl::make_unexpected(east.error());
    gauge.site = units::Site{units::Degrees{*north}, units::Degrees{*east}, units::Metres{0.0}};
    return gauge;
  }

 private:
  Result<double> number(const CsvRow& row, std::string_view column, double lowest, double highest) const {
    const auto field = header_.field(row, column);
    const auto value = parse_number(field);
    if (!value || !(*value >= lowest && *value <= highest))
      return units::fault(reader_.where(row.line, column), for_message(field),
                          fmt::format("expected a number from {:.4g} to {:.4g}", lowest, highest));
    return *value;
  }

  CsvReader& reader_;
  const CsvHeader& header_;
};

}  // namespace

Result<std::vector<GaugeDay>> read_gauge(const std::string& name, std::string_view content) {
  CsvReader reader{name, content};
  const auto header = CsvHeader::read(reader, {"date"}, {"rain_mm", "rain_in", "lat", "lon"});
  if (!header) return tl::make_unexpected(header.error());
  const std::string where = reader.where(reader.line());
  if (header->has("rain_mm") == header->has("rain_in")) return units::fault(where, "", "expected one of rain_mm or rain_in");
  if (header->has("lat") != header->has("lon")) return units::fault(where, "", "expected lat and lon together");
  const Rows rows{reader, *header};
  std::vector<GaugeDay> days;
  std::set<std::tuple<units::LocalDay, double, double>> seen;
  while (const auto row = reader.next()) {
    if (!*row) return tl::make_unexpected(row->error());
    auto day = rows.read(**row);
    if (!day) return tl::make_unexpected(day.error());
    const auto place = day->site.value_or(units::Site{});
    if (!seen.emplace(day->day, place.latitude.value, place.longitude.value).second)
      return units::fault(reader.where((*row)->line, "date"), units::to_text(day->day), "expected each day of a gauge once");
    days.push_back(std::move(*day));
  }
  return days;
}

}  // namespace feeds
