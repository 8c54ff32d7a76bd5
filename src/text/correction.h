// The correction of a day under way: one text, and only where something calls for action. It begins with what to do.
#pragma once
#include "text/crew_order.h"
#include "text/fit.h"
#include "text/template.h"

namespace text {

// A hazard that begins within so long is acted on at once.
inline constexpr std::chrono::minutes at_once{30};

// `now` is the crew's clock. What calls for action, in the order in which it is said:
//   thunder that the crew was not told of, or that comes earlier, not yet over (a later end or another figure is no news): "Shut valves,
//   into truck now, leave lines on. 30 min after last thunder: back.", or "Shut valves by 2:30pm, ..." where it begins later than
//   `at_once`; any other such hold: "Stop work now: gusts to 45 mph." or "Stop work by 2pm: ..."; weather that has become too old: "Open no
//   valves, prep only: weather 31h old."; a stop that is gone, or has turned to NO GO, TIGHT or GO: "Do not go to Elm St.", "Do not open
//   valves at Oak Court: NO GO." (once they are open "Mix no more at Oak Court: 2 in 10 to finish."), "Mix only what is sure to go in at
//   ...", "Go ahead at Oak Court: GO, 9 in 10."; a stop that the crew must leave earlier: "Be off site at Oak Court by 3pm, valves shut by
//   2:30pm."; a safety line that a stop did not have: "At Oak Court: Do not dig: no utility ticket."; a stop that the crew was not told of:
//   "New stop at 1pm: Elm St.".
// Stops whose crew has left (off_site_by past) are not spoken of. `news` false and no text where nothing calls for action.
[[nodiscard]] Message correction_text(const CrewOrder& sent, const CrewOrder& today, units::LocalTime now, const Templates& templates);

// Whether all that calls for action is that the crew may go ahead; false where nothing does.
[[nodiscard]] bool eases(const CrewOrder& sent, const CrewOrder& today, units::LocalTime now);

}  // namespace text
