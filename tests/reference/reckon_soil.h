// Reckons the published values on soil water by the program's own functions, under the names the checks give them.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "support/reference.h"

namespace reference {

using SoilReckoned = std::map<std::string, std::vector<double>>;

[[nodiscard]] SoilReckoned soil_hydraulics(const Check& check);
[[nodiscard]] SoilReckoned fao56_soil_water(const Check& check);

}  // namespace reference
