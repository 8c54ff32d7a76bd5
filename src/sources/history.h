// The kept weather of every cell, a file each in one folder.
#pragma once
#include <filesystem>
#include <optional>
#include <string>

#include "sources/cell.h"
#include "units/fault.h"
#include "weather/series.h"

namespace sources {

class History {
 public:
  explicit History(std::filesystem::path folder) : folder_(std::move(folder)) {}

  struct Recalled {
    weather::Series series;  // empty where nothing is kept
    // A file that makes no sense was set aside beside its place, ending in ".unreadable"; one that may not be opened stands where it is,
    // and must not be replaced.
    std::optional<units::Fault> fault;
    bool may_replace = true;
  };
  [[nodiscard]] Recalled recall(const Cell& cell) const;
  // To be held from recalling to keeping, so that two at once lose nothing of each other's.
  [[nodiscard]] std::filesystem::path lock_of(const Cell& cell) const;
  // Replaces what was kept in one step. Fault: the place cannot be written.
  [[nodiscard]] units::Result<void> keep(const Cell& cell, const weather::Series& series) const;

 private:
  [[nodiscard]] std::filesystem::path file(const Cell& cell) const;
  std::filesystem::path folder_;
};

}  // namespace sources
