#include "settings/places.h"

namespace settings {
namespace {

using std::filesystem::path;

// The specification has relative paths ignored.
std::optional<path> absolute(const Environment& environment, const char* name) {
  const auto value = environment(name);
  if (!value || value->empty() || !path{*value}.is_absolute()) return std::nullopt;
  return path{*value};
}

struct Kind {
  const char* option;
  const char* variable;
  const char* under_home;
  const char* name;
};

units::Result<path> place(const std::optional<path>& given, const Kind& kind, const Environment& environment) {
  if (given) return *given;
  if (const auto base = absolute(environment, kind.variable)) return *base / kind.name;
  if (const auto home = absolute(environment, "HOME")) return *home / kind.under_home / kind.name;
  return units::fault(kind.option, "", std::string{"expected a path: neither "} + kind.variable + " nor HOME is set");
}

}  // namespace

units::Result<Places> find_places(const GivenPlaces& given, const Environment& environment) {
  const auto config = place(given.config, {"--config", "XDG_CONFIG_HOME", ".config", "sapdraw/config.toml"}, environment);
  if (!config) return tl::make_unexpected(config.error());
  const auto history = place(given.history, {"--history", "XDG_DATA_HOME", ".local/share", "sapdraw/history"}, environment);
  if (!history) return tl::make_unexpected(history.error());
  const auto cache = place(given.cache, {"--cache", "XDG_CACHE_HOME", ".cache", "sapdraw"}, environment);
  if (!cache) return tl::make_unexpected(cache.error());
  return Places{*config, *history, *cache};
}

units::Result<path> data_folder(const Environment& environment) {
  return place(std::nullopt, {"--book", "XDG_DATA_HOME", ".local/share", "sapdraw"}, environment);
}

}  // namespace settings
