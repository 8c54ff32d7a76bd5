#include "feeds/nws_points.h"

#include "fuzz/target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto point = feeds::read_nws_point(fuzz::name, fuzz::text(data, size));
  fuzz::check(point);
  if (point) fuzz::require(!point->grid_id.empty() && point->grid_x >= 0 && point->grid_y >= 0);
  return 0;
}
