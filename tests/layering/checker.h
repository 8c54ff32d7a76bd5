// Who may include what: the rules of the folders of src/, checked on text so that the checker itself can be tested.
// The link lists come from the build (src/CMakeLists.txt writes layers.txt), so they cannot drift from what is linked.
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace layering {

// One folder of src/ with the folders it links, in the order in which they are declared.
struct Layer {
  std::string name;
  std::vector<std::string> links;
};

struct SourceFile {
  std::string path;  // below src/: "air/humidity.h"
  std::string text;
};

// What is wrong, one line each, starting with the folder or `path:line`; empty when nothing is.
using Faults = std::vector<std::string>;

// Lines `name: link link`.
[[nodiscard]] std::vector<Layer> read_layers(std::string_view text);

// A folder that links itself or one that is not declared above it: the way every circle begins.
[[nodiscard]] Faults link_faults(const std::vector<Layer>& layers);

// A quoted include must read "folder/file" of the file's own folder or of one that it links itself: reaching a
// folder through another one does not count, or the link list would stop telling what a folder knows.
[[nodiscard]] Faults include_faults(const std::vector<Layer>& layers, const SourceFile& file);

// Input, output, clock, environment and hidden randomness in a science folder; JSON there or in full in any header;
// the machine's clock anywhere but in cli/, which hands `now` to everybody else.
[[nodiscard]] Faults purity_faults(const SourceFile& file);

}  // namespace layering
