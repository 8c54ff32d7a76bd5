// A copy of the shipped models/ that a test may spoil, gone when the test ends.
#pragma once
#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "params/models.h"

inline const std::filesystem::path shipped_models{std::filesystem::path{SAPDRAW_SOURCE_DIR} / "models"};

class ScratchModels {
 public:
  using Json = nlohmann::ordered_json;

  ScratchModels() {
    std::filesystem::remove_all(directory_);
    std::filesystem::copy(shipped_models, directory_);
  }
  ~ScratchModels() { std::filesystem::remove_all(directory_); }
  ScratchModels(const ScratchModels&) = delete;
  ScratchModels& operator=(const ScratchModels&) = delete;

  [[nodiscard]] const std::filesystem::path& directory() const { return directory_; }

  void write(const std::string& file, const std::string& text) const { std::ofstream{directory_ / file} << text; }

  [[nodiscard]] std::string read(const std::string& file) const {
    std::ifstream stream{directory_ / file};
    return {std::istreambuf_iterator<char>{stream}, {}};
  }

  // Lets `change` spoil the parsed file.
  template <class Change>
  void spoil(const std::string& file, Change change) const {
    Json json = Json::parse(read(file));
    change(json);
    write(file, json.dump(1));
  }

  // The line that loading gives, without the scratch directory's own path; "loaded" if it loads.
  [[nodiscard]] std::string line(const std::optional<std::string>& owner_file = std::nullopt) const {
    const auto models = owner_file ? params::load_models(directory_, directory_ / *owner_file) : params::load_models(directory_);
    if (models) return "loaded";
    std::string text = models.error().line();
    const std::string prefix = directory_.string() + "/";
    const auto at = text.find(prefix);
    return at == std::string::npos ? text : text.erase(at, prefix.size());
  }

 private:
  std::filesystem::path directory_ = std::filesystem::temp_directory_path() / ("sapdraw-models-" + std::to_string(::getpid()));
};
