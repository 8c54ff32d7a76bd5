#include "sources/calls.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "settings/settings.h"
#include "sources/catalogue.h"

namespace sources {
namespace {

using net::Want;

constexpr std::array hourly{"temperature_2m",
                            "relative_humidity_2m",
                            "dew_point_2m",
                            "precipitation",
                            "precipitation_probability",
                            "cloud_cover",
                            "shortwave_radiation",
                            "wind_speed_10m",
                            "wind_gusts_10m",
                            "surface_pressure",
                            "weather_code",
                            "soil_moisture_0_to_10cm",
                            "soil_moisture_10_to_40cm",
                            "soil_moisture_40_to_100cm",
                            "soil_moisture_100_to_200cm",
                            "soil_temperature_0_to_10cm",
                            "soil_temperature_10_to_40cm"};
constexpr std::array of_members{"temperature_2m", "dew_point_2m", "precipitation", "cloud_cover", "shortwave_radiation", "wind_speed_10m"};
constexpr std::array of_archive{"temperature_2m",      "relative_humidity_2m", "dew_point_2m",   "precipitation",
                                "shortwave_radiation", "cloud_cover",          "wind_speed_10m", "surface_pressure"};
constexpr int days_ahead = 15, member_days = 10, members = 31;

constexpr std::string_view units_and_time =
    "timezone=GMT&timeformat=unixtime&temperature_unit=celsius&wind_speed_unit=ms&precipitation_unit=mm";

// What a call counts for at Open-Meteo: places x max(1, variables / 10, variables / 10 x days / 14); its pricing page and limiter.
double weight(double variables, double days) { return std::max({1.0, variables / 10.0, variables / 10.0 * days / 14.0}); }

std::string place(const CellSite& cell) {
  return fmt::format("latitude={:.4f}&longitude={:.4f}&elevation={:.0f}", cell.cell.latitude_deg(), cell.cell.longitude_deg(),
                     cell.elevation.value);
}

Want want(std::string_view service, std::string url, std::vector<std::string> kinds, double weight = 1.0) {
  Want want;
  // Open-Meteo's hosts are one service to its limits.
  const bool open_meteo = service.starts_with(settings::open_meteo) || service == settings::place_names;
  want.request.service = open_meteo ? settings::open_meteo : service;
  want.request.url = std::move(url);
  want.request.headers = {{"Accept", kinds.front()}};
  want.request.weight = weight;
  want.kinds = std::move(kinds);
  want.fresh_for = terms_of(service).fresh_for;
  return want;
}

const std::vector<std::string>& json() {
  static const std::vector<std::string> kinds{"application/json"};
  return kinds;
}
const std::vector<std::string>& geojson() {
  static const std::vector<std::string> kinds{"application/geo+json", "application/json", "application/ld+json"};
  return kinds;
}

// Percent-encoding of everything outside RFC 3986's unreserved characters.
std::string encoded(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 && byte < 0x80)
      out += c;
    else if (c == '-' || c == '.' || c == '_' || c == '~')
      out += c;
    else
      out += fmt::format("%{:02X}", byte);
  }
  return out;
}

// At most four decimals and no closing zeros: the service redirects every other spelling of a place.
std::string point(const Cell& cell) { return fmt::format("{},{}", cell.latitude_deg(), cell.longitude_deg()); }

}  // namespace

Want open_meteo_forecast(const std::string& base, const CellSite& cell, int past_days) {
  return want(settings::open_meteo,
              fmt::format("{}/v1/forecast?{}&hourly={}&past_days={}&forecast_days={}&{}", base, place(cell), fmt::join(hourly, ","),
                          past_days, days_ahead + 1, units_and_time),
              json(), weight(static_cast<double>(hourly.size()), past_days + days_ahead + 1));
}

