#include "app/settings_file.h"

#include "app/files.h"
#include "app/office.h"

namespace app {

units::Result<settings::Settings> settings_of(const std::filesystem::path& config, bool given) {
  std::error_code error;
  if (!given && !std::filesystem::exists(config, error)) return settings::Settings{};
  const auto content = read_file(config);
  if (!content) return tl::make_unexpected(content.error());
  return settings::read_settings(config.filename().string(), *content);
}

units::Result<settings::Settings> settings_for(const Common& common, const std::optional<std::filesystem::path>& config) {
  const auto places = settings::find_places({config, {}, {}}, common.around->environment);
  if (!places) return tl::make_unexpected(places.error());
  return settings_of(places->config, config.has_value());
}

}  // namespace app
