// A flare as a ring of cells: where a port may stand, and how far the best height there is from the old ports.
#pragma once
#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

#include "book/flare_record.h"
#include "book/place_rules.h"

namespace book {

inline constexpr double finest_cell_cm = 0.5;    // cells are at most this wide and divide the flare evenly
inline constexpr double finest_height_cm = 1.0;  // heights are tried at most this far apart

struct HeightRange {
  double low_cm = 0.0;
  double high_cm = 0.0;  // >= low_cm
};

// How far a place is from one old port. `share` 1 is just far enough: the root of the squares of sideways and height distance, each over
// what is wanted.
struct FromOld {
  std::size_t old_port = 0;  // index in FlareRecord::old_ports
  double sideways_cm = 0.0;  // new minus old, the shorter way round: positive clockwise
  double above_cm = 0.0;     // new minus old; 0 where the old height is not known
  double share = 0.0;
};

class FlareGround {
 public:
  // Keeps a reference to `record`. Requires flare_cm > 0, finite numbers, heights in order.
  FlareGround(const FlareRecord& record, double flare_cm, HeightRange heights, const PlaceRules& rules);

  [[nodiscard]] std::size_t cells() const { return open_.size(); }
  [[nodiscard]] double cell_cm() const { return flare_cm_ / static_cast<double>(cells()); }
  [[nodiscard]] double at_cm(std::size_t cell) const { return static_cast<double>(cell) * cell_cm(); }
  // On a ridge where ridges are given, and out of bad stretches and their margin.
  [[nodiscard]] const std::vector<bool>& open() const { return open_; }
  // Share (FromOld) of the nearest old port at the best height; infinite without old ports. To a millionth, so that equals are equal.
  [[nodiscard]] const std::vector<double>& share() const { return share_; }

  // The lowest height at a cell whose share reaches `wanted`, or reaches the cell's own where that is less.
  [[nodiscard]] double height_cm(std::size_t cell, double wanted) const;
  // Empty without old ports.
  [[nodiscard]] std::optional<FromOld> nearest(double clockwise_cm, double height_cm) const;

 private:
  struct Old {
    double at_cm;      // on the flare of now
    double beside_cm;  // distances wanted from it
    double in_line_cm;
    std::optional<double> height_cm;
  };

  void shut_all_but_ridges();
  void shut_bad();
  [[nodiscard]] FromOld from(std::size_t old_port, double clockwise_cm, double height_cm) const;
  [[nodiscard]] double share_squared(const Old& old, double sideways_cm, double height_cm) const;
  [[nodiscard]] double share_at(std::size_t cell, double height_cm) const;

  const FlareRecord& record_;
  double flare_cm_;
  PlaceRules rules_;
  std::vector<Old> old_;  // as in the record
  std::vector<double> heights_;
  std::vector<bool> open_;
  std::vector<double> share_;
};

}  // namespace book
