#include "app/plot_records.h"

#include <algorithm>
#include <array>
#include <map>

#include "air/humidity.h"
#include "air/net_radiation.h"
#include "air/pressure.h"
#include "air/reference_et.h"
#include "air/shortwave.h"
#include "air/sun.h"
#include "air/wind.h"
#include "app/csv.h"
#include "feeds/table_csv.h"
#include "params/lookup.h"
#include "soil/plot_fit.h"
#include "units/text.h"

namespace app {
namespace {

constexpr units::Metres assumed_elevation{300.0};
constexpr double layer_on_record_cm = 35.0;
constexpr std::size_t week = 7;

struct Day {
  std::optional<double> tmax_c, tmin_c, precip_mm, rs_mj_m2_d, rhmax_pct, rhmin_pct, theta;
};

struct Cell {
  const char* title;
  std::optional<double> Day::*to;
  double lowest, highest;
  bool needed;
};

constexpr std::array cells{Cell{"tmax_c", &Day::tmax_c, -60.0, 60.0, true},       Cell{"tmin_c", &Day::tmin_c, -60.0, 60.0, true},
                           Cell{"precip_mm", &Day::precip_mm, 0.0, 2000.0, true}, Cell{"rs_mj_m2_d", &Day::rs_mj_m2_d, 0.0, 50.0, false},
                           Cell{"rhmax_pct", &Day::rhmax_pct, 0.0, 105.0, false}, Cell{"rhmin_pct", &Day::rhmin_pct, 0.0, 105.0, false},
                           Cell{"swc_0_35", &Day::theta, 0.0, 1.0, true}};

// FAO-56 eq. 6 for the day; empty without its temperatures.
std::optional<double> et0_mm(const Day& day, units::LocalDay date, units::Degrees latitude) {
  if (!day.tmax_c || !day.tmin_c || *day.tmax_c < *day.tmin_c) return std::nullopt;
  const units::Celsius highest{*day.tmax_c}, lowest{*day.tmin_c};
  const units::Celsius mean{0.5 * (highest.value + lowest.value)};
  const units::Kilopascals actual =
      day.rhmax_pct && day.rhmin_pct
          ? air::daily_vapour_pressure(highest, lowest,
                                       air::DailyHumidity{units::Fraction{std::min(1.0, *day.rhmax_pct / 100.0)},
                                                          units::Fraction{std::min(1.0, *day.rhmin_pct / 100.0)}})
          : air::saturation_pressure(lowest);
  const auto outside = air::extraterrestrial_daily(air::solar_day(units::day_of_year(date), latitude));
  const auto clear = air::clear_sky(outside, assumed_elevation);
  constexpr double inland = 0.16;
  const units::MegajoulesPerSquareMetre sun{
      day.rs_mj_m2_d ? *day.rs_mj_m2_d : std::min(clear.value, air::from_temperature_range(outside, highest, lowest, inland).value)};
  const units::Fraction relative{clear.value > 0.0 ? sun.value / clear.value : 1.0};
  air::Evaporation e;
  e.temperature = mean;
  e.slope = air::saturation_slope(mean);
  e.psychrometric_constant = air::psychrometric_constant(air::pressure_at(assumed_elevation));
  e.deficit = air::vapour_pressure_deficit(air::mean_saturation_pressure(highest, lowest), actual);
  e.wind_2m = air::wind_when_unknown;
  e.net_radiation =
      units::MegajoulesPerSquareMetre{air::net_shortwave(sun).value - air::net_longwave_daily(highest, lowest, actual, relative).value};
  e.soil_heat = units::MegajoulesPerSquareMetre{0.0};
  return std::max(0.0, air::fao56_daily(e).total().value);
}

class Reader {
 public:
  Reader(const std::string& name, const feeds::Table& table) : name_(name), table_(table) {}

  units::Result<std::vector<Station>> read() {
    for (const char* needed : {"station", "date", "latitude"})
      if (!column(needed)) return missing(needed);
    for (const Cell& cell : cells)
      if (cell.needed && !column(cell.title)) return missing(cell.title);
    std::vector<Station> stations;
    std::size_t row = 0;
    while (row < table_.rows.size()) {
      std::size_t end = row + 1;
      while (end < table_.rows.size() && text(table_.rows[end], "station") == text(table_.rows[row], "station")) ++end;
      auto station = station_of(row, end);
      if (!station) return tl::make_unexpected(station.error());
      stations.push_back(*std::move(station));
      row = end;
    }
    return stations;
  }

 private:
  [[nodiscard]] std::optional<std::size_t> column(std::string_view title) const {
    const auto found = std::ranges::find(table_.columns, title);
    if (found == table_.columns.end()) return std::nullopt;
    return static_cast<std::size_t>(found - table_.columns.begin());
  }

  [[nodiscard]] tl::unexpected<units::Fault> missing(const char* title) const {
    return units::fault(name_ + ":1", "", std::string{"expected a column "} + title);
  }

  [[nodiscard]] std::string_view text(const feeds::TableRow& row, std::string_view title) const {
    const std::size_t at = *column(title);
    return at < row.cells.size() ? units::trimmed(row.cells[at]) : std::string_view{};
  }

  [[nodiscard]] std::string where(const feeds::TableRow& row, const char* title) const {
    return name_ + ":" + std::to_string(row.line) + ": " + title;
  }

