// Instants of the tests' day: at(13) is 13:00 UTC, at(25) an hour past midnight.
#pragma once
#include <chrono>

#include "units/time.h"

[[nodiscard]] inline units::UtcHour at(int hour) {
  return std::chrono::sys_days{std::chrono::year{2026} / 7 / 15} + std::chrono::hours{hour};
}
