// Cases small enough to be worked out by hand.
#include <doctest/doctest.h>

#include "support/within.h"
#include "uptake/bench.h"

namespace {

// Lift 0.1 MPa, P50 1.1 MPa with shape 2.5, stomata half shut at 1.3 MPa with shape 5.
uptake::Coefficients<double> stores(double base_l_mpa, double crown_l_mpa) {
  return {base_l_mpa, crown_l_mpa, 0.1, 1.0 / 1.1, std::log(2.0) * 2.5 / 1.1, 1.0 / 1.3, 5.0 / 1.3, 5, 10};
}

uptake::Hour<double> hour(double root_l_h_mpa, double soil_mpa, double xylem_l_h_mpa, double demand_l_h) {
  return {demand_l_h, 0.0, root_l_h_mpa, 0.2 * root_l_h_mpa, soil_mpa, xylem_l_h_mpa, 1.0, 1.0, 1.0, 0.0};
}

// What two implicit stages of gamma = 1 - sqrt(1/2) leave of a linear decay by z = K h / C (Alexander 1977).
double left_after(double z) {
  const double gamma = 1.0 - std::sqrt(0.5);
  return (1.0 - (1.0 - 2.0 * gamma) * z) / ((1.0 + gamma * z) * (1.0 + gamma * z));
}

bench::Case good_day(double dbh_cm, std::size_t count = 40) { return {bench::subject(dbh_cm), bench::loam(), bench::hours({}, 5, count)}; }

}  // namespace

