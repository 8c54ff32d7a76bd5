#include "book/due.h"

#include <algorithm>

namespace book {
namespace {

using std::chrono::days;
using units::LocalDay;

// The first `day_of_year` that is not before `from`.
LocalDay next(LocalDay from, int day_of_year) {
  const std::chrono::year year = std::chrono::year_month_day{from}.year();
  for (const int later : {0, 1}) {
    const LocalDay day = LocalDay{(year + std::chrono::years{later}) / std::chrono::January / 1} + days{day_of_year - 1};
    if (day >= from) return day;
  }
  return from;  // day_of_year 366 of two common years on end: the second one's is the third's first, no further
}

}  // namespace

Due due(LocalDay treated, LocalDay today, int keeps_seasons, std::span<const LocalDay> season_ends, int done_by_day_of_year, bool south) {
  const auto first_end = std::upper_bound(season_ends.begin(), season_ends.end(), treated);
  const auto ended = std::upper_bound(season_ends.begin(), season_ends.end(), today);
  Due answer;
  answer.seasons_since = static_cast<int>(std::max<std::ptrdiff_t>(0, ended - first_end));
  const auto left = season_ends.end() - first_end;
  const auto last_kept = first_end + std::min<std::ptrdiff_t>(keeps_seasons - 1, left - 1);
  const int day = south ? (done_by_day_of_year + 182) % 365 + 1 : done_by_day_of_year;
  answer.by = next(left > 0 ? *last_kept : treated + days{365L * keeps_seasons}, day);
  answer.overdue = today > answer.by;
  if (answer.overdue) answer.seasons_over = static_cast<int>(1 + (today - answer.by).count() / 365);
  return answer;
}

}  // namespace book
