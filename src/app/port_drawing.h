// The flare drawn for the crew, readable on a black-and-white print: unrolled along the tape, and from above.
#pragma once
#include <string>

#include "app/port_plan.h"
#include "app/request.h"

namespace app {

// The flare from the tag clockwise back to the tag, in rows like lines of writing, over a tape in inches or centimetres; heights above
// the tag line. Ends with what the marks mean. An SVG element 186 mm wide.
[[nodiscard]] std::string flare_strip_svg(const PortPlan& plan, UnitSystem units);

// The same marks around the flare seen from above, each earlier treatment on its own ring. An SVG element 92 mm wide and high.
[[nodiscard]] std::string flare_ring_svg(const PortPlan& plan);

}  // namespace app
