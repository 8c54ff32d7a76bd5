// Where settings, history and cache lie on this machine, by the XDG Base Directory Specification.
#pragma once
#include <filesystem>
#include <functional>
#include <optional>
#include <string>

#include "units/fault.h"

namespace settings {

// A variable of the environment; empty where it is not set.
using Environment = std::function<std::optional<std::string>(const std::string& name)>;

// What a person gave on the command line; each wins over the environment.
struct GivenPlaces {
  std::optional<std::filesystem::path> config, history, cache;
};

struct Places {
  std::filesystem::path config;   // the file config.toml
  std::filesystem::path history;  // folder of the weather kept from day to day
  std::filesystem::path cache;    // folder
};

// $XDG_CONFIG_HOME/sapdraw/config.toml, $XDG_DATA_HOME/sapdraw/history, $XDG_CACHE_HOME/sapdraw; a variable that is not set, empty or
// relative stands for its default under $HOME. Fault where a place is neither given nor to be had from the environment.
[[nodiscard]] units::Result<Places> find_places(const GivenPlaces& given, const Environment& environment);

// $XDG_DATA_HOME/sapdraw, likewise: where the book lies unless --book says otherwise.
[[nodiscard]] units::Result<std::filesystem::path> data_folder(const Environment& environment);

}  // namespace settings
