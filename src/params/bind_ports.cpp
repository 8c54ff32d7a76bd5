#include "params/bind.h"

namespace params {

void bind_ports(Section& file, uptake::PortParameters& ports) {
  ports.conductance_l_h_mpa = file.uncertain("conductance", "L/h/MPa");
  ports.hole_factor = file.uncertain("hole_factor", "1");
  ports.practice_diameter_mm = file.number("practice_diameter", "mm");
  ports.practice_depth_mm = file.number("practice_depth", "mm");
  ports.fast_share = file.uncertain("fast_share", "1");
  ports.fast_hours = file.uncertain("fast_hours", "h");
  ports.slow_hours = file.uncertain("slow_hours", "h");
  ports.drilling_mpa = file.uncertain("drilling", "MPa");
  ports.native_p50_mpa = file.uncertain("native_p50", "MPa");
  ports.native_shape = file.half_step("native_shape");
  ports.native_soil_drop_mpa = file.number("native_soil_drop", "MPa");
  ports.lumens_l_per_port = file.uncertain("lumens_per_port", "L");
  ports.lumens_hours = file.uncertain("lumens_hours", "h");
}

}  // namespace params
