#include "params/directory.h"

#include <string>
#include <vector>

namespace params {
namespace {

bool holds_models(const std::filesystem::path& directory) {
  std::error_code ignored;
  return std::filesystem::is_regular_file(directory / "references.json", ignored);
}

}  // namespace

units::Result<std::filesystem::path> find_models_directory(const Places& places) {
  std::vector<std::filesystem::path> tried;
  if (places.given) {
    tried.push_back(*places.given);
  } else {
    std::filesystem::path folder = places.program_directory;
    tried.push_back((folder / ".." / "share" / "sapdraw" / "models").lexically_normal());
    for (int above = 0; above <= 4; ++above) {
      tried.push_back(folder / "models");
      if (!folder.has_parent_path() || folder.parent_path() == folder) break;
      folder = folder.parent_path();
    }
  }
  std::string list;
  for (const std::filesystem::path& directory : tried) {
    if (holds_models(directory)) return directory;
    list += (list.empty() ? "" : ", ") + directory.string();
  }
  return units::fault("models", "", "expected a directory with references.json, looked in " + list);
}

}  // namespace params
