// The tree and its ports as a small differential-algebraic system, moved through time by implicit steps that close the mass balance
// exactly: states are set from the flows, not beside them. docs/model/uptake.md eqs. (10)-(12), (14)-(17).
// This is the innermost loop: no allocation, no branch on a single lane.
#pragma once
#include <numbers>

#include "tree/hydraulics.h"
#include "tree/power.h"
#include "units/lanes.h"
#include "uptake/hour.h"

namespace uptake {

template <class R>
struct Water {
  R base_mpa;              // potential of the stem base
  R crown_mpa;             // and of the crown's xylem
  R lumens_l;              // air-filled lumens refilled so far
  R volume_l;              // taken up through the ports so far
  R crown_mpa_h = R(0.0);  // how fast the crown moved last: only where the next step looks for it first
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
  R base_store_l_mpa, crown_store_l_mpa, lift_mpa;
  R per_p50, vulnerability_slope;  // 1/MPa: of P50, and what its curve's power is multiplied by in its slope
  R per_psi_half, closure_slope;   // 1/MPa: likewise of the stomata's closing
  int vulnerability_halves, closure_halves;
};

// The ports during one step: conductance to the base at the step's two inner moments, applied pressure, and the lumens beside the
// ports: their volume and the share of what is still empty that stays so over the step.
template <class R>
struct OpenPorts {
  R early_l_h_mpa = R(0.0);
  R late_l_h_mpa = R(0.0);
  R pressure_mpa = R(0.0);
  R lumens_l = R(0.0);
  R lumens_left = R(1.0);
};

// Alexander's (1977) two-stage singly diagonally implicit Runge-Kutta method, order 2, L-stable and stiffly accurate: stages at
// gamma h and h, weighing 1 - gamma and gamma.
inline constexpr double gamma_share = 0.29289321881345254;  // 1 - sqrt(1/2)

namespace detail {

template <class R>
struct Stage {
  R root, xylem, leaves, ports;  // flows, L/h
};

// Where base and crown stand at the end of an implicit stage of length gamma h that sets out from `base_before` and `crown_before`,
// as the flows there. Inertia is storage over the stage's length. The base's balance rises with its potential and bends only where
// soil and ports stop driving, so looking at the two bends settles which branch holds; what is left is one equation in the crown
// potential. Newton's method, at most 25 rounds, held to 0.5 MPa a round, until it moves by less than 1e-3 MPa; the last move is
// carried into the flows by their slopes, which leaves an error of its square. A lane that has settled stands still, so that no
// draw's answer hangs on its neighbours.
template <class R>
SAPDRAW_INLINE Stage<R> stage(const Coefficients<R>& k, const Hour<R>& h, R port_l_h_mpa, R pressure_mpa, R base_inertia, R crown_inertia,
                              R base_before, R crown_before, R guess) {
  using std::abs;
  using std::exp;
  using units::abs;
  using units::exp;
  using units::max;
  using units::min;
  using units::select;
  const R soil_drive = base_inertia * (h.soil_mpa - base_before) - port_l_h_mpa * max(R(0.0), pressure_mpa - h.soil_mpa);
  const R pressure_drive = base_inertia * (pressure_mpa - base_before);
  const R over_soil = pressure_mpa - h.soil_mpa;
  const R held = base_inertia * base_before;
  R c = guess, move, base, base_slope, root, port, xylem_flow, xylem_by_crown, leaves, leaves_by_crown;
  for (int round = 0; round < 25; ++round) {
    const R tension = max(-c, R(1e-9));
    const R x = tension * k.per_p50;
    const R loss_slope = tree::half_power(x, k.vulnerability_halves - 2);
    const R xylem = h.xylem_l_h_mpa * exp(-std::numbers::ln2 * loss_slope * x);
    const R xylem_slope = xylem * loss_slope * k.vulnerability_slope;
    const R y = tension * k.per_psi_half;
    const R closing_slope = tree::half_power(y, k.closure_halves - 2);
    const R open = 1.0 / (1.0 + closing_slope * y);

    const R above = c + k.lift_mpa;
    root = select(soil_drive + xylem * (h.soil_mpa - above) > R(0.0), h.root_l_h_mpa, h.backflow_l_h_mpa);
    port = select(pressure_drive + root * over_soil + xylem * (pressure_mpa - above) > R(0.0), port_l_h_mpa, R(0.0));
    const R per_base_slope = 1.0 / (base_inertia + root + port + xylem);
    base = (held + root * h.soil_mpa + port * pressure_mpa + xylem * above) * per_base_slope;

    const R drive = base - above;
    const R into_crown = xylem - xylem_slope * drive;  // minus the slope of xylem flow by crown potential, the base held
    base_slope = into_crown * per_base_slope;
    xylem_by_crown = xylem * base_slope - into_crown;
    xylem_flow = xylem * drive;
    const R demand = h.demand_l_h * open;
    leaves = demand + h.cuticle_l_h;
    leaves_by_crown = demand * open * closing_slope * k.closure_slope;
    const R residual = crown_inertia * (crown_before - c) + xylem_flow - leaves;
    const R slope = crown_inertia - xylem_by_crown + leaves_by_crown;
    move = min(R(0.5), max(R(-0.5), residual / max(slope, 0.05 * crown_inertia)));
    const auto settled = abs(move) < R(1e-3);
    if (units::all(settled)) break;
    c = c + select(settled, R(0.0), move);
  }
  base = base + base_slope * move;
  return {root * (h.soil_mpa - base), xylem_flow + xylem_by_crown * move, leaves + leaves_by_crown * move,
          max(R(0.0), port * (pressure_mpa - base))};
}

}  // namespace detail

// One step of `step_h` hours.
template <class R>
SAPDRAW_INLINE Flows<R> step(const Coefficients<R>& k, const Hour<R>& h, const OpenPorts<R>& ports, double step_h, Water<R>& water) {
  const R per_base = 1.0 / k.base_store_l_mpa, per_crown = 1.0 / k.crown_store_l_mpa;
  const double stage_h = gamma_share * step_h, first_h = (1.0 - gamma_share) * step_h;
  const R base_inertia = k.base_store_l_mpa * (1.0 / stage_h), crown_inertia = k.crown_store_l_mpa * (1.0 / stage_h);
  const auto early = detail::stage(k, h, ports.early_l_h_mpa, ports.pressure_mpa, base_inertia, crown_inertia, water.base_mpa,
                                   water.crown_mpa, water.crown_mpa + stage_h * water.crown_mpa_h);
  const R crown_rate = (early.xylem - early.leaves) * per_crown;
  const R base_between = water.base_mpa + first_h * per_base * (early.root + early.ports - early.xylem);
  const R crown_between = water.crown_mpa + first_h * crown_rate;
  const auto late = detail::stage(k, h, ports.late_l_h_mpa, ports.pressure_mpa, base_inertia, crown_inertia, base_between, crown_between,
                                  crown_between + stage_h * crown_rate);
  const auto mean = [](R a, R b) { return (1.0 - gamma_share) * a + gamma_share * b; };
  Flows<R> flows;
  flows.root = mean(early.root, late.root);
  flows.xylem = mean(early.xylem, late.xylem);
  flows.leaves = mean(early.leaves, late.leaves);
  flows.ports = mean(early.ports, late.ports);
  const R filled = (ports.lumens_l - water.lumens_l) * (1.0 - ports.lumens_left);
  flows.lumens = filled * (1.0 / step_h);
  water.base_mpa = water.base_mpa + step_h * per_base * (flows.root + flows.ports - flows.xylem);
  water.crown_mpa = water.crown_mpa + step_h * per_crown * (flows.xylem - flows.leaves);
  water.crown_mpa_h = (late.xylem - late.leaves) * per_crown;
  water.lumens_l = water.lumens_l + filled;
  water.volume_l = water.volume_l + (step_h * flows.ports + filled);
  return flows;
}

template <class R>
[[nodiscard]] Coefficients<R> coefficients(const Subject& subject, const Draw<R>& draw, const Plant<R>& plant) {
  const tree::Parameters& t = subject.source.tree;
  return {plant.plumbing.base_store_l_mpa,
          plant.plumbing.crown_store_l_mpa,
          plant.plumbing.lift_mpa,
          1.0 / draw.p50_mpa,
          std::numbers::ln2 * t.hydraulics.vulnerability_shape / draw.p50_mpa,
          1.0 / draw.psi_half_mpa,
          t.stomata.psi_shape / draw.psi_half_mpa,
          tree::halves_of(t.hydraulics.vulnerability_shape),
          tree::halves_of(t.stomata.psi_shape)};
}

// Ports lose conductance as they are used: a fast part within the first hour, a slow one over the day. Gives the open share at the
// two inner moments of a step, scaled so that their weighted mean is the exact mean over it.
template <class R>
class Fatigue {
 public:
  // `open_at_drilling`: share of cut vessels that stay open (eq. 13). Steps have no length before set_step.
  Fatigue(const Draw<R>& draw, R open_at_drilling)
      : slow_{draw.slow_hours, open_at_drilling * (1.0 - draw.fast_share)}, fast_{draw.fast_hours, open_at_drilling * draw.fast_share} {}

  // Steps are of this length from now on.
  SAPDRAW_INLINE void set_step(double step_h) {
    slow_.set_step(step_h);
    fast_.set_step(step_h);
  }
  [[nodiscard]] SAPDRAW_INLINE R early() const { return slow_.open * slow_.early + fast_.open * fast_.early; }
  [[nodiscard]] SAPDRAW_INLINE R late() const { return slow_.open * slow_.late + fast_.open * fast_.late; }
  SAPDRAW_INLINE void next_step() {
    slow_.open = slow_.open * slow_.left;
    fast_.open = fast_.open * fast_.left;
  }

 private:
  struct Part {
    R hours, open;
    R early{}, late{}, left{};

    SAPDRAW_INLINE void set_step(double step_h) {
      using std::exp;
      using units::exp;
      left = exp(-step_h / hours);
      const R at_early = exp(-gamma_share * step_h / hours);
      const R exact = (1.0 - left) * hours * (1.0 / step_h);
      const R scale = exact / ((1.0 - gamma_share) * at_early + gamma_share * left);
      early = scale * at_early;
      late = scale * left;
    }
  };
  Part slow_, fast_;
};

}  // namespace uptake
