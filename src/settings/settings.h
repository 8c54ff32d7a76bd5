// The owner's settings: who he is to the weather services, which of them he may use, where they are, and how messages leave. What stands in
// models/ is not repeated here: these are choices of an office, not numbers of nature or practice.
#pragma once
#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "settings/post.h"
#include "units/fault.h"

namespace settings {

// On what ground Open-Meteo may be asked: its free service is for non-commercial use only.
enum class OpenMeteoUse { none, non_commercial, paid, own_server };

struct Settings {
  std::string contact;                // an address by mail or on the web, told to every service; empty: no service may be asked
  std::vector<std::string> services;  // in order of trust; empty: what is lawful without further ground
  OpenMeteoUse open_meteo = OpenMeteoUse::none;
  bool ensemble = false;                         // ask Open-Meteo's ensemble too
  std::optional<std::filesystem::path> ca_file;  // trusted beside, e.g. an own server's certificate authority
  std::uint64_t cache_mb = 256;
  // By service (names below); empty where the owner says nothing.
  std::map<std::string, std::string> address;
  std::map<std::string, double> calls_per_second;
  std::map<std::string, std::filesystem::path> key_file;
  Post post;
};

// The services that settings may name.
inline constexpr std::string_view nws = "nws", met_norway = "met-norway", open_meteo = "open-meteo",
                                  open_meteo_archive = "open-meteo-archive", open_meteo_ensemble = "open-meteo-ensemble",
                                  place_names = "place-names", daily_rain = "daily-rain";

// Reads TOML 1.0 (config.toml; an empty text gives the defaults). `name` is how faults call it. Faults, as "config.toml:4: weather.use":
// broken TOML, an unknown key or service, a wrong type, a contact that is neither a mail nor a web address, an address that is neither
// https nor http to this machine (a gateway's too), a gateway or mail server half described, a rate outside 0.01..1000 calls a second, a
// cache outside 1..100000 MB. Never throws.
[[nodiscard]] units::Result<Settings> read_settings(const std::string& name, std::string_view content);

}  // namespace settings
