// Samples as a source gives them: the moment or the stretch of time that a number speaks of is part of its type,
// so that no reader ever works out where in a series it belongs. SeriesBuilder places them by the one convention of weather/variable.h.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include "units/fault.h"
#include "units/quantity.h"
#include "units/time.h"
#include "weather/series.h"

namespace weather {

struct Instant {
  units::UtcTime at;
  double value;
};
struct MeanOfPrecedingHour {
  units::UtcTime label;  // the end of the hour
  double value;
};
struct SumOfPrecedingHour {
  units::UtcTime label;
  double value;
};
struct MaximumOfPrecedingHour {
  units::UtcTime label;
  double value;
};
struct SumOfFollowingHour {
  units::UtcTime start;  // the hour begins here, so it is labelled an hour later
  double value;
};
// One value that holds over [from, until): an instant's variable takes it at every full hour from `from` until just before `until`;
// a maximum's or mean's takes it in every hour that starts in there.
struct IntervalHold {
  units::UtcTime from, until;
  double value;
};
// A total over [from, until), both full hours: spread evenly over its hours, which are marked `derived` because the source did not time it.
struct IntervalTotal {
  units::UtcTime from, until;
  double value;
};
using Sample =
    std::variant<Instant, MeanOfPrecedingHour, SumOfPrecedingHour, MaximumOfPrecedingHour, SumOfFollowingHour, IntervalHold, IntervalTotal>;

// A number that a source labels at the end of its hour, in the variable's own convention.
[[nodiscard]] Sample hour_ending(Variable variable, units::UtcTime label, double value);

// Which column of a soil layer a number belongs to.
enum class SoilQuantity { moisture, temperature };
struct SoilColumn {
  units::Metres top, bottom;  // below the surface
  SoilQuantity quantity;
};
// Water fills at most the pores (an organic soil's 0.9), m3/m3; temperatures in C.
inline constexpr double lowest_soil_moisture = 0.0, highest_soil_moisture = 1.0;
inline constexpr double lowest_soil_temperature_c = -40.0, highest_soil_temperature_c = 70.0;

// Who speaks: decides what an hour before and after `now` is called (weather::Provenance).
enum class Origin : std::uint8_t { station, model };

// The longest stretch that one series may cover: a typing error in a year must not ask for the machine's memory.
inline constexpr std::chrono::hours longest_series{24 * 366 * 60};

class SeriesBuilder {
 public:
  SeriesBuilder(Origin origin, units::UtcTime now) : origin_(origin), now_(now) {}

  // Within one variable samples come in rising order of time and never speak twice of one hour.
  // Faults (with `where` left empty for the reader to fill): a value outside traits(variable), a time off the full hour,
  // a time that does not rise, a stretch longer than longest_series, a sample whose kind does not fit the variable (rain as an instant).
  [[nodiscard]] units::Result<void> add(Variable variable, const Sample& sample);
  [[nodiscard]] units::Result<void> add(const SoilColumn& column, const Instant& sample);

  // First and last label that hold a value; empty before any sample.
  struct Extent {
    units::UtcHour first, last;
  };
  [[nodiscard]] std::optional<Extent> extent() const;

  // The series over the hours of `extent`, at least one; soil layers from the surface down. Samples outside are left out.
  [[nodiscard]] Series build(const Extent& extent) const;

 private:
  struct Placed {
    units::UtcHour label;
    double value;
    Provenance provenance;
  };
  using Track = std::vector<Placed>;
  struct SoilTrack {
    SoilColumn column;
    Track placed;
  };

  [[nodiscard]] units::Result<void> place(Track& track, units::UtcTime label, double value, bool derived);

  Origin origin_;
  units::UtcTime now_;
  std::array<Track, variable_count> tracks_;
  std::vector<SoilTrack> soil_;
};

}  // namespace weather
