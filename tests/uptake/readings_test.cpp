// What readings of a tank say about the possible trees.
#include "uptake/readings.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>

#include "bench.h"
#include "support/within.h"
#include "uptake/ensemble.h"

using uptake::Reading;
using uptake::ReadingFault;

namespace {

const uptake::ReadingError error{.mark_l = 1.0, .tail = 4.0, .least_draws = 20.0, .odd_chance = 0.005};

// Draws that take 10, 10.1, ... litres by the first reading and twice as much by the second.
std::vector<std::vector<double>> volumes(std::size_t draws = 400) {
  std::vector<std::vector<double>> all(2);
  for (std::size_t draw = 0; draw < draws; ++draw) {
    all[0].push_back(10.0 + 0.1 * static_cast<double>(draw));
    all[1].push_back(2.0 * all[0].back());
  }
  return all;
}

double mean(const uptake::Weights& weights, const std::vector<double>& values) {
  return std::inner_product(values.begin(), values.end(), weights.share.begin(), 0.0);
}

std::optional<uptake::RefusedReading> refused(const std::vector<Reading>& readings) {
  const auto sorted = uptake::in_order(readings, 24.0, 100.0);
  return sorted ? std::nullopt : std::optional{sorted.error()};
}

}  // namespace

TEST_SUITE("uptake") {
  TEST_CASE("readings are put in order of time, and those that cannot be are refused by name") {
    const auto sorted = uptake::in_order(std::vector<Reading>{{1.0, 30.0}, {0.5, 20.0}, {0.5, 19.0}}, 24.0, 100.0);
    REQUIRE(sorted.has_value());
    CHECK((*sorted)[0].litres == 19.0);
    CHECK((*sorted)[2].hours == 1.0);
    CHECK(refused({{1.0, 30.0}, {-0.1, 1.0}})->why == ReadingFault::before_opening);
    CHECK(refused({{1.0, 30.0}, {-0.1, 1.0}})->index == 1);
    CHECK(refused({{std::nan(""), 1.0}})->why == ReadingFault::before_opening);
    CHECK(refused({{24.1, 1.0}})->why == ReadingFault::too_late);
    CHECK(refused({{1.0, -1.0}})->why == ReadingFault::below_zero);
    CHECK(refused({{1.0, std::nan("")}})->why == ReadingFault::below_zero);
    CHECK(refused({{1.0, 100.1}})->why == ReadingFault::above_dose);
    CHECK(refused({{1.0, 30.0}, {2.0, 29.0}})->why == ReadingFault::falls);
    CHECK(refused({{2.0, 29.0}, {1.0, 30.0}})->index == 0);
    CHECK(!refused({{1.0, 30.0}, {2.0, 30.0}, {24.0, 100.0}}));
  }

  TEST_CASE("without readings all possible trees weigh the same") {
    const auto weights = uptake::weigh({}, {}, 50, error);
    for (const double share : weights.share) CHECK(share == within(0.02, 1e-15));
    CHECK(weights.effective == within(50.0, 1e-9));
  }

  TEST_CASE("weights follow the likelihood of Student's t") {
    // Errors of 0 and 2 marks: densities in the ratio (1 + 4/4)^(5/2).
    const auto weights =
        uptake::weigh(std::vector<Reading>{{0.5, 20.0}}, std::vector<std::vector<double>>{{20.0, 18.0}}, 2, {1.0, 4.0, 1.0, 0.005});
    CHECK(weights.share[0] / weights.share[1] == within(5.656854249492381, 1e-12));
    CHECK(weights.power == 1.0);
  }

  TEST_CASE("readings move the trees toward what was read, and two tell more than one") {
    const std::vector<Reading> both{{0.5, 20.0}, {1.0, 40.0}};
    const auto one = uptake::weigh(std::span{both}.first(1), volumes(), 400, error), two = uptake::weigh(both, volumes(), 400, error);
    CHECK(mean(one, volumes()[0]) == within(20.0, 0.2));
    CHECK(two.effective < one.effective);
  }

  TEST_CASE("one absurd reading among good ones moves the answer by less than the good ones' own error") {
    const std::vector<std::vector<double>> three{volumes()[0], volumes()[0], volumes()[1]};
    const std::vector<Reading> good{{0.5, 20.0}, {0.51, 20.0}, {1.0, 40.0}};
    std::vector<Reading> absurd = good;
    const double before = mean(uptake::weigh(good, three, 400, error), three[0]);
    for (const double litres : {60.0, 600.0, 6e6}) {
      absurd[2].litres = litres;
      CHECK(std::abs(mean(uptake::weigh(absurd, three, 400, error), three[0]) - before) < 1.0);
    }
  }

  TEST_CASE("where too few trees would be left the readings are trusted less, down to as many as are asked for") {
    std::vector<Reading> many;
    std::vector<std::vector<double>> same;
    for (int i = 0; i < 40; ++i) {
      many.push_back({0.5, 20.0});
      same.push_back(volumes()[0]);
    }
    const auto weights = uptake::weigh(many, same, 400, error);
    CHECK(weights.power < 1.0);
    CHECK(weights.effective == within(error.least_draws, 1e-6));
    // A whole crew of possible trees cannot be more than there are.
    CHECK(uptake::weigh(many, same, 10, error).effective == within(10.0, 1e-6));
  }

  TEST_CASE("a reading far from what was to be expected is told, above or below, and as beyond any tree") {
    const auto odd = [](const std::vector<Reading>& readings) { return uptake::odd_reading(readings, volumes(), 400, error); };
    CHECK(!odd({{0.5, 30.0}, {1.0, 60.0}}));
    CHECK(!odd({{0.5, 11.0}}));
    CHECK(odd({{0.5, 60.0}})->above);
    CHECK(odd({{0.5, 60.0}})->never);
    CHECK(!odd({{0.5, 1.0}})->above);
    CHECK(!odd({{0.5, 1.0}})->never);
    // The second is ordinary by itself, but not for a tree that began so.
    CHECK(odd({{0.5, 15.0}, {1.0, 60.0}})->index == 1);
    CHECK(odd({{0.5, 15.0}, {1.0, 60.0}})->above);
    CHECK(!odd({{0.5, 15.0}, {1.0, 60.0}})->never);
  }

  TEST_CASE("an odd reading comes as often by chance as is said") {
    // One tree, so that the tank's error is all there is: 4.604 marks is Student's quantile at 0.995 for 4 degrees of freedom.
    const std::vector<std::vector<double>> one{std::vector<double>(30, 50.0)};
    CHECK(!uptake::odd_reading(std::vector<Reading>{{0.5, 50.0 + 4.59}}, one, 30, error));
    CHECK(uptake::odd_reading(std::vector<Reading>{{0.5, 50.0 + 4.62}}, one, 30, error));
    CHECK(uptake::odd_reading(std::vector<Reading>{{0.5, 50.0 - 4.62}}, one, 30, error));
  }

  TEST_CASE("volumes at any time lie on the half-hourly ones, and rise between them") {
    const uptake::Subject subject = bench::subject(95.0);
    const soil::RewCurve curve{shipped::texture("loam")};
    uptake::Ensemble ensemble{subject, curve, uptake::sample_draws(subject.source, 20, 3), 20};
    const auto hours = bench::hours({}, 4, 40);
    ensemble.set_hours(std::vector{uptake::Scenario{hours, std::vector<uptake::Shift<units::Lanes>>(hours.size())}}, 0.0);
    const auto half_hourly = ensemble.follow(5.0, 24.0);
    const std::vector<double> at{1.0, 0.0, 0.1, 0.5, 0.25, 2.0, 24.0, 2.05, 2.1};
    const auto found = ensemble.follow_at(5.0, 24.0, at);
    CHECK(found.finishes.dose_h == half_hourly.finishes.dose_h);
    CHECK(found.finishes.flush_h == half_hourly.finishes.flush_h);
    for (std::size_t draw = 0; draw < 20; ++draw) {
      CHECK(found.volumes_l[0][draw] == within(half_hourly.volumes_l[1][draw], 1e-9));
      CHECK(found.volumes_l[3][draw] == within(half_hourly.volumes_l[0][draw], 1e-9));
      CHECK(found.volumes_l[1][draw] == 0.0);
      CHECK(found.volumes_l[5][draw] == within(half_hourly.volumes_l[3][draw], 1e-9));
      CHECK(found.volumes_l[2][draw] < found.volumes_l[4][draw]);
      CHECK(found.volumes_l[4][draw] < found.volumes_l[3][draw]);
      // Fresh ports run faster: more than a straight line's share by the sixth minute.
      CHECK(found.volumes_l[2][draw] > 0.2 * found.volumes_l[3][draw]);
      // On a straight line inside a step.
      CHECK(found.volumes_l[7][draw] > found.volumes_l[5][draw]);
      CHECK(found.volumes_l[8][draw] - found.volumes_l[7][draw] == within(found.volumes_l[7][draw] - found.volumes_l[5][draw], 1e-9));
      CHECK(found.volumes_l[6][draw] <= subject.dose.value + subject.flush.value);
    }
  }
}
