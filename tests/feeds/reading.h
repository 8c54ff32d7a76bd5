// How the tests of feeds/ read and ask.
#pragma once
#include <doctest/doctest.h>

#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>

#include "feeds/read.h"

[[nodiscard]] inline units::UtcTime utc(std::string_view text) {
  const auto time = units::parse_instant(text);
  REQUIRE(time);
  return *time;
}

[[nodiscard]] inline std::string bytes_of(const std::string& path) {
  std::ifstream file{path, std::ios::binary};
  REQUIRE_MESSAGE(file, path);
  return {std::istreambuf_iterator<char>{file}, {}};
}

// Noon of the day that most samples of these tests describe.
[[nodiscard]] inline feeds::ReadOptions noon() { return {utc("2026-07-06T12:00Z"), false, std::nullopt, std::nullopt}; }

[[nodiscard]] inline weather::Forecast read_one(std::string_view content, const feeds::ReadOptions& options = noon()) {
  auto forecasts = feeds::read_weather("sample", content, options);
  if (!forecasts) FAIL(forecasts.error().line());
  REQUIRE(forecasts->size() == 1);
  return forecasts->front();
}

[[nodiscard]] inline std::string refusal(std::string_view content, const feeds::ReadOptions& options = noon()) {
  const auto forecasts = feeds::read_weather("sample", content, options);
  return forecasts ? "was read" : forecasts.error().line();
}

// The value at a UTC label; empty where missing or outside the series.
[[nodiscard]] inline std::optional<double> value_at(const weather::Series& series, weather::Variable variable, std::string_view label) {
  const auto hour = series.index_of(std::chrono::floor<std::chrono::hours>(utc(label)));
  return hour ? series.at(variable, *hour) : std::nullopt;
}

[[nodiscard]] inline weather::Provenance provenance_at(const weather::Series& series, weather::Variable variable, std::string_view label) {
  const auto hour = series.index_of(std::chrono::floor<std::chrono::hours>(utc(label)));
  return hour ? series[variable].provenance(*hour) : weather::Provenance::missing;
}
