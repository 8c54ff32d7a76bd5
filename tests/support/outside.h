// Data that is not part of the project: open data sets in a directory named by the environment variable SAPDRAW_OUTSIDE_DATA.
#pragma once
#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <optional>
#include <string>

// The path of a file or folder in the outside data; without it a reason is printed and the test is to return.
[[nodiscard]] inline std::optional<std::filesystem::path> outside_data(const std::string& name) {
  const char* root = std::getenv("SAPDRAW_OUTSIDE_DATA");
  if (root == nullptr || *root == '\0') {
    MESSAGE("skipped: SAPDRAW_OUTSIDE_DATA is not set, so " << name << " is out of reach");
    return std::nullopt;
  }
  std::filesystem::path path = std::filesystem::path(root) / name;
  if (!std::filesystem::exists(path)) {
    MESSAGE("skipped: no " << name << " in SAPDRAW_OUTSIDE_DATA");
    return std::nullopt;
  }
  return path;
}
