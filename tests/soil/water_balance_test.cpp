#include "soil/water_balance.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <string>
#include <tuple>

#include "support/soil_fixture.h"
#include "support/within.h"

using namespace soil;
using weather::Column;
using weather::Provenance;

namespace {

double stored(const RootZone& zone, const State& state) {
  double sum = state.ponded_mm + zone.parameters().crown_share * state.crown_store_mm;
  for (std::size_t i = 0; i < zone.layers(); ++i) sum += state.theta[i] * zone.thickness_mm(i);
  return sum;
}

double gone(const HourFlows& f) { return f.interception + f.evaporation + f.uptake + f.drainage + f.runoff; }

// The raw bits are the same with every library; its distributions are not.
double uniform(std::mt19937& random) { return static_cast<double>(random()) / 4294967296.0; }

HourInput stormy_hour(std::mt19937& random) {
  HourInput hour;
  const double kind = uniform(random);
  hour.rain_mm = kind < 0.85 ? 0.0 : kind < 0.97 ? 8.0 * uniform(random) : 120.0 * uniform(random);
  if (kind > 0.995) hour.rain_mm.reset();
  if (uniform(random) < 0.01) hour.irrigation_mm = 25.0 * uniform(random);
  hour.et0_mm = uniform(random) < 0.5 ? 0.0 : 1.2 * uniform(random);
  hour.leaf_share = uniform(random);
  return hour;
}

Column steady(std::size_t hours, double value) {
  Column column(hours);
  for (std::size_t h = 0; h < hours; ++h) column.set(h, value, Provenance::observed);
  return column;
}

Forcing dry_days(std::size_t hours, double et0_mm = 0.2) {
  Forcing f;
  f.rain_mm = steady(hours, 0.0);
  f.et0_mm = steady(hours, et0_mm);
  f.temp_c = steady(hours, 20.0);
  f.leaf_share.assign(hours, 1.0);
  return f;
}

Forcing showery_days(std::size_t hours, unsigned seed) {
  std::mt19937 random(seed);
  Forcing f = dry_days(hours);
  for (std::size_t h = 0; h < hours; ++h)
    if (uniform(random) < 0.04) f.rain_mm.set(h, 6.0 * uniform(random), Provenance::observed);
  return f;
}

}  // namespace

