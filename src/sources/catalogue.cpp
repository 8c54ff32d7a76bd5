#include "sources/catalogue.h"

#include <fmt/format.h>

#include <algorithm>

namespace sources {

using namespace std::chrono_literals;
using settings::OpenMeteoUse;
using settings::Settings;

namespace {

constexpr std::string_view open_meteo_terms =
    "data CC BY 4.0; the free service is for non-commercial use only, a business pays or runs its own";
constexpr std::string_view open_meteo_credit = "Weather data by Open-Meteo.com (https://open-meteo.com/)";
constexpr std::string_view public_domain = "US Government, public domain; asks for a contact in every call";

// Hosts that take a paid key stand beside the free ones (Open-Meteo's pricing page; all but the forecast's from memory).
std::string_view paid_address(std::string_view service) {
  if (service == settings::open_meteo) return "https://customer-api.open-meteo.com";
  if (service == settings::open_meteo_archive) return "https://customer-archive-api.open-meteo.com";
  if (service == settings::open_meteo_ensemble) return "https://customer-ensemble-api.open-meteo.com";
  if (service == settings::place_names) return "https://customer-geocoding-api.open-meteo.com";
  return {};
}

}  // namespace

const std::vector<Terms>& catalogue() {
  static const std::vector<Terms> all{
      {settings::nws, "US National Weather Service", "https://api.weather.gov", public_domain, "", 1h},
      {settings::met_norway, "MET Norway", "https://api.met.no/weatherapi/locationforecast/2.0",
       "CC BY 4.0 and NLOD 2.0; asks for a contact in every call, and not before the last reply expires", "Data from MET Norway", 1h},
      {settings::open_meteo, "Open-Meteo", "https://api.open-meteo.com", open_meteo_terms, open_meteo_credit, 1h},
      {settings::open_meteo_archive, "Open-Meteo archive", "https://archive-api.open-meteo.com", open_meteo_terms, open_meteo_credit, 24h},
      {settings::open_meteo_ensemble, "Open-Meteo ensemble", "https://ensemble-api.open-meteo.com", open_meteo_terms, open_meteo_credit,
       6h},
      {settings::place_names, "Open-Meteo place names", "https://geocoding-api.open-meteo.com", open_meteo_terms,
       "Place names: GeoNames (CC BY 4.0), by Open-Meteo.com", 24h * 30},
      {settings::daily_rain, "NCEI daily summaries", "https://www.ncei.noaa.gov/access/services", public_domain, "", 12h},
  };
  return all;
}

const Terms& terms_of(std::string_view service) { return *std::ranges::find(catalogue(), service, &Terms::service); }

bool Chosen::uses(std::string_view service) const { return std::ranges::find(by_trust, service) != by_trust.end(); }

units::Result<Chosen> choose(const Settings& s) {
  const bool stated = s.open_meteo != OpenMeteoUse::none;
  Chosen chosen;
  chosen.by_trust = s.services;
  if (chosen.by_trust.empty()) {
    chosen.by_trust.emplace_back(settings::nws);
    if (stated) chosen.by_trust.emplace_back(settings::open_meteo);
    chosen.by_trust.emplace_back(settings::met_norway);
  }
  chosen.ensemble = s.ensemble;
  if (!stated && (chosen.uses(settings::open_meteo) || s.ensemble))
    return units::fault(
        "config.toml: weather.open_meteo", "none",
        "expected non-commercial, paid or own-server, since Open-Meteo is asked for: its free service is not for businesses");
  chosen.open_meteo = stated;
  // Who runs his own server must not come upon the public one by leaving a line out.
  if (s.open_meteo == OpenMeteoUse::own_server)
    for (const auto& [service, wanted] :
         {std::pair{settings::open_meteo, chosen.uses(settings::open_meteo)}, std::pair{settings::open_meteo_ensemble, s.ensemble}})
      if (wanted && !s.address.contains(std::string{service}))
        return units::fault(fmt::format("config.toml: weather.address.{}", service), "", "expected the address of your own server");
  return chosen;
}

std::string address_of(std::string_view service, const Settings& s) {
  const auto own = s.address.find(std::string{service});
  std::string address{own != s.address.end()                                                 ? std::string_view{own->second}
                      : s.open_meteo == OpenMeteoUse::paid && !paid_address(service).empty() ? paid_address(service)
                                                                                             : terms_of(service).address};
  while (address.ends_with('/')) address.pop_back();
  return address;
}

std::map<std::string, net::Rates> rates(const Settings& s) {
  // Free Open-Meteo: 600 a minute, 5,000 an hour, 10,000 a day, 300,000 a month, one call at a time (pricing page and limiter, 2026).
  net::Rates open_meteo{.per_second = 10.0, .at_once = 1};
  open_meteo.per_minute = 600.0;
  open_meteo.per_hour = 5'000.0;
  open_meteo.per_day = 10'000.0;
  open_meteo.per_month = 300'000.0;
  // The National Weather Service does not publish its limit; one a second and two at once is ours. NCEI publishes none either.
  // MET Norway allows 20 a second for a whole application: half of it is ours.
  std::map<std::string, net::Rates> all{
      {std::string{settings::nws}, {.per_second = 1.0, .at_once = 2}},
      {std::string{settings::met_norway}, {.per_second = 10.0, .at_once = 2}},
      {std::string{settings::daily_rain}, {.per_second = 1.0, .at_once = 1}},
  };
  all.emplace(settings::open_meteo, open_meteo);  // all its hosts together
  for (const auto& [service, per_second] : s.calls_per_second)
    all[service] = {.per_second = per_second, .at_once = std::max(1, all[service].at_once)};
  return all;
}

}  // namespace sources
