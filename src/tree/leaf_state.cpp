#include "tree/leaf_state.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "air/sun.h"

namespace tree {
namespace {

using std::chrono::days;
using units::LocalDay;

// The latest 1 January (north) or 1 July (south) that is not after `day`: thermal time starts there.
LocalDay midwinter_before(LocalDay day, bool south) {
  const std::chrono::year_month_day ymd{day};
  const auto start = [&](std::chrono::year y) { return LocalDay{y / (south ? std::chrono::July : std::chrono::January) / 1}; };
  return start(ymd.year()) <= day ? start(ymd.year()) : start(ymd.year() - std::chrono::years{1});
}

// Mean temperature of a day before the record begins: the record's own level, moved along the yearly wave.
class EarlierDays {
 public:
  EarlierDays(const LeafCalendar& calendar, const DailyTemperatures& record, LocalDay midwinter)
      : amplitude_(calendar.season_amplitude_c), midwinter_(midwinter) {
    const auto n = std::min<std::size_t>(record.mean_c.size(), 14);
    const double mean = std::accumulate(record.mean_c.begin(), record.mean_c.begin() + static_cast<std::ptrdiff_t>(n), 0.0) / static_cast<double>(n);
    level_ = mean - wave(record.first_day + days{static_cast<int>(n / 2)});
  }
  [[nodiscard]] double mean_c(LocalDay day) const { return level_ + wave(day); }

 private:
  [[nodiscard]] double wave(LocalDay day) const {
    constexpr double warmest_day = 203.0;  // after midwinter: three weeks after midsummer
    const double since = static_cast<double>((day - midwinter_).count());
    return amplitude_ * std::cos(2.0 * std::numbers::pi * (since - warmest_day) / 365.25);
  }
  double amplitude_, level_ = 0.0;
  LocalDay midwinter_;
};

std::optional<LocalDay> leaf_out_day(const LeafCalendar& calendar, const DailyTemperatures& record, LocalDay midwinter, LocalDay until) {
  const EarlierDays earlier{calendar, record, midwinter};
  const LocalDay record_end = record.first_day + days{static_cast<int>(record.mean_c.size())};
  double degree_days = 0.0;
  for (LocalDay day = midwinter; day <= until; day += days{1}) {
    const double mean = day < record.first_day  ? earlier.mean_c(day)
                        : day < record_end      ? record.mean_c[static_cast<std::size_t>((day - record.first_day).count())]
                                                : record.mean_c.back();
    degree_days += std::max(0.0, mean - calendar.thermal_base_c);
    if (degree_days >= calendar.leaf_out_degree_days) return day;
  }
  return std::nullopt;
}

// The first day after midsummer that is shorter than the colouring length; leaves colour and fall from there.
std::optional<LocalDay> colouring_day(const LeafCalendar& calendar, units::Degrees latitude, LocalDay midwinter, LocalDay until) {
  for (LocalDay day = midwinter + days{172}; day <= until; day += days{1})
    if (air::daylight(air::solar_day(units::day_of_year(day), latitude)).value < calendar.colouring_day_length_h) return day;
  return std::nullopt;
}

double share_of(LocalDay from, LocalDay day, double length_days) {
  return std::clamp(static_cast<double>((day - from).count()) / length_days, 0.0, 1.0);
}

}  // namespace

std::optional<LocalDay> season_end(const LeafCalendar& calendar, units::Degrees latitude, int year) {
  const LocalDay midwinter{std::chrono::year{year} / (latitude.value < 0.0 ? std::chrono::July : std::chrono::January) / 1};
  return colouring_day(calendar, latitude, midwinter, midwinter + days{365});
}

LeafState leaf_state(const LeafCalendar& calendar, units::Degrees latitude, const DailyTemperatures& temperatures,
                     std::optional<LocalDay> full_leaf_seen, LocalDay day) {
  if (calendar.leaf_out_degree_days <= 0.0) return {LeafStage::full, 1.0};
  const LocalDay midwinter = midwinter_before(day, latitude.value < 0.0);
  if (const auto colouring = colouring_day(calendar, latitude, midwinter, day)) {
    const double left = 1.0 - share_of(*colouring, day, calendar.fall_days);
    return left > 0.0 ? LeafState{LeafStage::colouring, left} : LeafState{LeafStage::bare, 0.0};
  }
  const bool seen = full_leaf_seen && *full_leaf_seen <= day && *full_leaf_seen >= midwinter;
  if (seen) return {LeafStage::full, 1.0};
  const auto leaf_out = leaf_out_day(calendar, temperatures, midwinter, day);
  if (!leaf_out) return {LeafStage::bare, 0.0};
  const double share = share_of(*leaf_out, day, calendar.expansion_days);
  return {share < 1.0 ? LeafStage::expanding : LeafStage::full, share};
}

}  // namespace tree
