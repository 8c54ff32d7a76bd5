// How a fuzz target asks its reader, and what every reader owes for any bytes at all: a value, or a fault of one line about the input.
#pragma once
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "units/fault.h"
#include "units/time.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace fuzz {

inline constexpr const char* name = "fuzzed";

[[nodiscard]] inline std::string_view text(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

// Noon of the day that the samples describe.
[[nodiscard]] inline units::UtcTime now() { return *units::parse_instant("2026-07-06T12:00Z"); }

// abort() and not a check: the fuzzer, and the replay in the suite, take a crash for a find.
inline void require(bool owed) {
  if (!owed) std::abort();
}

template <class T>
void check(const units::Result<T>& result) {
  if (result) return;
  require(result.error().where.starts_with(name));
  require(result.error().line().find('\n') == std::string::npos);
}

}  // namespace fuzz
