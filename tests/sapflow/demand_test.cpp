#include "sapflow/demand.h"

#include <doctest/doctest.h>

#include <cmath>

#include "sapflow/invented_stand.h"
#include "support/within.h"
#include "tree/big_leaf.h"

using invented::steady_flow;
using sapflow::Coupling;

TEST_SUITE("sapflow") {
  TEST_CASE("a big leaf in a gale is a leaf in stirred air") {
    const tree::CrownAir air{1.5, 0.15, 0.066, 400.0};
    CHECK(tree::big_leaf_w_m2(air, 0.005, 1e6) == within(tree::stirred_crown_w_m2(air, 0.005), 0.01));
  }

  TEST_CASE("a big leaf in still air gives off what radiation alone drives") {
    // Equilibrium evaporation: slope/(slope + gamma) of net radiation (Slatyer & McIlroy 1961), as both conductances grow in step with
    // none.
    const tree::CrownAir air{1.5, 0.15, 0.066, 400.0};
    CHECK(tree::big_leaf_w_m2(air, 0.01, 1e-9) == within(0.15 / (0.15 + 0.066) * 400.0, 0.01));
  }

  TEST_CASE("dryness of air drives stirred leaves with no sun on them, by their share in the dark") {
    const double dark = steady_flow({.shortwave_w_m2 = 0.0, .net_radiation_w_m2 = 0.0}, {.coupling = Coupling::stirred});
    const auto d = invented::medians();
    CHECK(dark == within(1206.0 * 1.5 * 0.01 * d.conductance_cm_s * d.dark_share / 0.066 / 200.0, 1e-9));
  }

  TEST_CASE("flow rises with dryness, saturates near 2 kPa and falls beyond") {
    const auto at = [](double vpd) { return steady_flow({.vpd_kpa = vpd}, {.coupling = Coupling::stirred}); };
    CHECK(at(1.0) > 1.2 * at(0.5));
    CHECK(at(2.0) < 1.2 * at(1.2));
    CHECK(at(5.0) < at(2.0));
  }

  TEST_CASE("dry soil is felt where it dries and not where it is moist") {
    CHECK(steady_flow({.rew = 0.8}) == within(steady_flow({.rew = 1.0}), 0.01));
    CHECK(steady_flow({.rew = 0.1}) < 0.6 * steady_flow({.rew = 1.0}));
    CHECK(steady_flow({.rew = 0.1}, {.soil_water = false}) == steady_flow({.rew = 1.0}, {.soil_water = false}));
  }

  TEST_CASE("stored water puts flow behind the leaves by its lag and loses none") {
    const auto hours = invented::hours(20);
    const auto leaves = invented::flow(hours, invented::medians(), {.lag = false});
    const auto stem = invented::flow(hours, invented::medians());
    double total_leaves = 0.0, total_stem = 0.0, centre_leaves = 0.0, centre_stem = 0.0;
    for (std::size_t h = 240; h < 264; ++h) {
      total_leaves += leaves[h];
      total_stem += stem[h];
      centre_leaves += leaves[h] * static_cast<double>(h);
      centre_stem += stem[h] * static_cast<double>(h);
    }
    CHECK(total_stem == within(total_leaves, 0.02 * total_leaves));
    CHECK(centre_stem / total_stem > centre_leaves / total_leaves + 0.3);
  }

  TEST_CASE("over hours without weather the flow stands still and the next hour goes on from it") {
    auto hours = invented::hours(3);
    const auto whole = invented::flow(hours, invented::medians());
    hours.known[36] = false;
    const auto holed = invented::flow(hours, invented::medians());
    CHECK(holed[35] == whole[35]);
    CHECK(holed[36] == whole[35]);
    CHECK(std::abs(holed[37] - whole[37]) < std::abs(holed[36] - whole[36]));
  }
}