  units::Result<Station> station_of(std::size_t from, std::size_t end) const {
    std::vector<units::LocalDay> dates;
    for (std::size_t i = from; i < end; ++i) {
      const auto date = units::parse_day(text(table_.rows[i], "date"));
      if (!date)
        return units::fault(where(table_.rows[i], "date"), units::for_message(text(table_.rows[i], "date")), "expected YYYY-MM-DD");
      if (!dates.empty() && *date <= dates.back())
        return units::fault(where(table_.rows[i], "date"), units::to_text(*date), "expected days of one station that rise");
      dates.push_back(*date);
    }
    const auto latitude = units::parse_number(text(table_.rows[from], "latitude"));
    if (!latitude || !(*latitude >= -90.0 && *latitude <= 90.0))
      return units::fault(where(table_.rows[from], "latitude"), units::for_message(text(table_.rows[from], "latitude")),
                          "expected a number from -90 to 90");
    const auto days = static_cast<std::size_t>((dates.back() - dates.front()).count()) + 1;
    if (days > 366 * 20)
      return units::fault(where(table_.rows[end - 1], "date"), units::to_text(dates.back()), "expected a record of at most twenty years");
    Station station{std::string{text(table_.rows[from], "station")}, dates.front(), {}};
    soil::Forcing& forcing = station.record.forcing;
    forcing.rain_mm = forcing.et0_mm = forcing.temp_c = weather::Column{24 * days};
    forcing.leaf_share.assign(24 * days, 1.0);
    station.record.theta.resize(days);
    station.record.bottom_cm = layer_on_record_cm;
    for (std::size_t i = from; i < end; ++i) {
      const auto day = day_of(table_.rows[i]);
      if (!day) return tl::make_unexpected(day.error());
      const units::LocalDay date = dates[i - from];
      const auto at = static_cast<std::size_t>((date - dates.front()).count());
      station.record.theta[at] = day->theta;
      // Nobody knows at which hours it rained or evaporated: evenly.
      const auto et0 = et0_mm(*day, date, units::Degrees{*latitude});
      for (std::size_t h = 24 * at; h < 24 * (at + 1); ++h) {
        if (day->precip_mm) forcing.rain_mm.set(h, *day->precip_mm / 24.0, weather::Provenance::observed);
        if (et0) forcing.et0_mm.set(h, *et0 / 24.0, weather::Provenance::derived);
        if (day->tmax_c && day->tmin_c) forcing.temp_c.set(h, 0.5 * (*day->tmax_c + *day->tmin_c), weather::Provenance::observed);
      }
    }
    return station;
  }

  units::Result<Day> day_of(const feeds::TableRow& row) const {
    Day day;
    for (const Cell& cell : cells) {
      if (!column(cell.title)) continue;
      const std::string_view said = text(row, cell.title);
      if (said.empty()) continue;
      const auto value = units::parse_number(said);
      if (!value) return units::fault(where(row, cell.title), units::for_message(said), "expected a number or nothing");
      if (*value >= cell.lowest && *value <= cell.highest) day.*cell.to = *value;
    }
    return day;
  }

  const std::string& name_;
  const feeds::Table& table_;
};

// Whether the day has no content itself, but had one a week before and none between.
bool is_a_week_on(const std::vector<std::optional<double>>& theta, std::size_t day) {
  if (day < week || !theta[day - week]) return false;
  for (std::size_t d = day - week + 1; d <= day; ++d)
    if (theta[d]) return false;
  return true;
}

// The end of the stretch that was measured day by day.
std::size_t daily_until(const std::vector<std::optional<double>>& theta) {
  for (std::size_t day = theta.size(); day-- > 1;)
    if (theta[day] && theta[day - 1]) return day + 1;
  return 0;
}

}  // namespace

units::Result<std::vector<Station>> read_plot_records(const std::string& name, std::string_view content) {
  const auto table = feeds::read_table(name, content);
  if (!table) return tl::make_unexpected(table.error());
  return Reader{name, *table}.read();
}

units::Result<std::vector<std::optional<double>>> week_ahead(const params::Models& models, const Station& station, PlotFit fit,
                                                             const std::string& texture) {
  const soil::PlotParameters& parameters = models.plot;
  const soil::PlotRecord& record = station.record;
  std::vector<std::optional<double>> said(record.days());
  const std::size_t known = daily_until(record.theta);
  const auto range = soil::shown_range(parameters, record, known);
  if (!range && fit != PlotFit::texture) return said;
  const auto like = params::find_texture(models, texture);
  if (!like) return tl::make_unexpected(like.error());
  const auto run_days = static_cast<std::size_t>(parameters.run_days);
  const std::size_t from = known > run_days ? known - run_days : 0;
  soil::Plot plot = soil::before_record(parameters.priors);
  if (fit == PlotFit::own) {
    const auto fitted = soil::fit_plot(models.soil, parameters, *like, *range, record, from, known);
    if (!fitted) return tl::make_unexpected(fitted.error());
    plot = *fitted;
  }
  const auto zone = soil::root_zone_of(
      models.soil, parameters, fit == PlotFit::texture ? *like : soil::texture_of(parameters, *like, *range, plot), plot, record.bottom_cm);
  if (!zone) return tl::make_unexpected(zone.error());
  const auto theta = soil::follow(*zone, parameters, record, std::vector<bool>(record.days(), true), from, record.days());
  if (!theta) return tl::make_unexpected(theta.error());
  for (std::size_t day = known; day < record.days(); ++day)
    if (is_a_week_on(record.theta, day)) said[day] = (*theta)[day];
  return said;
}

std::string week_ahead_csv(const Station& station, const std::vector<std::optional<double>>& theta) {
  std::string text;
  for (std::size_t day = 0; day < theta.size(); ++day)
    if (theta[day])
      text += csv::text(station.name) + "," + units::to_text(station.first_day + std::chrono::days{static_cast<long>(day)}) + "," +
              csv::number(theta[day]) + "\n";
  return text;
}

}  // namespace app
