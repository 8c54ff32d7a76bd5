// The weather services: where they are, what they allow, on what terms, and which of them this office may ask. docs/weather-services.md.
#pragma once
#include <chrono>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "net/rates.h"
#include "settings/settings.h"
#include "units/fault.h"

namespace sources {

struct Terms {
  std::string_view service;  // as in settings/settings.h
  std::string_view name;     // as a person says it
  std::string_view address;  // without a closing slash
  std::string_view terms;    // of use, one line
  std::string_view credit;   // to be shown beside the data; empty where none is asked for
  std::chrono::seconds fresh_for;
};

// Every service, in no order of trust.
[[nodiscard]] const std::vector<Terms>& catalogue();
// Requires a name of settings/settings.h.
[[nodiscard]] const Terms& terms_of(std::string_view service);

struct Chosen {
  std::vector<std::string> by_trust;  // forecasts, most trusted first
  bool ensemble = false;
  bool open_meteo = false;  // there is a ground to ask it, its archive and its place names
  [[nodiscard]] bool uses(std::string_view service) const;
};

// What the settings allow: by default the National Weather Service and MET Norway, which any business may ask, and Open-Meteo between them
// once the owner has stated on what ground. Fault: Open-Meteo listed, or its ensemble asked for, without one.
[[nodiscard]] units::Result<Chosen> choose(const settings::Settings& settings);

// The owner's address, else the service's own (for a paid key Open-Meteo's other hosts), without a closing slash.
[[nodiscard]] std::string address_of(std::string_view service, const settings::Settings& settings);

// How fast and how much: stated limits of the service where it states any, else ours. The owner's figure for his own server or contract
// replaces calls a second and lifts the limits by the hour and day with it.
[[nodiscard]] std::map<std::string, net::Rates> rates(const settings::Settings& settings);

}  // namespace sources