Want open_meteo_ensemble(const std::string& base, const CellSite& cell) {
  return want(settings::open_meteo_ensemble,
              fmt::format("{}/v1/ensemble?{}&hourly={}&models=ncep_gefs_seamless&forecast_days={}&{}", base, place(cell),
                          fmt::join(of_members, ","), member_days, units_and_time),
              json(), weight(static_cast<double>(of_members.size() * members), member_days));
}

Want open_meteo_archive(const std::string& base, const CellSite& cell, units::LocalDay from, units::LocalDay until) {
  return want(settings::open_meteo_archive,
              fmt::format("{}/v1/archive?{}&hourly={}&start_date={}&end_date={}&{}", base, place(cell), fmt::join(of_archive, ","),
                          units::to_text(from), units::to_text(until), units_and_time),
              json(), weight(static_cast<double>(of_archive.size()), static_cast<double>((until - from).count() + 1)));
}

Want place_names(const std::string& base, std::string_view name) {
  return want(settings::place_names, fmt::format("{}/v1/search?name={}&count=10&language=en&format=json", base, encoded(name)), json());
}

Want met_norway_forecast(const std::string& base, const CellSite& cell) {
  return want(settings::met_norway,
              fmt::format("{}/complete?lat={:.2f}&lon={:.2f}&altitude={:.0f}", base, cell.cell.latitude_deg(), cell.cell.longitude_deg(),
                          cell.elevation.value),
              json());
}

Want nws_points(const std::string& base, const Cell& cell) {
  using namespace std::chrono_literals;
  Want points = want(settings::nws, fmt::format("{}/points/{}", base, point(cell)), geojson());
  points.fresh_for = 24h * 3;  // the mapping changes without notice, though seldom
  points.settled = {404};      // outside its country: an answer to keep, not a failure
  return points;
}

Want nws_grid(const std::string& address) { return want(settings::nws, address, geojson()); }

Want nws_stations(const std::string& address) {
  using namespace std::chrono_literals;
  Want stations = want(settings::nws, address, geojson());
  stations.fresh_for = 24h * 7;
  return stations;
}

Want nws_alerts(const std::string& base, const Cell& cell) {
  using namespace std::chrono_literals;
  Want alerts = want(settings::nws, fmt::format("{}/alerts/active?point={}", base, point(cell)), geojson());
  alerts.fresh_for = 10min;
  return alerts;
}

Want nws_observations(const std::string& base, const std::string& station, units::UtcTime from) {
  return want(settings::nws,
              fmt::format("{}/stations/{}/observations?start={}T00:00:00Z&limit=500", base, encoded(station),
                          units::to_text(units::LocalDay{std::chrono::floor<std::chrono::days>(from).time_since_epoch()})),
              geojson());
}

Want rain_stations(const std::string& base, const Cell& cell, units::LocalDay from, units::LocalDay until) {
  using namespace std::chrono_literals;
  constexpr double reach_deg = 0.3;
  const double north = cell.latitude_deg(), east = cell.longitude_deg();
  Want stations = want(settings::daily_rain,
                       fmt::format("{}/search/v1/data?dataset=daily-summaries&bbox={:.2f},{:.2f},{:.2f},{:.2f}&startDate={}&endDate={}"
                                   "&dataTypes=PRCP&limit=50&offset=0",
                                   base, north + reach_deg, east - reach_deg, north - reach_deg, east + reach_deg, units::to_text(from),
                                   units::to_text(until)),
                       json());
  stations.fresh_for = 24h * 30;
  return stations;
}

Want daily_rain(const std::string& base, const std::string& station, units::LocalDay from, units::LocalDay until) {
  return want(settings::daily_rain,
              fmt::format("{}/data/v1?dataset=daily-summaries&stations={}&startDate={}&endDate={}&dataTypes=PRCP,TMAX,TMIN&format=json"
                          "&units=metric&includeAttributes=false",
                          base, station, units::to_text(from), units::to_text(until)),
              json());
}

}  // namespace sources
