#include "feeds/ports_csv.h"

#include "fuzz/target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzz::check(feeds::read_ports(fuzz::name, fuzz::text(data, size)));
  return 0;
}
