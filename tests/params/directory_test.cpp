#include "params/directory.h"

#include <doctest/doctest.h>
#include <unistd.h>

#include <fstream>
#include <string>

namespace fs = std::filesystem;

namespace {

class ScratchTree {
 public:
  ScratchTree() { fs::remove_all(root); }
  ~ScratchTree() { fs::remove_all(root); }
  ScratchTree(const ScratchTree&) = delete;
  ScratchTree& operator=(const ScratchTree&) = delete;

  fs::path models_at(const fs::path& place) const {
    fs::create_directories(root / place);
    std::ofstream{root / place / "references.json"} << "{}";
    return root / place;
  }

  fs::path root = fs::temp_directory_path() / ("sapdraw-places-" + std::to_string(::getpid()));
};

}  // namespace

TEST_SUITE("params") {
  TEST_CASE("models are found above a build folder of the source tree, and first beside an installed program") {
    const ScratchTree tree;
    const fs::path in_tree = tree.models_at("models");
    CHECK(params::find_models_directory({std::nullopt, tree.root / "build" / "release"}).value() == in_tree);
    const fs::path installed = tree.models_at("build/share/sapdraw/models");
    CHECK(params::find_models_directory({std::nullopt, tree.root / "build" / "release"}).value() == installed);
  }

  TEST_CASE("a directory that was asked for is the only one tried") {
    const ScratchTree tree;
    tree.models_at("models");
    const fs::path other = tree.models_at("other");
    CHECK(params::find_models_directory({other, tree.root}).value() == other);
    const auto missing = params::find_models_directory({tree.root / "nowhere", tree.root});
    REQUIRE_FALSE(missing);
    CHECK(missing.error().line() == "models: expected a directory with references.json, looked in " + (tree.root / "nowhere").string());
  }
}
