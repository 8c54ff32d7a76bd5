// When a tree is due again: a treatment lasts a number of growing seasons, and the next is done by early summer of the season after the
// last of them. Common practice, no published source.
#pragma once
#include <span>

#include "units/time.h"

namespace book {

struct OfficeTerms {
  int keeps_seasons = 0;          // that a treatment lasts, the season it was done in counted
  int done_by_day_of_year = 0;    // early summer in the north, of a year of 365 days; half a year later in the south
  int disease_stays_days = 0;     // for which a diseased tree seen nearby makes trees urgent
  double trunk_shrinks_to = 0.0;  // shares of a tree's last diameter outside which a new one is asked about
  double trunk_leaps_to = 0.0;
  int warn_days = 0;          // before a licence, ticket or consent lapses
  int look_ahead_days = 0;    // trees due within these days are looked at with the booked ones
  int most_trees = 0;         // in one answer, unless a tree is named
  int keep_records_days = 0;  // for which an application record keeps for whom it was made
};

struct Due {
  int seasons_since = 0;  // growing seasons that have ended since the treatment
  units::LocalDay by;     // the day by which the next should be done
  bool overdue = false;   // that day has passed
};

// `season_ends`: days on which leaves colour at the tree, rising, one a year, from before `treated` to beyond the due day (treated's year +
// keeps + 1). A treatment after leaves have coloured counts for the season after. Requires keeps_seasons >= 1.
[[nodiscard]] Due due(units::LocalDay treated, units::LocalDay today, int keeps_seasons, std::span<const units::LocalDay> season_ends,
                      int done_by_day_of_year, bool south);

}  // namespace book
