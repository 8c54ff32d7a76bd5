// What the root zone is like, hour by hour: the answer of soil/water_balance.h that the tree and the faces read.
// Hour h is the label that ENDS it; states are those at the label, flows (mm) those of the hour before it. All vectors have the same
// length.
#pragma once
#include <vector>

namespace soil {

struct Hours {
  std::vector<double> rew;          // relative extractable water of the whole root zone, each layer counted within 0..1
  std::vector<double> rew_sd;       // its standard deviation: how well it is known
  std::vector<double> psi_mpa;      // soil water potential at that REW, <= 0
  std::vector<double> temp_c;       // of the root zone
  std::vector<double> saturated_h;  // hours for which the root zone has now been without breathing room; 0 when it has some
  std::vector<double> ponded_mm;    // water standing on the surface

  std::vector<std::vector<double>> theta;  // [layer][hour], m3/m3, layers from the surface down

  std::vector<double> rain_mm;          // as used: 0..; where the rain was unknown, the expectation that stood in for it
  std::vector<double> irrigation_mm;    // as used
  std::vector<double> interception_mm;  // evaporated from wet leaves, per ground under the crown and beside it
  std::vector<double> evaporation_mm;   // from the soil surface
  std::vector<double> uptake_mm;        // by roots
  std::vector<double> drainage_mm;      // out of the bottom of the root zone
  std::vector<double> runoff_mm;        // over the surface
  std::vector<double> correction_mm;    // put in or taken out by observations; the balance closes with it

  [[nodiscard]] std::size_t size() const { return rew.size(); }
};

}  // namespace soil
