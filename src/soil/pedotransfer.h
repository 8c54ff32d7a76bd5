// A Texture from what a soil laboratory reports: sand, clay and organic matter.
// Saxton & Rawls (2006), Soil Sci. Soc. Am. J. 70:1569-1578, table 1, eq. 1-5 and 16; no salinity, gravel or density change.
#pragma once
#include "soil/texture.h"
#include "units/fault.h"

namespace soil {

// What the laboratory report says. Fractions of mass for sand and clay, but percent for organic matter: so have the regressions.
struct Composition {
  double sand = 0.0;                // 0..1
  double clay = 0.0;                // 0..0.6, sand + clay <= 1
  double organic_matter_pct = 0.0;  // 0..8
};

struct SaxtonRawls {
  double theta_1500 = 0.0;  // m3/m3 at 1500 kPa
  double theta_33 = 0.0;    // m3/m3 at 33 kPa
  double theta_s = 0.0;     // m3/m3 saturated
  double ks_mm_per_h = 0.0;
};

// Fault outside the ranges the regressions were made for.
[[nodiscard]] units::Result<SaxtonRawls> saxton_rawls(const Composition& composition);

// A Texture whose van Genuchten curve passes through saturation, 33 kPa and 1500 kPa of Saxton & Rawls exactly. theta_r is 0; in sandy
// soils it is the least that keeps alpha at or below 0.145/cm, the greatest class mean of Carsel & Parrish. Field capacity is 33 kPa,
// wilting 1500 kPa, total evaporable water FAO-56 eq. 73 over 0.1 m, readily evaporable by composition (Allen et al. 2005). Key "own".
[[nodiscard]] units::Result<Texture> texture_of(const Composition& composition);

}  // namespace soil
