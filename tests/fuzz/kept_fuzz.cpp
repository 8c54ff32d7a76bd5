#include "feeds/kept_series.h"

#include "fuzz/target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto read = feeds::read_kept(fuzz::name, fuzz::text(data, size));
  fuzz::check(read);
  // What is read is written in our own way, and read again alike.
  if (read) fuzz::require(feeds::write_kept(*feeds::read_kept(fuzz::name, feeds::write_kept(*read))) == feeds::write_kept(*read));
  return 0;
}
