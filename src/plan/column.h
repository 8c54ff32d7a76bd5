// A crew's day as one piece: who is visited, and what that brings.
#pragma once
#include <cstdint>
#include <unordered_map>
#include <vector>

#include "plan/ground.h"

namespace plan {

struct Column {
  int slot = 0;
  Stops stops;         // locked jobs of the slot included; sorted
  double value = 0.0;  // gains less driving
  bool rig = false;
};

// Requires stops that keep the slot's rules.
[[nodiscard]] Column column_of(const Ground& ground, int slot, const Stops& stops);

// Columns, each once, in the order of their coming.
class Pool {
 public:
  // False: it was there already.
  bool add(const Column& column);
  [[nodiscard]] const std::vector<Column>& columns() const { return columns_; }

 private:
  std::vector<Column> columns_;
  std::unordered_multimap<std::uint64_t, std::size_t> by_hash_;
};

}  // namespace plan
