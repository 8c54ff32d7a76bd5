#include "sapflow/fit.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "sapflow/invented_stand.h"
#include "sapflow/predict.h"
#include "support/within.h"

namespace {

sapflow::Demand fitted(const sapflow::Hours& hours, const std::vector<sapflow::Sample>& samples, const sapflow::Form& form = {}) {
  return sapflow::fit(shipped::models().tree.stomata, shipped::models().sapflow, form, hours, samples, invented::medians());
}

sapflow::Demand another() {
  auto demand = invented::medians();
  demand.conductance_cm_s *= 1.8;
  demand.jarvis_half_kpa *= 0.7;
  demand.lag_h *= 1.6;
  demand.rew_knee *= 1.3;
  return demand;
}

}  // namespace

TEST_SUITE("sapflow") {
  TEST_CASE("without a record what was believed beforehand comes back") {
    const auto demand = fitted(invented::hours(3), {});
    CHECK(demand.lag_h == invented::medians().lag_h);
    CHECK(demand.jarvis_half_kpa == invented::medians().jarvis_half_kpa);
  }

  TEST_CASE("a record of the model's own making is found again, with its lag and its knee") {
    const auto hours = invented::hours();
    const auto truth = invented::flow(hours, another());
    const auto demand = fitted(hours, invented::samples(truth));
    const auto again = invented::flow(hours, demand);
    for (std::size_t h = 48; h < truth.size(); ++h) CHECK(again[h] == within(truth[h], 0.02 + 0.03 * truth[h]));
    CHECK(demand.lag_h == within(another().lag_h, 0.15));
    CHECK(demand.rew_knee == within(another().rew_knee, 0.04));
  }

  TEST_CASE("two days teach less than two months: what they do not show stays at its median") {
    const auto hours = invented::hours();
    auto samples = invented::samples(invented::flow(hours, another()));
    samples.resize(48);  // moist soil only
    CHECK(fitted(hours, samples).rew_knee == within(invented::medians().rew_knee, 0.02));
  }

  TEST_CASE("parameters of another form are left alone") {
    const auto hours = invented::hours(20);
    const auto demand = fitted(hours, invented::samples(invented::flow(hours, another())), {.vpd = tree::VpdForm::oren});
    CHECK(demand.jarvis_half_kpa == invented::medians().jarvis_half_kpa);
    CHECK(demand.vpd_slope != invented::medians().vpd_slope);
  }

  TEST_CASE("every known hour gets a range in order, the unknown none") {
    auto hours = invented::hours();
    auto samples = invented::samples(invented::flow(hours, another()));
    hours.known[100] = false;
    std::erase_if(samples, [](const sapflow::Sample& s) { return s.hour == 100 || s.hour % 336 < 168; });
    const auto said = sapflow::predict(shipped::models().tree.stomata, shipped::models().sapflow, {}, hours, samples);
    CHECK_FALSE(said.hours[100]);
    CHECK(std::ranges::count_if(said.hours, [](const auto& range) { return range.has_value(); }) == static_cast<long>(hours.size()) - 1);
    for (const auto& range : said.hours)
      if (range) CHECK((0.0 <= range->p10 && range->p10 <= range->p50 && range->p50 <= range->p90));
  }
}
