// Pricing against the trial of every set of stops, and tours against every order.
#include "plan/pricing.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "plan/check_plan.h"
#include "plan/dice.h"
#include "plan/invented.h"
#include "plan/relaxation.h"

namespace {

plan::Prices random_prices(const plan::Ground& ground, plan::Dice& dice) {
  plan::Prices prices{std::vector<double>(static_cast<std::size_t>(ground.jobs())),
                      std::vector<double>(static_cast<std::size_t>(ground.slots())),
                      std::vector<double>(static_cast<std::size_t>(ground.instance().days))};
  for (int job = 0; job < ground.jobs(); ++job)
    if (!ground.locked(job)) prices.job[static_cast<std::size_t>(job)] = 2.5 * dice.share();
  for (double& price : prices.rig) price = dice.share();
  return prices;
}

// Every set of the slot's candidates on top of its locked jobs that keeps the slot's rules.
void all_margins(const plan::Ground& ground, int slot, const plan::Prices& prices, std::size_t next, const plan::Stops& stops,
                 std::vector<double>& margins) {
  const int day = ground.day_of(slot);
  if (stops.count > 0 && ground.fits(slot, stops, ground.on_site_h(stops, day), ground.tour_h(ground.crew_of(slot), stops)))
    margins.push_back(prices.margin(ground, plan::column_of(ground, slot, stops)));
  const auto& candidates = ground.candidates(slot);
  if (stops.count == ground.max_stops()) return;
  for (; next < candidates.size(); ++next) {
    auto more = stops;
    more.add(candidates[next].slot);
    all_margins(ground, slot, prices, next + 1, more, margins);
  }
}

TEST_SUITE("pricing") {
  TEST_CASE("the best offers are the best of all sets of stops, at any prices") {
    std::size_t offered = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
      const auto instance = invented::instance(seed, {24, 2, 2});
      const plan::Ground ground(instance);
      plan::Dice dice(seed);
      const auto prices = random_prices(ground, dice);
      for (int slot = 0; slot < ground.slots(); ++slot) {
        CAPTURE(seed);
        CAPTURE(slot);
        std::vector<double> margins;
        all_margins(ground, slot, prices, 0, ground.locked_in(slot), margins);
        std::erase_if(margins, [](double margin) { return margin <= 0.3; });
        std::ranges::sort(margins, std::ranges::greater{});
        const auto offers = plan::price_slot(ground, slot, prices, {0.3, 5, 0, true});
        CHECK(offers.complete);
        REQUIRE(offers.best.size() == std::min<std::size_t>(5, margins.size()));
        for (std::size_t i = 0; i < offers.best.size(); ++i) {
          CHECK(offers.best[i].margin == doctest::Approx(margins[i]).epsilon(1e-9));
          CHECK(offers.best[i].margin == doctest::Approx(prices.margin(ground, offers.best[i].column)).epsilon(1e-9));
        }
        const auto best = plan::price_slot(ground, slot, prices, {0.3, 1, 0, false}).best;
        REQUIRE(best.size() == std::min<std::size_t>(1, margins.size()));
        if (!best.empty()) CHECK(best.front().margin == doctest::Approx(margins.front()).epsilon(1e-9));
        offered += offers.best.size();
      }
    }
    CHECK(offered > 300);
  }

  TEST_CASE("a walk cut short says so") {
    const auto instance = invented::instance(2, {40, 1, 1});
    const plan::Ground ground(instance);
    plan::Dice dice(1);
    auto prices = random_prices(ground, dice);
    for (double& price : prices.job) price = 0.0;
    CHECK_FALSE(plan::price_slot(ground, 0, prices, {0.0, 100, 3}).complete);
  }

  TEST_CASE("a tour is as long as the referee's, who tries every order") {
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
      auto instance = invented::instance(seed, {4, 1, 1});
      instance.max_stops = 4;
      plan::Stops stops;
      plan::Plan plan;
      for (int job = 0; job < 4; ++job) {
        const bool in = job <= static_cast<int>(seed % 4);
        if (in) stops.add(job);
        plan.push_back(in ? std::optional(plan::CrewDay{0, 0}) : std::nullopt);
      }
      CHECK(plan::Ground(instance).tour_h(0, stops) == doctest::Approx(plan::check_plan(instance, plan).travel_h).epsilon(1e-12));
    }
  }
}

}  // namespace
