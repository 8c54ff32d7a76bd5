#include "soil/observation.h"

#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <cmath>

#include "soil/water_balance.h"
#include "support/soil_fixture.h"
#include "support/within.h"

using namespace soil;

TEST_SUITE("soil") {
  TEST_CASE("a guess and a reading weigh in by their variances, as two normals do") {
    Parameters p = soil_fixture::parameters();
    p.layer_bottoms_cm = {15};
    const RootZone zone = RootZone::make(p, soil_fixture::texture("loam")).value();
    State state = start_at(zone, 0.5, 0.2);
    REQUIRE(correct(zone, stated_rew(zone, 0, 0.8, 0.1), state));
    // Precision-weighted mean (0.5 / 0.04 + 0.8 / 0.01) / (25 + 100), variance 1 / 125.
    CHECK(zone.rew(state.theta) == within(0.74, 1e-9));
    CHECK(rew_sd(zone, state) == within(std::sqrt(1.0 / 125.0), 1e-9));
  }

  TEST_CASE("a sharp probe sets its layer and pulls the neighbours, less with distance") {
    const RootZone zone = soil_fixture::root_zone("loam");
    State state = start_at(zone, 0.5, 0.25);
    const double theta = zone.curve().theta(0.9);
    const auto added = correct(zone, probe_reading(zone, 0, 20.0, theta, 0.001), state);
    REQUIRE(added);
    CHECK(zone.curve().rew(state.theta[1]) == within(0.9, 0.01));
    double before = 1.0;
    for (std::size_t i = 1; i < zone.layers(); ++i) {
      const double rew = zone.curve().rew(state.theta[i]);
      CHECK(rew < before);
      CHECK(rew > 0.5);
      before = rew;
    }
    CHECK(*added > 0.0);
    CHECK(rew_sd(zone, state) < 0.15);
  }

  TEST_CASE("a vague reading changes next to nothing, and no reading ever makes REW less well known") {
    const RootZone zone = soil_fixture::root_zone("loam");
    State state = start_at(zone, 0.5, 0.25);
    const double before = rew_sd(zone, state);
    REQUIRE(correct(zone, {0, 0, 30, 0.4, 10.0}, state));
    CHECK(zone.rew(state.theta) == within(0.5, 1e-3));
    CHECK(rew_sd(zone, state) <= before);
  }

  TEST_CASE("what is not known of two layers goes together the less the farther their middles lie apart") {
    const RootZone zone = soil_fixture::root_zone("loam");
    const State state = start_at(zone, 0.5, 0.2);
    const std::size_t n = zone.layers();
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t j = 0; j < n; ++j) {
        const double apart_cm = std::abs(zone.top_cm(i) + zone.bottom_cm(i) - zone.top_cm(j) - zone.bottom_cm(j)) / 2.0;
        CHECK(state.rew_covariance[i * n + j] == within(0.04 * std::exp(-apart_cm / zone.parameters().correlation_cm), 1e-12));
      }
  }

  TEST_CASE("covariance stays symmetric and positive through many readings and hours") {
    const RootZone zone = soil_fixture::root_zone("clay");
    State state = guessed_start(zone);
    const auto n = static_cast<Eigen::Index>(zone.layers());
    for (int i = 0; i < 400; ++i) {
      age_uncertainty(zone, i % 7 != 0, state);
      if (i % 5 == 0) REQUIRE(correct(zone, probe_reading(zone, 0, 5.0 + (i * 13) % 130, zone.curve().theta(0.1 * (i % 10)), 0.01), state));
      const Eigen::Map<Eigen::MatrixXd> p(state.rew_covariance.data(), n, n);
      CHECK((p - p.transpose()).cwiseAbs().maxCoeff() < 1e-12);
      CHECK(Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(p).eigenvalues().minCoeff() > -1e-12);
    }
  }

  TEST_CASE("what was known fades back to the settled uncertainty, from above and from below") {
    const RootZone zone = soil_fixture::root_zone("loam");
    State guessed = guessed_start(zone), measured = start_at(zone, 0.5, 0.02), settled = start_at(zone, 0.5, 0.15);
    double last_guessed = rew_sd(zone, guessed), last_measured = rew_sd(zone, measured);
    const double end = rew_sd(zone, settled);
    for (int h = 0; h < 24 * 90; ++h) {
      age_uncertainty(zone, true, guessed);
      age_uncertainty(zone, true, measured);
      CHECK(rew_sd(zone, guessed) <= last_guessed);
      CHECK(rew_sd(zone, measured) >= last_measured);
      last_guessed = rew_sd(zone, guessed);
      last_measured = rew_sd(zone, measured);
    }
    CHECK(last_guessed == within(end, 0.02));
    CHECK(last_measured == within(end, 0.02));
    CHECK(share_of_start_left(zone, 720.0) == within(std::exp(-1.0), 1e-12));
  }

  TEST_CASE("a month of unknown rain leaves no more than ignorance") {
    for (const Texture& t : soil_fixture::textures()) {
      const RootZone zone = soil_fixture::root_zone(t.key);
      State state = start_at(zone, 0.5, 0.05);
      for (int h = 0; h < 24 * 30; ++h) age_uncertainty(zone, false, state);
      CHECK(rew_sd(zone, state) > 0.1);
      CHECK(rew_sd(zone, state) <= 0.29 + 1e-12);
    }
  }

  TEST_CASE("a hand's class says the middle of its quarter, give or take the quarter") {
    // USDA-NRCS, Estimating Soil Moisture by Feel and Appearance: classes of 0-25, 25-50, 50-75, 75-100 % of available water and field
    // capacity.
    const RootZone zone = soil_fixture::root_zone("sandy_loam");
    const RewCurve& curve = zone.curve();
    CHECK(curve.rew(felt(zone, 0, 0, 30, Feel::below_quarter).theta) == within(0.125, 1e-12));
    CHECK(curve.rew(felt(zone, 0, 0, 30, Feel::quarter_to_half).theta) == within(0.375, 1e-12));
    CHECK(curve.rew(felt(zone, 0, 0, 30, Feel::half_to_three_quarters).theta) == within(0.625, 1e-12));
    CHECK(curve.rew(felt(zone, 0, 0, 30, Feel::above_three_quarters).theta) == within(0.875, 1e-12));
    CHECK(curve.rew(felt(zone, 0, 0, 30, Feel::field_capacity).theta) == within(1.0, 1e-12));
    const double sd = felt(zone, 0, 0, 30, Feel::quarter_to_half).theta_sd / curve.available();
    CHECK(sd == within(std::sqrt(0.25 * 0.25 / 12.0 + 0.05 * 0.05), 1e-12));
  }

  TEST_CASE("a hand's probe, a hand and a stated figure bring their own variances, and the surer one moves the ground more") {
    const RootZone zone = soil_fixture::root_zone("loam");
    CHECK(hand_probe(zone, 3, 20.0, 0.2).theta_sd == 0.03);
    CHECK(hand_probe(zone, 3, 20.0, 0.2).bottom_cm == 25.0);
    CHECK(felt_from_the_top(zone, 3, Feel::below_quarter).bottom_cm == 30.0);
    CHECK(stated_rew(zone, 3, 0.4).theta_sd == within(0.05 * zone.curve().available(), 1e-12));
    const auto moved = [&](const Observation& observation) {
      State state = start_at(zone, 0.8, 0.2);
      REQUIRE(correct(zone, observation, state));
      return 0.8 - zone.rew(state.theta);
    };
    const double dry = zone.curve().theta(0.125);
    const double by_service = moved({3, 0.0, 30.0, dry, zone.parameters().provider_sd_m3_m3});
    const double by_probe = moved({3, 0.0, 30.0, dry, zone.parameters().probe_sd_m3_m3});
    const double by_hand = moved(felt_from_the_top(zone, 3, Feel::below_quarter));
    CHECK(by_service > 0.02);
    CHECK(by_probe > by_service + 0.02);
    CHECK(by_hand > by_probe + 0.02);
  }

  TEST_CASE("a service's soil moisture moves the state less than a hand in the ground") {
    const RootZone zone = soil_fixture::root_zone("loam");
    weather::Column wet(3);
    wet.set(2, zone.curve().theta(0.9), weather::Provenance::analysed);
    const std::vector<weather::SoilLayer> layers{{units::Metres{0.0}, units::Metres{0.07}, wet, {}},
                                                 {units::Metres{0.07}, units::Metres{0.28}, weather::Column(3), {}},
                                                 {units::Metres{2.0}, units::Metres{2.9}, wet, {}}};
    const auto readings = provider_reading(zone, layers, 2, 48);
    REQUIRE(readings.size() == 1);  // a layer without a value says nothing; one below the root zone is not ours
    CHECK(readings[0].hour == 48);
    CHECK(readings[0].bottom_cm == within(7.0, 1e-12));
    CHECK(provider_reading(zone, layers, 1, 48).empty());
    State by_service = start_at(zone, 0.3, 0.2), by_hand = by_service;
    REQUIRE(correct(zone, readings[0], by_service));
    REQUIRE(correct(zone, felt(zone, 48, 0, 7, Feel::above_three_quarters), by_hand));
    CHECK(zone.rew(by_service.theta) > 0.3);
    CHECK(zone.rew(by_service.theta) < zone.rew(by_hand.theta) - 0.1);
  }

  TEST_CASE("a correction is on the books: the run says how much water it put in") {
    const RootZone zone = soil_fixture::root_zone("loam");
    Forcing forcing;
    forcing.rain_mm = forcing.et0_mm = forcing.temp_c = weather::Column(48);
    for (std::size_t h = 0; h < 48; ++h) {
      forcing.rain_mm.set(h, 0.0, weather::Provenance::observed);
      forcing.et0_mm.set(h, 0.1, weather::Provenance::derived);
      forcing.temp_c.set(h, 15.0, weather::Provenance::observed);
    }
    forcing.leaf_share.assign(48, 1.0);
    const auto result = run(zone, start_at(zone, 0.4, 0.2), forcing, {stated_rew(zone, 24, 0.8, 0.05)});
    REQUIRE(result);
    const Hours& h = result->hours;
    double stored = 0.0;
    for (std::size_t i = 0; i < zone.layers(); ++i) stored += (h.theta[i][24] - h.theta[i][23]) * zone.thickness_mm(i);
    CHECK(stored == within(h.correction_mm[24] - h.uptake_mm[24] - h.evaporation_mm[24] - h.drainage_mm[24], 1e-9));
    CHECK(h.correction_mm[24] > 10.0);
    CHECK(h.correction_mm[25] == 0.0);
    CHECK(h.rew_sd[24] < h.rew_sd[23]);
  }

  TEST_CASE("corrected water contents stay between the driest a layer can be and saturation") {
    const RootZone zone = soil_fixture::root_zone("sand");
    State state = start_at(zone, 0.5, 0.29);
    REQUIRE(correct(zone, {0, 0, 150, 1.0, 0.001}, state));
    for (double theta : state.theta) CHECK(theta <= zone.texture().theta_s);
    REQUIRE(correct(zone, {0, 0, 150, 0.0, 1e-6}, state));
    for (std::size_t i = 0; i < zone.layers(); ++i) CHECK(state.theta[i] >= zone.driest_theta(i));
  }

  TEST_CASE("a reading that cannot be is refused by name") {
    const RootZone zone = soil_fixture::root_zone("loam");
    State state = guessed_start(zone);
    CHECK(correct(zone, {0, 0, 10, 24.0, 0.02}, state).error().where == "soil moisture");
    CHECK(correct(zone, {0, 0, 10, std::nan(""), 0.02}, state).error().where == "soil moisture");
    CHECK(correct(zone, {0, 0, 10, 0.24, 0.0}, state).error().where == "soil moisture standard deviation");
    CHECK(correct(zone, {0, 200, 220, 0.24, 0.02}, state).error().where == "soil moisture depth");
    CHECK(correct(zone, {0, 30, 10, 0.24, 0.02}, state).error().where == "soil moisture depth");
  }
}
