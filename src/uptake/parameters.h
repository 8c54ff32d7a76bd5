// The numbers that describe ports and what lies beside them, filled from models/ports.json by src/params.
// Equations (13)-(17) of docs/model/uptake.md.
#pragma once
#include "units/uncertain.h"

namespace uptake {

struct PortParameters {
  units::Uncertain conductance_l_h_mpa;   // g0: a fresh 11 x 40 mm hole in an elm, at 20 C
  units::Uncertain hole_factor;           // s_hole: a hole of practice over that reference
  double practice_diameter_mm = 0.0;      // the hole that hole_factor stands for; others scale with wall area
  double practice_depth_mm = 0.0;         // told on the sheet; a hole of another depth is another hole_factor
  units::Uncertain fast_share;            // phi: share of conductance lost within the first hour
  units::Uncertain fast_hours;            // tau_f
  units::Uncertain slow_hours;            // tau_s
  units::Uncertain drilling_mpa;          // psi_w: magnitude of base potential at which 1/e of the vessels stay open when cut
  units::Uncertain native_p50_mpa;        // P50n: magnitude of soil potential at which half of the flare's vessels hold air
  double native_shape = 0.0;
  double native_soil_drop_mpa = 0.0;      // delta_x: fall of potential from soil to roots where both resist alike and stomata are open
  units::Uncertain lumens_l_per_port;     // a_p
  units::Uncertain lumens_hours;          // tau_A at 0.1 MPa
};

}  // namespace uptake
