// A tree with its ports drilled: the constants that the hours act upon. docs/model/uptake.md eqs. (1)-(3), (13)-(16).
#pragma once
#include <numbers>
#include <optional>

#include "tree/hydraulics.h"
#include "tree/size.h"
#include "units/quantity.h"
#include "uptake/draw.h"

namespace uptake {

// One tree and the ports it gets; the same for all draws.
struct Subject {
  Source source;
  tree::Allometry allometry;
  tree::Measured measured;
  double port_factor = 1.0;              // the genus' port conductance over the elm's
  std::optional<double> port_count;      // counted; else flare circumference over spacing
  units::Centimetres port_spacing;       // along the flare, > 0
  std::optional<double> hole_diameter_mm;  // else the hole of practice
  units::Megapascals pressure;           // applied at the ports, >= 0
  units::Litres dose;                    // mix, > 0
  units::Litres flush;                   // clean water after it, >= 0
};

template <class R>
struct Plant {
  tree::Size<R> size;
  tree::Plumbing<R> plumbing;
  R ports;               // number
  R port_l_h_mpa;        // all ports together, fresh, in wood without air, at 20 C
  R lumens_l;            // air-filled lumens that the ports can reach
  R pressure_mpa;
};

// A hole of another diameter cuts vessels in proportion to it.
[[nodiscard]] inline double hole_size_factor(const Subject& subject) {
  return subject.hole_diameter_mm ? *subject.hole_diameter_mm / subject.source.ports.practice_diameter_mm : 1.0;
}

template <class R>
[[nodiscard]] Plant<R> plant(const Subject& subject, const Draw<R>& draw) {
  const auto& hydraulics = subject.source.tree.hydraulics;
  Plant<R> p;
  p.size = tree::size(subject.allometry, subject.measured, hydraulics.huber_m2_m2, draw.leaf_area_z);
  p.plumbing = tree::plumbing(hydraulics, p.size, draw.whole_plant_mm_d_mpa, draw.root_share, draw.elastic_l_m3_mpa);
  const double per_flare = std::numbers::pi * subject.measured.dbh.value / subject.port_spacing.value;
  p.ports = subject.port_count ? R(*subject.port_count) : draw.flare_factor * per_flare;
  p.port_l_h_mpa = p.ports * draw.conductance_l_h_mpa * draw.hole_factor * (hole_size_factor(subject) * subject.port_factor);
  p.lumens_l = p.ports * draw.lumens_l_per_port * subject.port_factor;
  p.pressure_mpa = R(subject.pressure.value);
  return p;
}

}  // namespace uptake
