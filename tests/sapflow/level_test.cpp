#include "sapflow/level.h"

#include <doctest/doctest.h>

#include <cmath>

#include "sapflow/invented_stand.h"
#include "support/within.h"

namespace {

const sapflow::Noise& noise() { return shipped::models().sapflow.noise; }

double season_variance() { return noise().tree_season_ln_sd * noise().tree_season_ln_sd / noise().trees_together; }

sapflow::Level level_at(double level, int from_day, int until_day) {
  const auto hours = invented::hours(120);
  const auto flow = invented::flow(hours, invented::medians());
  auto samples = invented::samples(flow, level);
  std::erase_if(samples,
                [&](const sapflow::Sample& s) { return hours.solar_day[s.hour] < from_day || hours.solar_day[s.hour] >= until_day; });
  return {noise(), hours, samples, flow};
}

}  // namespace

TEST_SUITE("sapflow") {
  TEST_CASE("a level held for a month is known on its days and trusted in the weeks beside them") {
    const auto level = level_at(0.7, 0, 30);
    CHECK(level.of(15).mean == within(std::log(0.7), 0.04));
    CHECK(level.of(40).mean == within(std::log(0.7), 0.08));
    CHECK(level.of(15).variance < level.of(40).variance);
    CHECK(level.of(40).variance < level.of(80).variance);
  }

  TEST_CASE("one odd day moves the level less than a month does") {
    CHECK(level_at(0.7, 10, 11).of(10).mean > 0.9 * std::log(0.7));
    CHECK(level_at(0.7, 10, 11).of(10).mean < -0.05);
  }

  TEST_CASE("the next season starts anew: lower at the median, and as vague as trees that are averaged leave it") {
    const auto level = level_at(1.5, 0, 30);
    const double vague = season_variance() + noise().drift_ln_sd * noise().drift_ln_sd;
    CHECK(level.of(400).mean == -noise().season_fall);
    CHECK(level.of(400).variance == within(vague, 1e-12));
    CHECK(level.of(-400).mean == 0.0);
    CHECK(std::sqrt(season_variance()) * std::sqrt(noise().trees_together) == within(0.7, 0.101));  // ln-SD of one tree, 0.6 to 0.8
  }

  TEST_CASE("nothing measured: no level, all of the doubt") {
    const auto level = level_at(1.0, 0, 0);
    CHECK(level.of(5).mean == 0.0);
    CHECK(level.of(5).variance > season_variance());
  }
}
