// A line of the tree list, made into what the science asks about: species, soil and zone looked up, ports and dose settled.
#pragma once
#include <string>

#include "app/request.h"
#include "app/site_hours.h"
#include "days/tree_case.h"
#include "feeds/trees_csv.h"

namespace app {

struct TreeInFull {
  feeds::TreeRow row;
  tree::Species species;
  soil::Texture texture;
  days::TreeCase tree;
  Ground ground;
  LeafFacts leaves;
  std::string dose_from;  // "tree list", "book" or "common practice"
};

// `around`: zone offsets are loaded for a year before and after it. Fault, naming file line and field: species, soil or zone unknown.
[[nodiscard]] units::Result<TreeInFull> tree_in_full(const params::Models& models, const std::string& file, const feeds::TreeRow& row,
                                                     units::UtcTime around);

}  // namespace app
