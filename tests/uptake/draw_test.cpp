#include "uptake/draw.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include "support/within.h"
#include "uptake/bench.h"

using bench::Lanes;

namespace {

const uptake::Source& source() {
  static const uptake::Source elm = bench::subject(100).source;
  return elm;
}

// One member of every draw.
std::vector<double> values(const std::vector<uptake::Draw<Lanes>>& blocks, std::size_t count, Lanes uptake::Draw<Lanes>::*member) {
  std::vector<double> result;
  for (std::size_t i = 0; i < count; ++i) result.push_back((blocks[i / Lanes::count].*member)[static_cast<int>(i % Lanes::count)]);
  return result;
}

struct Logs {
  double median, ln_sd;
};

Logs logs(std::vector<double> x) {
  double sum = 0.0, squares = 0.0;
  for (const double v : x) {
    sum += std::log(v);
    squares += std::log(v) * std::log(v);
  }
  const double n = static_cast<double>(x.size());
  std::nth_element(x.begin(), x.begin() + static_cast<std::ptrdiff_t>(x.size() / 2), x.end());
  return {x[x.size() / 2], std::sqrt(squares / n - sum / n * sum / n)};
}

}  // namespace

TEST_SUITE("uptake") {
  TEST_CASE("the tree in the middle has every parameter at its value and every deviate at nothing") {
    const auto draw = uptake::central_draw(source());
    CHECK(draw.conductance_l_h_mpa == source().ports.conductance_l_h_mpa.value);
    CHECK(draw.g_ref_mmol_m2_s == source().tree.stomata.g_ref_mmol_m2_s.value);
    CHECK(draw.p50_mpa == source().tree.hydraulics.p50_mpa.value);
    CHECK(draw.flare_factor == source().flare_factor.value);
    CHECK(draw.leaf_area_z == 0.0);
    CHECK(draw.soil_z == 0.0);
    CHECK(draw.pace_z == 0.0);
  }

  TEST_CASE("draws have the medians and spreads of their parameters") {
    constexpr std::size_t count = 1024;
    const auto blocks = uptake::sample_draws(source(), count, 9);
    const auto check = [&](Lanes uptake::Draw<Lanes>::*member, const units::Uncertain& parameter) {
      const Logs drawn = logs(values(blocks, count, member));
      CHECK(drawn.median == within(parameter.value, 0.01 * parameter.value));
      CHECK(drawn.ln_sd == within(parameter.spread_ln_sd, 0.02 * parameter.spread_ln_sd));
    };
    // Those whose range lies beyond three standard deviations: others are cut short by it.
    check(&uptake::Draw<Lanes>::lumens_l_per_port, source().ports.lumens_l_per_port);
    check(&uptake::Draw<Lanes>::fast_share, source().ports.fast_share);
    check(&uptake::Draw<Lanes>::p50_mpa, source().tree.hydraulics.p50_mpa);
    check(&uptake::Draw<Lanes>::g_ref_mmol_m2_s, source().tree.stomata.g_ref_mmol_m2_s);
    check(&uptake::Draw<Lanes>::elastic_l_m3_mpa, source().tree.hydraulics.elastic_l_m3_mpa);
    const auto z = values(blocks, count, &uptake::Draw<Lanes>::leaf_area_z);
    double sum = 0.0, squares = 0.0;
    for (const double v : z) {
      sum += v;
      squares += v * v;
    }
    CHECK(sum / count == within(0.0, 0.005));
    CHECK(squares / count == within(1.0, 0.02));
  }

  TEST_CASE("no draw leaves its parameter's range") {
    uptake::Source wide = source();
    wide.ports.conductance_l_h_mpa.spread_ln_sd = 2.0;
    wide.tree.hydraulics.backflow.spread_ln_sd = 2.0;
    const auto blocks = uptake::sample_draws(wide, 512, 1);
    for (const double g0 : values(blocks, 512, &uptake::Draw<Lanes>::conductance_l_h_mpa)) {
      CHECK(g0 >= wide.ports.conductance_l_h_mpa.lowest);
      CHECK(g0 <= wide.ports.conductance_l_h_mpa.highest);
    }
    for (const double beta : values(blocks, 512, &uptake::Draw<Lanes>::backflow)) {
      CHECK(beta >= wide.tree.hydraulics.backflow.lowest);
      CHECK(beta <= wide.tree.hydraulics.backflow.highest);
    }
  }

  TEST_CASE("more draws begin with the fewer ones") {
    const auto few = uptake::sample_draws(source(), 64, 5), many = uptake::sample_draws(source(), 512, 5);
    for (std::size_t block = 0; block < few.size(); ++block)
      for (int lane = 0; lane < Lanes::count; ++lane) {
        const auto a = bench::lane_of(few[block], lane), b = bench::lane_of(many[block], lane);
        CHECK(std::bit_cast<std::array<double, uptake::draw_dimensions>>(a) ==
              std::bit_cast<std::array<double, uptake::draw_dimensions>>(b));
      }
  }

  TEST_CASE("a seed gives its own trees, and gives them again") {
    const auto one = uptake::sample_draws(source(), 8, 5)[0], again = uptake::sample_draws(source(), 8, 5)[0],
               other = uptake::sample_draws(source(), 8, 6)[0];
    CHECK(one.conductance_l_h_mpa[0] == again.conductance_l_h_mpa[0]);
    CHECK(one.conductance_l_h_mpa[0] != other.conductance_l_h_mpa[0]);
  }

  TEST_CASE("port conductance, which moves hours most, fills every stratum once") {
    constexpr std::size_t count = 256;
    const auto g0 = values(uptake::sample_draws(source(), count, 3), count, &uptake::Draw<Lanes>::conductance_l_h_mpa);
    const units::Uncertain& p = source().ports.conductance_l_h_mpa;
    std::set<int> strata;
    std::size_t cut = 0;
    for (const double v : g0) {
      if (v >= p.highest || v <= p.lowest) {
        ++cut;
        continue;
      }
      const double z = std::log(v / p.value) / p.spread_ln_sd;
      strata.insert(static_cast<int>(std::floor(count * 0.5 * std::erfc(-z / std::sqrt(2.0)))));
    }
    CHECK(strata.size() + cut == count);
    CHECK(cut < count / 10);
  }

  TEST_CASE("draws beyond the count repeat the last one") {
    const auto block = uptake::sample_draws(source(), 5, 3)[0];
    for (int lane = 5; lane < Lanes::count; ++lane) CHECK(block.conductance_l_h_mpa[lane] == block.conductance_l_h_mpa[4]);
  }

  TEST_CASE("a species' own figures take the place of the general ones") {
    const auto pine = bench::subject(60, "white pine").source;
    CHECK(pine.tree.hydraulics.p50_mpa.value == 3.35);
    CHECK(pine.tree.hydraulics.huber_m2_m2 == 2063.0);
    tree::Species bare = shipped::species("white pine");
    bare.p50_mpa = {};
    bare.huber_m2_m2 = 0.0;
    const auto general = uptake::make_source(shipped::models().tree, shipped::models().ports, pine.flare_factor, bare);
    CHECK(general.tree.hydraulics.p50_mpa.value == shipped::models().tree.hydraulics.p50_mpa.value);
    CHECK(general.tree.hydraulics.huber_m2_m2 == shipped::models().tree.hydraulics.huber_m2_m2);
  }
}
