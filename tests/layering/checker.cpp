#include "layering/checker.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <sstream>

namespace layering {
namespace {

constexpr std::array<std::string_view, 12> pure_folders{"units",  "weather", "air",   "soil", "tree", "sapflow",
                                                        "uptake", "days",    "learn", "book", "plan", "text"};

constexpr std::array<std::string_view, 7> impure_headers{"iostream", "fstream", "filesystem", "print", "ctime", "time.h", "random"};
constexpr std::array<std::string_view, 7> impure_libraries{"nlohmann/", "curl/", "date/", "fmt/", "CLI/", "sqlite3", "sys/"};
// snprintf into a buffer of one's own is no output; the rest of <cstdio> and <cstdlib> is caught by name.
constexpr std::array<std::string_view, 9> impure_words{"getenv",       "std::cout",     "std::cerr", "std::rand",  "random_device",
                                                       "std::printf(", "std::fprintf(", "std::puts", "_clock::now"};

struct Line {
  std::size_t number;
  std::string code;  // without a trailing comment
};

std::vector<Line> code_lines(const std::string& text) {
  std::vector<Line> lines;
  std::istringstream in(text);
  std::string line;
  for (std::size_t number = 1; std::getline(in, line); ++number) lines.push_back({number, line.substr(0, line.find("//"))});
  return lines;
}

// What stands between the marks of an #include, with the opening mark: `"air/x.h` or `<vector`; empty elsewhere.
std::string included(const std::string& code) {
  const auto hash = code.find_first_not_of(" \t");
  if (hash == std::string::npos || code[hash] != '#') return {};
  const auto word = code.find_first_not_of(" \t", hash + 1);
  if (word == std::string::npos || code.compare(word, 7, "include") != 0) return {};
  const auto open = code.find_first_of("<\"", word);
  const auto close = code.find_first_of(">\"", open == std::string::npos ? open : open + 1);
  return close == std::string::npos ? std::string{} : code.substr(open, close - open);
}

std::string folder_of(std::string_view path) {
  const auto slash = path.find('/');
  return std::string(path.substr(0, slash == std::string_view::npos ? 0 : slash));
}

bool is_pure(std::string_view folder) { return std::ranges::find(pure_folders, folder) != pure_folders.end(); }

std::string at(const SourceFile& file, const Line& line) { return file.path + ":" + std::to_string(line.number) + ": "; }

// The forward declaration costs nothing and lets the files of an edge folder speak to each other.
bool needs_json(std::string_view include) {
  return include.find("nlohmann/") != std::string_view::npos && !include.ends_with("/json_fwd.hpp");
}

bool impure_include(std::string_view name) {
  return std::ranges::find(impure_headers, name) != impure_headers.end() ||
         std::ranges::any_of(impure_libraries, [&](std::string_view library) { return name.starts_with(library); });
}

}  // namespace

std::vector<Layer> read_layers(std::string_view text) {
  std::vector<Layer> layers;
  std::istringstream in{std::string(text)};
  std::string line;
  while (std::getline(in, line)) {
    const auto colon = line.find(':');
    if (colon == std::string::npos) continue;
    Layer layer{line.substr(0, colon), {}};
    std::istringstream links(line.substr(colon + 1));
    for (std::string link; links >> link;) layer.links.push_back(link);
    layers.push_back(layer);
  }
  return layers;
}

Faults link_faults(const std::vector<Layer>& layers) {
  Faults faults;
  std::vector<std::string> declared;
  for (const auto& layer : layers) {
    for (const auto& link : layer.links)
      if (std::ranges::find(declared, link) == declared.end())
        faults.push_back(layer.name + ": links " + link + ", which is not declared above it");
    declared.push_back(layer.name);
  }
  return faults;
}

Faults include_faults(const std::vector<Layer>& layers, const SourceFile& file) {
  const auto own = folder_of(file.path);
  const auto layer = std::ranges::find(layers, own, &Layer::name);
  if (layer == layers.end()) return {file.path + ": lies in a folder that src/CMakeLists.txt does not declare"};
  Faults faults;
  for (const auto& line : code_lines(file.text)) {
    const auto include = included(line.code);
    if (include.empty() || include.front() != '"') continue;
    const auto folder = folder_of(std::string_view(include).substr(1));
    if (folder.empty())
      faults.push_back(at(file, line) + include + "\" names no folder");
    else if (folder != own && std::ranges::find(layer->links, folder) == layer->links.end())
      faults.push_back(at(file, line) + include + "\", but src/" + own + " does not link " + folder);
  }
  return faults;
}

Faults purity_faults(const SourceFile& file) {
  const auto folder = folder_of(file.path);
  const bool pure = is_pure(folder);
  const bool header = file.path.ends_with(".h");
  Faults faults;
  for (const auto& line : code_lines(file.text)) {
    const auto include = included(line.code);
    if (pure && !include.empty() && impure_include(std::string_view(include).substr(1)))
      faults.push_back(at(file, line) + include.substr(1) + " has no place in a science folder");
    else if (header && needs_json(include))
      faults.push_back(at(file, line) + "JSON belongs in .cpp files, a header may only forward-declare it");
    for (const auto word : impure_words)
      if (pure && line.code.find(word) != std::string::npos)
        faults.push_back(at(file, line) + std::string(word) + " has no place in a science folder");
    if (!pure && folder != "cli" && line.code.find("system_clock::now") != std::string::npos)
      faults.push_back(at(file, line) + "only cli/ may ask the machine for the time");
  }
  return faults;
}

}  // namespace layering
