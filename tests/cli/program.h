// The program as a process: what it printed and how it ended; and scratch files to feed it.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

struct Ran {
  int exit = -1;  // 128 + number where a signal ended it
  std::string out, err;
};

using Arguments = std::vector<std::string>;

// Runs build/.../sapdraw in the top of the source tree, with neither terminal nor NO_COLOR.
[[nodiscard]] Ran sapdraw(const Arguments& arguments);
// The same with stdout going to `device`.
[[nodiscard]] Ran sapdraw_onto(const std::string& device, const Arguments& arguments);
// The same with stdout a pipe that nobody reads.
[[nodiscard]] Ran sapdraw_unread(const Arguments& arguments);

[[nodiscard]] std::vector<std::string> lines_of(const std::string& text);
// In code points, as a terminal shows them.
[[nodiscard]] std::size_t widest_line(const std::string& text);

[[nodiscard]] std::string content_of(const std::filesystem::path& file);

// A folder of its own, gone when the test ends.
class Scratch {
 public:
  Scratch();
  ~Scratch();
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;

  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
  // Writes a file and gives its path.
  [[nodiscard]] std::string file(const std::string& name, const std::string& content) const;

 private:
  std::filesystem::path folder_;
};

// The demo's fortnight and its present; an elm of its list.
inline const std::string demo_weather = "weather-samples/demo-fortnight.json";
inline const std::string demo_trees = "weather-samples/trees.csv";
inline const std::string demo_now = "2026-07-06T10:30Z";
// Header and one good line of a tree list.
inline const std::string tree_header = "tree,name,species,dbh_cm,lat,lon,elevation_m,zone,soil";
inline const std::string good_tree = "elm-1,Church elm,Ulmus americana,95,43.70,-91.90,320,America/Chicago,loam";
