#include "app/one_tree.h"

#include "app/tree_list.h"

namespace app {

std::optional<TreeInFull> one_tree(const Common& common, const std::filesystem::path& trees, const std::string& id, Outcome& outcome) {
  const auto list = read_tree_list(common, trees, id, outcome);
  if (!list) return std::nullopt;
  const feeds::TreesFile& file = list->file;
  std::optional<TreeInFull> found;
  for (const feeds::TreeRow& row : file.trees) {
    if (row.tree != id) continue;
    auto tree = tree_in_full(common.models, list->name, row, common.now);
    if (tree)
      found = std::move(*tree);
    else
      outcome.refuse(tree.error());
  }
  const auto refuse_lines_of = [&](const std::string& whose) {
    for (const feeds::RefusedTree& refused : file.refused)
      if (refused.tree == whose)
        for (const units::Fault& fault : refused.faults) outcome.refuse(fault);
  };
  refuse_lines_of(id);
  if (found || outcome.exit != Exit::done) return found;
  // It may stand in a line whose id could not be read.
  refuse_lines_of("");
  if (outcome.exit == Exit::done) outcome.refuse({"--tree", id, "expected an id of " + list->name});
  return std::nullopt;
}

}  // namespace app
