#include "feeds/table_csv.h"

#include "fuzz/target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzz::check(feeds::read_table(fuzz::name, fuzz::text(data, size)));
  return 0;
}
