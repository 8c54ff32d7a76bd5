// Trees without a book: the CSV of `--trees`. Good rows and refused ones come side by side, so that one bad line costs one tree.
#pragma once
#include <array>
#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/fault.h"
#include "units/quantity.h"
#include "units/site.h"
#include "units/time.h"

namespace feeds {

// One tree as its line says it. Species, zone and soil are kept as written: who knows the species, the zones and the soils decides on them.
struct TreeRow {
  std::size_t line = 0;  // in the file, from 1
  std::string tree;      // the id, unique in the file
  std::string name;      // may be empty
  std::string species;
  units::Centimetres dbh;  // 2..400
  units::Site site;
  std::string zone;
  std::string soil;
  std::optional<units::Litres> dose;              // 0.1..5000
  std::optional<int> ports;                       // 1..400
  std::optional<units::Metres> crown;             // mean crown diameter, 0.5..60
  std::optional<units::Fraction> crown_now;       // leaves now against a full crown, 0..1; the column is a percentage
  std::optional<units::LocalDay> full_leaf_on;    // full leaf seen on this day
  std::optional<std::chrono::minutes> leave_by;   // wall clock, after midnight
  std::optional<units::Fraction> rew_now;         // relative extractable water of the root zone, 0..1.5: above 1 it is draining
  std::optional<units::Fraction> probe;           // water content that a probe in the ground read, m3/m3; the column is a percentage
  std::optional<units::Centimetres> probe_depth;  // 1..150
  std::optional<std::size_t> soil_feel;           // place in `soil_feels`
  std::optional<units::LocalDay> soil_on;         // day of rew_now, probe and feel; absent: now
  std::optional<double> hole_diameter_mm;         // 2..30
  std::optional<units::Kilopascals> pressure;     // at the ports, 10..700
};

// Soil by feel and appearance, from dry to wet (USDA-NRCS): quarters of the available water, then field capacity.
inline constexpr std::array<std::string_view, 5> soil_feels{"dry", "slightly_moist", "moist", "wet", "field_capacity"};

struct RefusedTree {
  std::size_t line = 0;
  std::string tree;                  // as far as it could be read; may be empty
  std::vector<units::Fault> faults;  // at least one, in the order of the columns
};

struct TreesFile {
  std::vector<TreeRow> trees;         // in the order of the file
  std::vector<RefusedTree> refused;   // likewise
  std::vector<std::string> warnings;  // columns that are not known, one line each
};

// Header `tree,name,species,dbh_cm,lat,lon,elevation_m,zone,soil` in any order, and optionally
// `dose_l,ports,crown_m,crown_now_pct,full_leaf_on,leave_by,rew_now,probe_pct,probe_cm,soil_feel,soil_on,hole_diameter_mm,pressure_kpa`;
// an empty optional cell is absent.
// A Fault only where no tree can be read: no header, a required column missing or named twice. A second tree of one id is refused
// with both lines named.
[[nodiscard]] units::Result<TreesFile> read_trees(const std::string& name, std::string_view content);

}  // namespace feeds
