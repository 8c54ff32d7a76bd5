// The trees that a command is about: of a list (CSV), or of the office's book.
#pragma once
#include <filesystem>
#include <optional>
#include <string>

#include "app/outcome.h"
#include "app/request.h"
#include "feeds/trees_csv.h"
#include "sources/cell.h"
#include "store/book.h"

namespace app {

struct TreeList {
  std::string name;  // as faults call it: "trees.csv", or "the book"
  feeds::TreesFile file;
  std::vector<sources::PlacedSite> sites;  // of all that the list or the book has: a cell of weather is made of all of them
};

// `trees` empty: the book. There the one tree asked for; else those of open bookings and those that are due; where there is neither, all.
// Empty where the list cannot be read, with the line in `outcome`.
[[nodiscard]] std::optional<TreeList> read_tree_list(const Common& common, const std::filesystem::path& trees, const std::string& only_tree,
                                                     Outcome& outcome);

// A tree of the book as a line of a list would say it: its site's place, zone and soil, its latest diameter. Refused where something is
// missing.
[[nodiscard]] tl::expected<feeds::TreeRow, feeds::RefusedTree> tree_row(store::Book& book, const book::Record& tree);

}  // namespace app
