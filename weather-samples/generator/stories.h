// The invented places and what their skies do. weather-samples/README.md tells the same stories in words.
#pragma once
#include <vector>

#include "generator/story.h"

namespace samples {

[[nodiscard]] Story demo_fortnight();
// One Monday at Thornby Mills, as the morning's forecast has the week, and as the evening's does: three wet days in the middle.
[[nodiscard]] Story fair_week();
[[nodiscard]] Story wet_week();
// The same week as Tuesday's noon has it: thunder from three.
[[nodiscard]] Story stormy_tuesday();
[[nodiscard]] Story dry_spell();
[[nodiscard]] Story heat_dome();
[[nodiscard]] Story week_of_overcast();
[[nodiscard]] Story cold_spring();
[[nodiscard]] Story saturated_clay();
[[nodiscard]] Story harrow_point();

// The control (the demo fortnight itself) and its other members: after `now` each goes its own way, further with every day.
[[nodiscard]] std::vector<Story> ensemble(int members);

}  // namespace samples
