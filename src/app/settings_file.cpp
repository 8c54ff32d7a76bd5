#include "app/settings_file.h"

#include "app/files.h"

namespace app {

units::Result<settings::Settings> settings_of(const std::filesystem::path& config, bool given) {
  std::error_code error;
  if (!given && !std::filesystem::exists(config, error)) return settings::Settings{};
  const auto content = read_file(config);
  if (!content) return tl::make_unexpected(content.error());
  return settings::read_settings(config.filename().string(), *content);
}

}  // namespace app
