// Feeds whole files to one fuzz target without a fuzzer: the seeds in the suite, and a find while it is being mended.
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

#include "fuzz/target.h"

int main(int count, char** files) {
  int replayed = 0;
  for (int i = 1; i < count; ++i) {
    std::ifstream file{files[i], std::ios::binary};
    if (!file) {
      std::cerr << files[i] << ": expected a file that can be read\n";
      return 1;
    }
    const std::string bytes{std::istreambuf_iterator<char>{file}, {}};
    // Every whole file, and the same cut off half-way.
    for (const std::size_t size : {bytes.size(), bytes.size() / 2})
      LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), size);
    ++replayed;
  }
  std::cout << replayed << " seeds replayed\n";
  return replayed > 0 ? 0 : 1;
}
