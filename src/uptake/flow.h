// The tree and its ports as a small differential-algebraic system, moved through time by implicit Euler steps that close the mass
// balance exactly: states are set from the flows, not beside them. docs/model/uptake.md eqs. (10)-(12), (14)-(17).
// This is the innermost loop: no allocation, no branch on a single lane.
#pragma once
#include "tree/hydraulics.h"
#include "tree/power.h"
#include "units/lanes.h"
#include "uptake/hour.h"

namespace uptake {

template <class R>
struct Water {
  R base_mpa;   // potential of the stem base
  R crown_mpa;  // and of the crown's xylem
  R lumens_l;   // air-filled lumens refilled so far
  R volume_l;   // taken up through the ports so far
};

// Mean flows over a step, L/h.
template <class R>
struct Flows {
  R root;    // soil to base; negative is backflow
  R xylem;   // base to crown
  R leaves;  // transpired
  R ports;   // ports to base
  R lumens;  // ports to lumens
};

// What a step needs of the tree that does not change within an hour.
template <class R>
struct Coefficients {
  R base_store_l_mpa, crown_store_l_mpa, lift_mpa, backflow, p50_mpa, psi_half_mpa;
  int vulnerability_halves, closure_halves;
};

// The ports during one step: conductance to the base, applied pressure, and the rate at which lumens still empty fill (1/h).
template <class R>
struct OpenPorts {
  R conductance_l_h_mpa = R(0.0);
  R pressure_mpa = R(0.0);
  R lumens_l = R(0.0);
  R lumens_per_h = R(0.0);
};

namespace detail {

// The base potential at the end of the step that goes with a crown potential `c`. The base's balance rises with its potential and
// bends only where soil and ports stop driving, so looking at the two bends settles which branch holds.
template <class R>
struct BaseSolution {
  R base_mpa, root_l_h_mpa, port_l_h_mpa, slope_l_h_mpa;
};

template <class R>
SAPDRAW_INLINE BaseSolution<R> solve_base(const Coefficients<R>& k, const Hour<R>& h, const OpenPorts<R>& ports, R xylem, R crown_and_lift,
                                          R before_mpa, double step_h) {
  using units::max;
  using units::select;
  const R inertia = k.base_store_l_mpa * (1.0 / step_h);
  const auto excess_at = [&](R b, R root) {
    return inertia * (b - before_mpa) + root * (b - h.soil_mpa) - ports.conductance_l_h_mpa * max(R(0.0), ports.pressure_mpa - b) +
           xylem * (b - crown_and_lift);
  };
  const R root = select(excess_at(h.soil_mpa, R(0.0)) > R(0.0), h.root_l_h_mpa, k.backflow * h.root_l_h_mpa);
  const R port = select(excess_at(ports.pressure_mpa, root) > R(0.0), ports.conductance_l_h_mpa, R(0.0));
  const R slope = inertia + root + port + xylem;
  const R b = (inertia * before_mpa + root * h.soil_mpa + port * ports.pressure_mpa + xylem * crown_and_lift) / slope;
  return {b, root, port, slope};
}

}  // namespace detail

// One step of `step_h` hours. Newton's method on the crown potential, at most 25 rounds, held to 0.5 MPa a round; converged when it
// moves by less than 1e-10 MPa. A lane that has converged stands still, so that no draw's answer hangs on its neighbours.
template <class R>
SAPDRAW_INLINE Flows<R> step(const Coefficients<R>& k, const Hour<R>& h, const OpenPorts<R>& ports, double step_h, Water<R>& water) {
  using std::abs;
  using std::exp;
  using units::abs;
  using units::exp;
  using units::max;
  using units::min;
  constexpr double ln_2 = 0.693147180559945309;
  const R inertia = k.crown_store_l_mpa * (1.0 / step_h);
  R c = water.crown_mpa;
  R xylem_flow, leaf_flow;
  detail::BaseSolution<R> base;
  for (int round = 0; round < 25; ++round) {
    const R tension = max(-c, R(1e-9));
    const R loss = ln_2 * tree::half_power(tension / k.p50_mpa, k.vulnerability_halves);
    const R xylem = h.xylem_l_h_mpa * exp(-loss);
    const R xylem_slope = xylem * loss * (0.5 * k.vulnerability_halves) / tension;
    const R closing = tree::half_power(tension / k.psi_half_mpa, k.closure_halves);
    const R open = 1.0 / (1.0 + closing);
    base = detail::solve_base(k, h, ports, xylem, c + k.lift_mpa, water.base_mpa, step_h);
    const R drive = base.base_mpa - c - k.lift_mpa;
    xylem_flow = xylem * drive;
    leaf_flow = h.demand_l_h * open + h.cuticle_l_h;
    const R residual = inertia * (c - water.crown_mpa) - xylem_flow + leaf_flow;
    const R base_slope = (xylem - xylem_slope * drive) / base.slope_l_h_mpa;
    const R slope = inertia - xylem_slope * drive - xylem * (base_slope - 1.0) +
                    h.demand_l_h * open * open * closing * (0.5 * k.closure_halves) / tension;
    const R move = min(R(0.5), max(R(-0.5), -residual / max(slope, 0.05 * inertia)));
    const auto settled = abs(move) < R(1e-10);
    if (units::all(settled)) break;
    c = c + units::select(settled, R(0.0), move);
  }
  Flows<R> flows;
  flows.leaves = leaf_flow;
  flows.xylem = xylem_flow;
  flows.ports = base.port_l_h_mpa * (ports.pressure_mpa - base.base_mpa);
  flows.root = base.root_l_h_mpa * (h.soil_mpa - base.base_mpa);
  flows.lumens = (ports.lumens_l - water.lumens_l) * ports.lumens_per_h / (1.0 + step_h * ports.lumens_per_h);
  water.base_mpa = water.base_mpa + step_h * (flows.root + flows.ports - flows.xylem) / k.base_store_l_mpa;
  water.crown_mpa = water.crown_mpa + step_h * (flows.xylem - flows.leaves) / k.crown_store_l_mpa;
  water.lumens_l = water.lumens_l + step_h * flows.lumens;
  water.volume_l = water.volume_l + step_h * (flows.ports + flows.lumens);
  return flows;
}

template <class R>
[[nodiscard]] Coefficients<R> coefficients(const Subject& subject, const Draw<R>& draw, const Plant<R>& plant) {
  const tree::Parameters& t = subject.source.tree;
  return {plant.plumbing.base_store_l_mpa,
          plant.plumbing.crown_store_l_mpa,
          plant.plumbing.lift_mpa,
          draw.backflow,
          draw.p50_mpa,
          draw.psi_half_mpa,
          tree::halves_of(t.hydraulics.vulnerability_shape),
          tree::halves_of(t.stomata.psi_shape)};
}

// Ports lose conductance as they are used: a fast part within the first hour, a slow one over the day. Holds the two decaying parts;
// means over a step are exact.
template <class R>
class Fatigue {
 public:
  // `open_at_drilling`: share of cut vessels that stay open (eq. 13).
  Fatigue(const Draw<R>& draw, R open_at_drilling, double step_h)
      : slow_(open_at_drilling * (1.0 - draw.fast_share)),
        fast_(open_at_drilling * draw.fast_share),
        slow_decay_(decay(draw.slow_hours, step_h)),
        fast_decay_(decay(draw.fast_hours, step_h)),
        slow_mean_((1.0 - slow_decay_) * draw.slow_hours * (1.0 / step_h)),
        fast_mean_((1.0 - fast_decay_) * draw.fast_hours * (1.0 / step_h)) {}

  // The mean open share over the next step.
  SAPDRAW_INLINE R next() {
    const R mean = slow_ * slow_mean_ + fast_ * fast_mean_;
    slow_ = slow_ * slow_decay_;
    fast_ = fast_ * fast_decay_;
    return mean;
  }

 private:
  static R decay(R hours, double step_h) {
    using std::exp;
    using units::exp;
    return exp(-step_h / hours);
  }
  R slow_, fast_, slow_decay_, fast_decay_, slow_mean_, fast_mean_;
};

}  // namespace uptake
