#include "book/due.h"

#include <algorithm>

namespace book {
namespace {

using std::chrono::days;
using units::LocalDay;

// The first day of that date, half a year later in the south, that is not before `from`.
LocalDay next(LocalDay from, int day_of_common_year, bool south) {
  const std::chrono::year_month_day date{LocalDay{std::chrono::year{2025} / std::chrono::January / 1} + days{day_of_common_year - 1}};
  const std::chrono::month month = date.month() + std::chrono::months{south ? 6 : 0};
  const auto in = [&](std::chrono::year year) {
    const LocalDay last{year / month / std::chrono::last};
    return std::min(last, LocalDay{year / month / 1} + days{static_cast<int>(static_cast<unsigned>(date.day())) - 1});
  };
  const std::chrono::year year = std::chrono::year_month_day{from}.year();
  return in(year) >= from ? in(year) : in(year + std::chrono::years{1});
}

}  // namespace

Due due(LocalDay treated, LocalDay today, int keeps_seasons, std::span<const LocalDay> season_ends, int done_by_day_of_year, bool south) {
  const auto first_end = std::upper_bound(season_ends.begin(), season_ends.end(), treated);
  const auto ended = std::upper_bound(season_ends.begin(), season_ends.end(), today);
  Due answer;
  answer.seasons_since = static_cast<int>(std::max<std::ptrdiff_t>(0, ended - first_end));
  const auto left = season_ends.end() - first_end;
  const auto last_kept = first_end + std::min<std::ptrdiff_t>(keeps_seasons - 1, left - 1);
  answer.by = next(left > 0 ? *last_kept : treated + days{365L * keeps_seasons}, done_by_day_of_year, south);
  answer.overdue = today > answer.by;
  return answer;
}

}  // namespace book
