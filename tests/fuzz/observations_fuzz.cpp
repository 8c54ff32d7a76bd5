#include "feeds/nws_observations.h"

#include "fuzz/target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto record = feeds::read_nws_observations(fuzz::name, fuzz::text(data, size), {fuzz::now(), false, std::nullopt, std::nullopt});
  fuzz::check(record);
  if (record) fuzz::require(record->control.hours() > 0);
  return 0;
}
