// Where a crew drives, to whom, and what it finds there, as the book has it: for the head of a sheet.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/request.h"
#include "store/book.h"

namespace app {

// A line each, what is known of it: the site with its address; gate, dog, parking, water, tag; the client and the crew. `job`: of the book,
// where the sheet is for one.
[[nodiscard]] std::vector<std::string> place_of_tree(store::Book& book, const book::Record& tree, const std::optional<book::Record>& job);

}  // namespace app