TEST_SUITE("uptake") {
  TEST_CASE("a base cut off from its crown relaxes to its soil by the hand formula of implicit steps") {
    // C dpsi/dt = K (psi_s - psi).
    const auto k = stores(3.0, 5.0);
    const auto h = hour(12.0, -0.2, 0.0, 0.0);
    uptake::Water<double> water{-0.9, -0.5, 0.0, 0.0};
    double by_hand = -0.9 + 0.2;
    for (int i = 0; i < 40; ++i) {
      uptake::step(k, h, uptake::OpenPorts<double>{}, 0.05, water);
      by_hand *= left_after(12.0 * 0.05 / 3.0);
      CHECK(water.base_mpa == within(-0.2 + by_hand, 1e-12));
      CHECK(water.crown_mpa == -0.5);
    }
    // Many short steps are the exponential of the exact solution.
    water.base_mpa = -0.9;
    for (int i = 0; i < 10000; ++i) uptake::step(k, h, uptake::OpenPorts<double>{}, 1e-5, water);
    CHECK(water.base_mpa == within(-0.2 - 0.7 * std::exp(-12.0 * 0.1 / 3.0), 1e-5));
  }

  TEST_CASE("a base above its soil leaks back at the slower rate") {
    const auto k = stores(3.0, 5.0);
    uptake::Water<double> water{0.4, -0.5, 0.0, 0.0};
    const auto flows = uptake::step(k, hour(12.0, -0.2, 0.0, 0.0), uptake::OpenPorts<double>{}, 0.05, water);
    CHECK(water.base_mpa == within(-0.2 + 0.6 * left_after(0.2 * 12.0 * 0.05 / 3.0), 1e-12));
    CHECK(flows.root == within(3.0 * (water.base_mpa - 0.4) / 0.05, 1e-12));
  }

  TEST_CASE("ports and soil hold a base between them") {
    // At rest K beta (psi_s - psi) + G (P - psi) = 0.
    const auto k = stores(3.0, 5.0);
    uptake::OpenPorts<double> ports;
    ports.early_l_h_mpa = ports.late_l_h_mpa = 7.0;
    ports.pressure_mpa = 0.085;
    uptake::Water<double> water{-0.2, -0.5, 0.0, 0.0};
    uptake::Flows<double> flows{};
    for (int i = 0; i < 4000; ++i) flows = uptake::step(k, hour(12.0, -0.2, 0.0, 0.0), ports, 0.05, water);
    CHECK(water.base_mpa == within((0.2 * 12.0 * -0.2 + 7.0 * 0.085) / (0.2 * 12.0 + 7.0), 1e-9));
    CHECK(flows.ports == within(-flows.root, 1e-9));
  }

  TEST_CASE("the check valves let nothing back out of a tree above the applied pressure") {
    uptake::OpenPorts<double> ports;
    ports.early_l_h_mpa = ports.late_l_h_mpa = 50.0;
    ports.pressure_mpa = 0.05;
    uptake::Water<double> water{0.3, -0.5, 0.0, 4.0};
    const auto flows = uptake::step(stores(3.0, 5.0), hour(12.0, 0.2, 0.0, 0.0), ports, 0.05, water);
    CHECK(flows.ports == 0.0);
    CHECK(water.volume_l == 4.0);
  }

  TEST_CASE("in steady demand what leaves give off is what stem and roots carry") {
    uptake::Water<double> water{-0.1, -0.2, 0.0, 0.0};
    uptake::Flows<double> flows{};
    for (int i = 0; i < 4000; ++i)
      flows = uptake::step(stores(3.0, 5.0), hour(40.0, -0.05, 60.0, 8.0), uptake::OpenPorts<double>{}, 0.05, water);
    CHECK(flows.root == within(flows.leaves, 1e-8));
    CHECK(flows.xylem == within(flows.leaves, 1e-8));
    CHECK(flows.leaves == within(8.0 / (1.0 + std::pow(-water.crown_mpa / 1.3, 5.0)), 1e-8));
    CHECK(flows.xylem ==
          within(60.0 * std::pow(2.0, -std::pow(-water.crown_mpa / 1.1, 2.5)) * (water.base_mpa - water.crown_mpa - 0.1), 1e-7));
  }

  TEST_CASE("without pressure a tree drinks only by its own tension") {
    bench::Case pulling = good_day(80);
    pulling.subject.pressure = units::Megapascals{0.0};
    CHECK(bench::volume(pulling, bench::middle(pulling), 4.0, 4.0) > 1.0);
    bench::Weather still;
    still.leaf_share = 0.0;
    still.rew = 1.5;
    bench::Case resting{bench::subject(80), soil::RewCurve{shipped::texture("clay")}, bench::hours(still, 5, 20)};
    REQUIRE(resting.curve.psi_mpa(1.5) == 0.0);
    resting.subject.pressure = units::Megapascals{0.0};
    CHECK(bench::volume(resting, bench::middle(resting), 4.0, 4.0) == within(0.0, 1e-6));
  }

  TEST_CASE("one port in a huge tree takes what its own conductance lets in") {
    // The base hardly notices: Q = g0 s_hole w (mu20/mu) (P - psi_b), and the lumens (A_max - A)/tau_A P/0.1 beside it.
    bench::Case c = good_day(400);
    c.subject.port_count = 1.0;
    const auto draw = bench::middle(c);
    auto day = bench::day(c, draw);
    day.dose_l = 1e12;
    auto water = uptake::at_rest(day);
    constexpr std::size_t opened = 4 * uptake::steps_per_hour;
    uptake::rest(day, 0, opened, water, bench::unseen);
    const double base_mpa = water.base_mpa, w0 = std::exp(std::min(base_mpa, 0.0) / draw.drilling_mpa) * day.hours[4].native_open;
    uptake::Flows<double> flows{};
    uptake::drink(day, opened, opened + 1, water, [&](std::size_t, const uptake::Flows<double>& f, const uptake::Water<double>&) { flows = f; });
    const double t = day.step_h, thin = day.hours[4].port_fluidity;
    const auto mean = [t](double tau) { return tau / t * (1.0 - std::exp(-t / tau)); };
    const double open = w0 * ((1.0 - draw.fast_share) * mean(draw.slow_hours) + draw.fast_share * mean(draw.fast_hours));
    const auto by_hand = [&](double base) { return draw.conductance_l_h_mpa * draw.hole_factor * thin * open * (0.085 - base); };
    const double least = by_hand(std::max(base_mpa, water.base_mpa)), most = by_hand(std::min(base_mpa, water.base_mpa));
    CHECK(flows.ports > least);
    CHECK(flows.ports < most);
    CHECK(most - least < 0.05 * most);
    const double per_h = 0.085 / 0.1 * thin * w0 / draw.lumens_hours;
    CHECK(flows.lumens == within(draw.lumens_l_per_port * (1.0 - std::exp(-per_h * t)) / t, 1e-12));
  }

  TEST_CASE("ports lose their fast part within the hour and keep the slow one") {
    const auto draw = bench::middle(good_day(80));
    constexpr double step_h = 0.05;
    uptake::Fatigue<double> fatigue{draw, 1.0};
    fatigue.set_step(step_h);
    double before = 1.0, sum = 0.0;
    for (int i = 0; i < 40; ++i) {
      CHECK(fatigue.early() < before);
      CHECK(fatigue.late() < fatigue.early());
      before = fatigue.late();
      sum += step_h * ((1.0 - uptake::gamma_share) * fatigue.early() + uptake::gamma_share * fatigue.late());
      fatigue.next_step();
    }
    // The mean over two hours by hand: integral of (1 - phi) exp(-t/tau_s) + phi exp(-t/tau_f).
    const auto integral = [](double tau) { return tau * (1.0 - std::exp(-2.0 / tau)); };
    CHECK(sum == within((1.0 - draw.fast_share) * integral(draw.slow_hours) + draw.fast_share * integral(draw.fast_hours), 1e-12));
    CHECK(before == within((1.0 - draw.fast_share) * std::exp(-2.0 / draw.slow_hours), 0.002));
  }

  TEST_CASE("more cloud than forecast takes light, less gives it back, none changes nothing") {
    uptake::HourWeather w;
    w.clear_sky_w_m2 = 800.0;
    w.shortwave_w_m2 = 800.0 * (1.0 - 0.75 * std::pow(0.6, 3.4));  // 60 % cloud by Kasten & Czeplak (1980)
    CHECK(uptake::shifted_shortwave(w, 0.0) == within(w.shortwave_w_m2, 1e-9));
    CHECK(uptake::shifted_shortwave(w, 0.4) == within(200.0, 1e-9));
    CHECK(uptake::shifted_shortwave(w, -0.6) == within(800.0, 1e-9));
    CHECK(uptake::shifted_shortwave(w, 5.0) == within(200.0, 1e-9));
    w.clear_sky_w_m2 = w.shortwave_w_m2 = 0.0;
    CHECK(uptake::shifted_shortwave(w, -1.0) == 0.0);
  }
}
