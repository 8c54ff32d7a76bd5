// A name that nothing has yet.
#pragma once
#include <filesystem>
#include <string>

namespace store {

// `wanted`, or the first of `wanted`-2, `wanted`-3... (before its extension) that is free.
[[nodiscard]] inline std::filesystem::path free_name(const std::filesystem::path& wanted) {
  std::filesystem::path name = wanted;
  std::error_code error;
  for (int more = 2; std::filesystem::exists(name, error); ++more)
    name = wanted.parent_path() / (wanted.stem().string() + "-" + std::to_string(more) + wanted.extension().string());
  return name;
}

}  // namespace store
