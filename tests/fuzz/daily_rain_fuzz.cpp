#include "feeds/daily_rain.h"

#include "fuzz/target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto days = feeds::read_daily_rain(fuzz::name, fuzz::text(data, size));
  fuzz::check(days);
  if (!days) return 0;
  for (std::size_t i = 1; i < days->size(); ++i) fuzz::require((*days)[i - 1].day < (*days)[i].day);
  return 0;
}
