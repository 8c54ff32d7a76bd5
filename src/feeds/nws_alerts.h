// US National Weather Service, /alerts/active?point=lat,lon: the warnings, advisories and watches in force at a place.
//
// - Only status Actual counts: tests, drafts and exercises are left out.
// - An event ends at `ends`, else at the parameter eventEndingTime, else at `expires`; `expires` alone is the end of the text and not of
//   the event. It begins at `onset`, else `effective`, else `sent`. What has ended by `now` is left out. One said to begin no earlier than
//   it ends counts from `now`: a warning is not lost over a slip of the pen.
// - A later text of one event has a new id; both have the same VTEC key, and the one sent last speaks (of two sent at once, one in force
//   before a cancelled one, then the one that ends later). VTEC actions CAN, EXP and UPG end an event whatever the times say.
// - VTEC significance W and Y are said outright, A is a watch; others (statements, outlooks, forecasts) are left out.
// - Events without VTEC (special weather statements, air quality) go by their words, `watch` by "watch" or "outlook" in the event's name.
// VTEC: NWS Instruction 10-1703. Its phenomena were read in lists made from it; HW, WI, HU, TY, TR, BW, LW, SR, LS, SS, HY, HZ from memory.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "units/fault.h"
#include "units/time.h"
#include "weather/alert.h"

namespace feeds {

// Alerts in force or to come, in the order of `from`. Faults: those of parse_reply; no `features` list, or more than 5000 in it; an alert
// without properties, event, status or any end; a time that is not one.
[[nodiscard]] units::Result<std::vector<weather::Alert>> read_nws_alerts(const std::string& name, std::string_view content,
                                                                         units::UtcTime now);

}  // namespace feeds
