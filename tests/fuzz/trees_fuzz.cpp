#include "feeds/trees_csv.h"

#include "fuzz/target.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto file = feeds::read_trees(fuzz::name, fuzz::text(data, size));
  fuzz::check(file);
  if (!file) return 0;
  for (const auto& tree : file->refused) fuzz::require(!tree.faults.empty());
  return 0;
}
