// Replies that tests read whole: the invented ones of weather-samples, and the recordings outside the project.
#pragma once
#include <optional>
#include <string>

#include "feeds/reading.h"
#include "support/outside.h"

[[nodiscard]] inline std::string sample_bytes(const std::string& name) { return bytes_of(SAPDRAW_SOURCE_DIR "/weather-samples/" + name); }

// Bytes of a recording; empty, with the reason printed, where the outside data are not here.
[[nodiscard]] inline std::optional<std::string> recorded(const std::string& name) {
  const auto path = outside_data("weather-recordings/" + name);
  return path ? std::optional{bytes_of(path->string())} : std::nullopt;
}
