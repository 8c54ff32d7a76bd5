// How water that arrives on the surface moves down through the layers in one step, and out of the bottom.
// Gravity alone (unit gradient): a layer passes K(theta) of its own water content (Mualem), never more than the layer below can take. Where
// the matrix is full, cracks and worm holes pass Parameters::least_infiltration_mm_per_h. Implicit in time, hence stable for any texture
// and step.
#pragma once
#include <vector>

#include "soil/root_zone.h"

namespace soil {

struct Redistribution {
  double left_on_surface_mm = 0.0;
  double drained_mm = 0.0;  // out of the lowest layer
};

// `supply_mm` waits on the surface; `theta` (m3/m3, residual..saturated) is moved on by `dt_h`. What enters = what is stored + what drains.
Redistribution redistribute(const RootZone& zone, double supply_mm, double dt_h, std::vector<double>& theta);

}  // namespace soil
