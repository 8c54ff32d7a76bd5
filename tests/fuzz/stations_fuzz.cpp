#include "feeds/nws_stations.h"

#include "fuzz/target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const units::Site place{units::Degrees{44.2}, units::Degrees{-93.4}, units::Metres{300.0}};
  fuzz::check(feeds::read_nws_stations(fuzz::name, fuzz::text(data, size), place));
  return 0;
}
