// Soil of a model's grid cell, as a forecast service would report it: four layers that fill with rain and empty with the sun.
// A bucket cascade that only has to look right; the program's own soil model is in src/soil.
#pragma once
#include <vector>

#include "generator/hours.h"

namespace samples {

// Fills soil_m3_m3 and soil_c of every hour, in order.
void add_soil(const Ground& ground, std::vector<Hour>& hours);

}  // namespace samples
