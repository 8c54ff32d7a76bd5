#include "app/option_range.h"

#include <fmt/format.h>

namespace app {

units::Result<void> within(const std::string& option, std::optional<double> value, double lowest, double highest, const std::string& what) {
  if (!value || (*value >= lowest && *value <= highest)) return {};
  return units::fault(option, fmt::format("{}", *value), fmt::format("expected {} from {} to {}", what, lowest, highest));
}

}  // namespace app
