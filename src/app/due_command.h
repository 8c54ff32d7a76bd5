// Which trees are due for their next treatment: those that cannot wait, then by the day by which they should be done.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/outcome.h"
#include "app/request.h"
#include "book/due.h"
#include "store/book.h"

namespace app {

struct DueRequest {
  std::size_t limit = 50;  // 0: all
};

struct DueTree {
  store::LastTreated tree;
  std::optional<book::Due> due;  // none: never treated
  bool urgent = false;           // does not wait: marked so, or a diseased tree was seen nearby
};

// Urgent ones first, then by the day by which they should be done.
[[nodiscard]] std::vector<DueTree> due_trees(store::Book& book, const Common& common, std::size_t limit);

[[nodiscard]] Outcome due_command(const Common& common, const DueRequest& request);

}  // namespace app
