#include "feeds/read.h"

#include "fuzz/target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto forecasts = feeds::read_weather(fuzz::name, fuzz::text(data, size), {fuzz::now(), false, std::nullopt, std::nullopt});
  fuzz::check(forecasts);
  if (forecasts) fuzz::require(!forecasts->empty());
  return 0;
}
