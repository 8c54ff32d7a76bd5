// The rules applied to the tree as it stands.
#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "layering/checker.h"

namespace {

namespace fs = std::filesystem;

std::string content(const fs::path& path) {
  std::ifstream in(path);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::vector<layering::SourceFile> source_files() {
  const fs::path src = fs::path(SAPDRAW_SOURCE_DIR) / "src";
  std::vector<layering::SourceFile> files;
  for (const auto& entry : fs::recursive_directory_iterator(src))
    if (entry.path().extension() == ".h" || entry.path().extension() == ".cpp")
      files.push_back({fs::relative(entry.path(), src).generic_string(), content(entry.path())});
  return files;
}

void report(const layering::Faults& faults) {
  for (const auto& fault : faults) FAIL_CHECK(fault);
}

}  // namespace

TEST_SUITE("layering") {
  TEST_CASE("every folder of src links only what is declared above it and includes only what it links") {
    const auto layers = layering::read_layers(content(fs::path(SAPDRAW_BUILD_DIR) / "layers.txt"));
    REQUIRE(layers.size() > 1);
    report(layering::link_faults(layers));
    const auto files = source_files();
    REQUIRE(files.size() > layers.size());
    for (const auto& file : files) report(layering::include_faults(layers, file));
  }

  TEST_CASE("science folders are pure, JSON stays in .cpp files and only cli knows the time") {
    for (const auto& file : source_files()) report(layering::purity_faults(file));
  }
}
