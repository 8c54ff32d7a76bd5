// What somebody noted of a flare at earlier treatments, and sees on it now: a CSV kept by hand.
#pragma once
#include <string>
#include <string_view>

#include "book/flare_record.h"
#include "units/fault.h"

namespace feeds {

// Header `clockwise_cm` and optionally `kind,to_cm,height_cm,year,flare_cm,leaked`, a line a thing, by `kind`:
//   port (also where empty)  an old port at clockwise_cm, height_cm above the tag line, of that year, leaked yes or no
//   bad, ridge               from clockwise_cm clockwise to to_cm: decay, a crack, a cavity; a ridge of the flare
//   flare                    flare_cm, the circumference as measured now; at most one line, nothing else on it
// `flare_cm` of the others is the circumference of the flare when they were measured. An empty cell is unknown.
// The whole file is refused for one bad line: a port left out by mistake would be drilled beside. Faults name line and column.
[[nodiscard]] units::Result<book::FlareRecord> read_ports(const std::string& name, std::string_view content);

}  // namespace feeds
