// Writes entries over and over, each a body of one letter: killed at any moment it must leave whole entries only.
#include <cstdlib>
#include <string>

#include "net/cache.h"

int main(int count, char** arguments) {
  if (count != 3) return 2;
  net::Cache cache{arguments[1], 64u << 20};
  for (unsigned n = static_cast<unsigned>(std::strtoul(arguments[2], nullptr, 10));; ++n) {
    net::Entry entry;
    entry.url = "https://weather.example/" + std::to_string(n % 4);
    entry.status = 200;
    entry.body.assign(20'000 + 100 * (n % 300), static_cast<char>('a' + n % 26));
    if (!cache.put(entry)) return 3;
  }
}
