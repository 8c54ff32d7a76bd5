#include "feeds/rain_stations.h"

#include "fuzz/target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzz::check(
      feeds::read_rain_stations(fuzz::name, fuzz::text(data, size), {units::Degrees{44.2}, units::Degrees{-93.4}, units::Metres{300.0}}));
  return 0;
}
