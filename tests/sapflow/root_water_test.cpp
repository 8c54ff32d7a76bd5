#include "sapflow/root_water.h"

#include <doctest/doctest.h>

#include "support/within.h"

namespace {

std::vector<std::optional<double>> between(double dry, double wet) {
  std::vector<std::optional<double>> all;
  for (int i = 0; i <= 1000; ++i) all.push_back(dry + (wet - dry) * i / 1000.0);
  return all;
}

}  // namespace

TEST_SUITE("sapflow") {
  TEST_CASE("a probe that has seen drought gives its own range") {
    const auto rew = sapflow::rew_of_probe(between(0.10, 0.40), 0.12);
    CHECK(rew.front() == 0.0);
    CHECK(rew[970] == within(1.0, 1e-9));
    CHECK(rew[500] == within(0.51, 0.01));
  }

  TEST_CASE("a probe that has seen none is not taken for dry at its driest") {
    const auto rew = sapflow::rew_of_probe(between(0.32, 0.36), 0.12);
    CHECK(rew.front() == within(1.0 - 0.0388 / 0.12, 1e-6));
  }

  TEST_CASE("holes keep the last reading, hours before the first count as moist, too few readings tell nothing") {
    auto water = between(0.10, 0.40);
    water[0] = std::nullopt;
    water[500] = std::nullopt;
    const auto rew = sapflow::rew_of_probe(water, 0.12);
    CHECK(rew[0] == 1.0);
    CHECK(rew[500] == rew[499]);
    water.resize(sapflow::fewest_hours);
    CHECK(sapflow::rew_of_probe(water, 0.12).empty());
  }
}