TEST_SUITE("soil") {
  TEST_CASE("water in is water out and stored, every hour of random storms, droughts and gaps on all twelve textures") {
    std::mt19937 random(20260711);
    for (const Texture& t : soil_fixture::textures()) {
      CAPTURE(t.key);
      const RootZone zone = soil_fixture::root_zone(t.key);
      State state = start_at(zone, uniform(random), 0.2);
      double worst = 0.0;
      bool inside = true, no_negative_flow = true;
      for (int h = 0; h < 3000; ++h) {
        const double before = stored(zone, state);
        const HourFlows f = step_water(zone, stormy_hour(random), state);
        worst = std::max({worst, std::abs(f.imbalance), std::abs(f.rain + f.irrigation - gone(f) - (stored(zone, state) - before))});
        for (std::size_t i = 0; i < zone.layers(); ++i)
          inside = inside && state.theta[i] >= zone.driest_theta(i) - 1e-9 && state.theta[i] <= t.theta_s + 1e-9;
        no_negative_flow =
            no_negative_flow && f.interception >= 0 && f.evaporation >= 0 && f.uptake >= 0 && f.drainage >= 0 && f.runoff >= 0;
      }
      CHECK(worst <= 1e-9);
      CHECK(inside);
      CHECK(no_negative_flow);
    }
  }

  TEST_CASE("ninety days of showers make two starts forget where they began") {
    const Forcing forcing = showery_days(92 * 24, 3);
    for (const char* key : {"sandy_loam", "loam", "silt_loam", "clay_loam"}) {
      CAPTURE(std::string(key));
      const RootZone zone = soil_fixture::root_zone(key);
      const auto dry = run(zone, start_at(zone, 0.3, 0.29), forcing), wet = run(zone, start_at(zone, 0.9, 0.29), forcing);
      REQUIRE(dry);
      REQUIRE(wet);
      CHECK(wet->hours.rew.back() - dry->hours.rew.back() < 0.2);  // of 0.6: deep layers remember longest
      CHECK(dry->hours.rew_sd.back() == within(0.15, 0.04));       // near the settled deviation of the parameters
    }
  }

  TEST_CASE("without water the root zone only dries, ever more slowly, down to wilting and no further") {
    for (const Texture& t : soil_fixture::textures()) {
      CAPTURE(t.key);
      const RootZone zone = soil_fixture::root_zone(t.key);
      const auto result = run(zone, start_at(zone, 1.0, 0.1), dry_days(300 * 24));
      REQUIRE(result);
      const Hours& h = result->hours;
      for (std::size_t i = 1; i < h.size(); ++i) CHECK_MESSAGE(h.rew[i] <= h.rew[i - 1] + 1e-12, i);
      CHECK(h.uptake_mm[24 * 299] < 0.05 * h.uptake_mm[0]);
      CHECK(h.rew.back() < 0.1);  // few roots reach the water at 150 cm
      CHECK(h.psi_mpa.back() >= -1.5 - 1e-9);
    }
  }

  TEST_CASE("a cloudburst runs off clay and goes into sand") {
    HourInput cloudburst;
    cloudburst.rain_mm = 50.0;
    const RootZone clay = soil_fixture::root_zone("clay"), sand = soil_fixture::root_zone("sand");
    State on_clay = start_at(clay, 1.0, 0.1), on_sand = start_at(sand, 1.0, 0.1);
    CHECK(step_water(clay, cloudburst, on_clay).runoff > 25.0);
    CHECK(step_water(sand, cloudburst, on_sand).runoff == 0.0);
  }

  TEST_CASE("dry ground takes a cloudburst no faster than it conducts when saturated; the rest stands, then runs off") {
    Parameters p = soil_fixture::parameters();
    p.crown_share = 0.0;
    const RootZone zone = RootZone::make(p, soil_fixture::texture("loam")).value();
    State state = start_at(zone, 0.1, 0.1);
    HourInput cloudburst;
    cloudburst.rain_mm = 50.0;
    const HourFlows f = step_water(zone, cloudburst, state);
    CHECK(state.ponded_mm == within(5.0, 1e-12));
    CHECK(f.runoff == within(50.0 - 10.4 - 5.0, 1e-9));  // 24.96 cm/d is 10.4 mm/h
  }

  TEST_CASE("between its two marks the surface evaporates in proportion to what is left, FAO-56 eq. 74") {
    Parameters p = soil_fixture::parameters();
    p.kcb_full_leaf = 0.0;
    p.exposed_full_leaf = 1.0;
    const RootZone zone = RootZone::make(p, soil_fixture::texture("loam")).value();
    State state = start_at(zone, 1.0, 0.1);
    const double halfway = 0.5 * (zone.readily_evaporable_mm() + zone.total_evaporable_mm());
    state.theta[0] -= halfway / zone.thickness_mm(0);
    HourInput hour;
    hour.rain_mm = 0.0;
    hour.et0_mm = 0.02;
    hour.leaf_share = 1.0;
    CHECK(step_water(zone, hour, state).evaporation == within(0.5 * 1.2 * 0.02, 1e-4));
  }

  TEST_CASE("a drizzle that only wets the leaves does not reach the ground under a closed crown") {
    Parameters p = soil_fixture::parameters();
    p.crown_share = 1.0;
    const RootZone zone = RootZone::make(p, soil_fixture::texture("loam")).value();
    State state = start_at(zone, 0.5, 0.1);
    HourInput drizzle;
    drizzle.rain_mm = 0.6;  // below the store of 0.1 + 0.15 * 4.4
    drizzle.leaf_share = 1.0;
    const auto before = state.theta;
    step_water(zone, drizzle, state);
    CHECK(state.crown_store_mm == within(0.6, 1e-12));
    CHECK(state.theta[0] <= before[0]);
    // Leafless, the bark holds a tenth and the rest falls through.
    drizzle.leaf_share = 0.0;
    step_water(zone, drizzle, state);
    CHECK(state.crown_store_mm == within(0.1, 1e-12));
    CHECK(state.theta[0] > before[0]);
  }

  TEST_CASE("a wet crown spends the energy that would have drawn water from the soil") {
    const RootZone zone = soil_fixture::root_zone("loam");
    State wet = start_at(zone, 0.9, 0.1), dry = wet;
    wet.crown_store_mm = 0.7;
    HourInput hour;
    hour.rain_mm = 0.0;
    hour.et0_mm = 0.5;
    hour.leaf_share = 1.0;
    CHECK(step_water(zone, hour, wet).uptake < step_water(zone, hour, dry).uptake);
  }

  TEST_CASE("bare ground stops evaporating at its total evaporable water") {
    Parameters p = soil_fixture::parameters();
    p.kcb_full_leaf = 0.0;
    p.exposed_full_leaf = 1.0;
    const RootZone zone = RootZone::make(p, soil_fixture::texture("silt_loam")).value();
    const auto result = run(zone, start_at(zone, 1.0, 0.1), dry_days(90 * 24));
    REQUIRE(result);
    double sum = 0.0;
    for (double mm : result->hours.evaporation_mm) sum += mm;
    CHECK(sum <= zone.total_evaporable_mm() + 1e-9);
    CHECK(sum > 0.9 * zone.total_evaporable_mm());
    // Stage one: at the energy limit Kc max x ET0 until the readily evaporable water is gone.
    CHECK(result->hours.evaporation_mm[0] == within(1.2 * 0.2, 1e-12));
    CHECK(result->hours.evaporation_mm[24 * 30] < 0.1 * 1.2 * 0.2);
  }

  TEST_CASE("wet layers make up for a dry top: uptake goes deeper as the surface dries") {
    const RootZone zone = soil_fixture::root_zone("loam");
    State state = start_at(zone, 1.0, 0.1);
    state.theta[0] = state.theta[1] = zone.curve().wilting();
    const auto before = state.theta;
    HourInput hour;
    hour.rain_mm = 0.0;
    hour.et0_mm = 0.5;
    hour.leaf_share = 1.0;
    const HourFlows f = step_water(zone, hour, state);
    const double share_below = 1.0 - zone.root_share()[0] - zone.root_share()[1];
    CHECK(f.uptake > 1.15 * 0.5 * share_below);
    CHECK(state.theta[1] == within(before[1], 1e-6));
  }

  TEST_CASE("an hour of unknown rain is not a dry hour: it is counted, expected rain stands in, and REW is less well known") {
    const RootZone zone = soil_fixture::root_zone("loam");
    Forcing known = dry_days(240), gap = known;
    for (std::size_t h = 60; h < 132; ++h) gap.rain_mm.set(h, 0.0, Provenance::missing);
    const State start = start_at(zone, 0.5, 0.1);
    const auto a = run(zone, start, known), b = run(zone, start, gap);
    REQUIRE(a);
    REQUIRE(b);
    CHECK(a->unknown_rain_h == 0);
    CHECK(b->unknown_rain_h == 72);
    CHECK(b->hours.rain_mm[100] == 0.11);
    CHECK(b->hours.rew_sd[59] == a->hours.rew_sd[59]);
    CHECK(b->hours.rew_sd[131] > a->hours.rew_sd[131] + 0.01);
    CHECK(b->hours.rew[131] > a->hours.rew[131]);
  }

  TEST_CASE("irrigation and a gauge's rain go in whole") {
    const RootZone zone = soil_fixture::root_zone("loam");
    Forcing forcing = dry_days(48, 0.0);
    forcing.irrigation_mm = Column(48);
    forcing.irrigation_mm.set(10, 12.0, Provenance::observed);
    const auto result = run(zone, start_at(zone, 0.4, 0.1), forcing);
    REQUIRE(result);
    double gained = 0.0;
    for (std::size_t i = 0; i < zone.layers(); ++i)
      gained += (result->hours.theta[i][20] - result->hours.theta[i][9]) * zone.thickness_mm(i);
    CHECK(gained == within(12.0, 0.01));
    CHECK(result->hours.rew[20] > result->hours.rew[9]);
  }

  TEST_CASE("hours without breathing room are counted while it lasts and forgotten when it ends") {
    const RootZone loam = soil_fixture::root_zone("loam"), clay = soil_fixture::root_zone("clay");
    Forcing forcing = dry_days(96, 0.0);
    for (std::size_t h = 0; h < 24; ++h) forcing.rain_mm.set(h, 15.0, Provenance::observed);
    const auto drained = run(loam, start_at(loam, 0.8, 0.1), forcing), soaked = run(clay, start_at(clay, 0.8, 0.1), forcing);
    REQUIRE(drained);
    REQUIRE(soaked);
    CHECK(drained->hours.saturated_h[23] > 10.0);
    CHECK(drained->hours.saturated_h[95] == 0.0);
    CHECK(soaked->hours.saturated_h[23] > 10.0);
    CHECK(soaked->hours.saturated_h[30] == soaked->hours.saturated_h[23] + 7.0);
    CHECK(run(clay, start_at(clay, 0.8, 0.1), dry_days(24))->hours.saturated_h.back() == 0.0);
  }

  TEST_CASE("a tenth of air is room to breathe, however much more the soil could drain") {
    Parameters p = soil_fixture::parameters();
    p.breathing_share = 1.0;
    const RootZone zone = RootZone::make(p, soil_fixture::texture("loam")).value();
    State state = start_at(zone, 1.0, 0.1);
    for (double air : {0.09, 0.15}) {  // a loam drains to 0.22 of air
      state.theta.assign(zone.layers(), zone.texture().theta_s - air);
      step_water(zone, {}, state);
      CHECK(state.saturated_h == (air < 0.10 ? 1.0 : 0.0));
    }
  }

  TEST_CASE("the root zone follows the air with its time constant, and a provider's soil temperature wins") {
    const RootZone zone = soil_fixture::root_zone("loam");
    Forcing forcing = dry_days(300);
    State start = start_at(zone, 0.5, 0.1);
    start.temp_c = 10.0;
    const auto lagged = run(zone, start, forcing);
    REQUIRE(lagged);
    CHECK(lagged->hours.temp_c[119] == within(20.0 - 10.0 * std::exp(-1.0), 1e-9));  // 120 h memory
    forcing.soil_temp_c = Column(300);
    forcing.soil_temp_c.set(150, 13.5, Provenance::analysed);
    const auto told = run(zone, start, forcing);
    CHECK(told->hours.temp_c[150] == 13.5);
    CHECK(told->hours.temp_c[151] == within(13.5 + 6.5 * (1.0 - std::exp(-1.0 / 120.0)), 1e-9));
    CHECK(run(zone, start_at(zone, 0.5, 0.1), dry_days(10))->hours.temp_c[0] == within(20.0, 1e-12));
  }

  TEST_CASE("a run cut in two at any hour gives the same bits as one") {
    const RootZone zone = soil_fixture::root_zone("silt_loam");
    const Forcing whole = showery_days(200, 8);
    const auto once = run(zone, guessed_start(zone), whole);
    REQUIRE(once);
    for (std::size_t cut : {1u, 77u, 199u}) {
      Forcing first = whole, second = dry_days(200 - cut);
      for (std::size_t h = cut; h < 200; ++h) second.rain_mm.set(h - cut, *whole.rain_mm.at(h), Provenance::observed);
      first.rain_mm.resize(cut);
      first.et0_mm.resize(cut);
      first.temp_c.resize(cut);
      first.leaf_share.resize(cut);
      const auto head = run(zone, guessed_start(zone), first);
      const auto tail = run(zone, head->end, second);
      REQUIRE(tail);
      CHECK(tail->hours.rew.back() == once->hours.rew.back());
      CHECK(tail->hours.rew_sd.back() == once->hours.rew_sd.back());
      CHECK(tail->end.theta == once->end.theta);
    }
  }

  TEST_CASE("an hour without ET0 takes the day before, and is counted") {
    const RootZone zone = soil_fixture::root_zone("loam");
    Forcing forcing = dry_days(72), gap = forcing;
    for (std::size_t h = 0; h < 72; ++h) forcing.et0_mm.set(h, h % 24 < 12 ? 0.4 : 0.0, Provenance::derived);
    gap = forcing;
    for (std::size_t h = 30; h < 50; ++h) gap.et0_mm.set(h, 0.0, Provenance::missing);
    const auto a = run(zone, guessed_start(zone), forcing), b = run(zone, guessed_start(zone), gap);
    REQUIRE(b);
    CHECK(b->assumed_et0_h == 20);
    CHECK(b->hours.rew.back() == a->hours.rew.back());
  }

  TEST_CASE("input that cannot be is refused by name") {
    const RootZone zone = soil_fixture::root_zone("loam");
    const State start = guessed_start(zone);
    Forcing f = dry_days(24);
    f.leaf_share.pop_back();
    CHECK(run(zone, start, f).error().where == "soil forcing");
    f = dry_days(24);
    f.rain_mm.set(5, -2.0, Provenance::observed);
    CHECK(run(zone, start, f).error().where == "rain_mm of hour 5");
    f = dry_days(24);
    f.rain_mm.set(5, std::nan(""), Provenance::observed);
    CHECK(run(zone, start, f).error().where == "rain_mm of hour 5");
    // Just outside the limits of each column.
    for (const auto& [column, where, lowest, highest] :
         {std::tuple{&Forcing::rain_mm, "rain_mm of hour 5", 0.0, 400.0},
          std::tuple{&Forcing::irrigation_mm, "irrigation_mm of hour 5", 0.0, 400.0},
          std::tuple{&Forcing::et0_mm, "et0_mm of hour 5", -1.0, 3.0}, std::tuple{&Forcing::temp_c, "temp_c of hour 5", -60.0, 60.0}})
      for (const double outside : {lowest - 0.01, highest + 0.01}) {
        f = dry_days(24);
        f.irrigation_mm = Column(24);
        (f.*column).set(5, outside, Provenance::observed);
        CHECK(run(zone, start, f).error().where == where);
      }
    f = dry_days(24);
    f.leaf_share[3] = 1.5;
    CHECK(run(zone, start, f).error().where == "leaf_share of hour 3");
    f = dry_days(24);
    f.et0_mm = Column(24);
    CHECK(run(zone, start, f).error().where == "et0_mm");
    f = dry_days(24);
    f.temp_c = Column(24);
    CHECK(run(zone, start, f).error().where == "temp_c");
    CHECK(run(zone, start, dry_days(24), {Observation{24, 0, 10, 0.2, 0.02}}).error().where == "soil observation");
    State wrong = start;
    wrong.theta[2] = 0.9;
    CHECK(run(zone, wrong, dry_days(24)).error().where == "soil state");
    wrong = start;
    wrong.theta.pop_back();
    CHECK(run(zone, wrong, dry_days(24)).error().where == "soil state");
    CHECK(run(zone, start, Forcing{})->hours.size() == 0);
  }
}
