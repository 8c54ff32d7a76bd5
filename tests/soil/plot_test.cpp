#include "soil/plot.h"

#include <doctest/doctest.h>

#include <cmath>

#include "soil/plot_fit.h"
#include "support/soil_fixture.h"
#include "support/within.h"

using namespace soil;

namespace {

PlotParameters parameters() {
  PlotParameters p;
  p.priors = {{0.6, 0.35, 0.1, 1.2}, {0.2, 0.5, 0.01, 1.0}, {0.2, 0.6, 0.1, 0.8},
              {0.6, 0.5, 0.2, 0.99}, {0.87, 0.1, 0.4, 1.3}, {1.2, 0.3, 0.02, 20.0}};
  p.driest_quantile = 0.0;
  p.wettest_quantile = 0.8;
  p.residual_share = 0.2;
  p.root_beta = 0.95;
  p.compensation = 0.5;
  p.settled_rew_sd = 0.35;
  p.memory_h = 720.0;
  p.correlation_cm = 60.0;
  p.measured_sd_m3_m3 = 0.004;
  p.forecast_sd = 0.1;
  p.days_alike = 5.0;
  p.lead_days = 7.0;
  p.run_days = 60.0;
  return p;
}

constexpr ShownRange shown{0.15, 0.35, 0.40};

// Rain every eighth day, 4 mm of reference evapotranspiration a day, nothing measured yet.
PlotRecord dry_summer(std::size_t days) {
  PlotRecord record;
  record.bottom_cm = 35.0;
  record.theta.resize(days);
  Forcing& f = record.forcing;
  f.rain_mm = f.et0_mm = f.temp_c = weather::Column(24 * days);
  f.leaf_share.assign(24 * days, 1.0);
  for (std::size_t h = 0; h < 24 * days; ++h) {
    f.rain_mm.set(h, (h / 24) % 8 == 5 ? 1.0 : 0.0, weather::Provenance::observed);
    f.et0_mm.set(h, 4.0 / 24.0, weather::Provenance::derived);
    f.temp_c.set(h, 20.0, weather::Provenance::observed);
  }
  return record;
}

RootZone zone_of(const Plot& plot) {
  const Texture texture = texture_of(parameters(), soil_fixture::texture("loam"), shown, plot);
  return root_zone_of(soil_fixture::parameters(), parameters(), texture, plot, 35.0).value();
}

// The record that ground like `plot` would leave behind, started from one reading.
PlotRecord left_by(const Plot& plot, std::size_t days) {
  PlotRecord record = dry_summer(days);
  record.theta[0] = 0.33;
  std::vector<bool> believed(days, false);
  believed[0] = true;
  record.theta = follow(zone_of(plot), parameters(), record, believed, 0, days).value();
  return record;
}

}  // namespace

TEST_SUITE("soil: plot") {
  TEST_CASE("ground is made to hold what its range says at wilting and field capacity, and to drain there at the flux named") {
    for (const double capacity_share : {0.7, 0.87, 1.0})
      for (const ShownRange& range : {shown, ShownRange{0.06, 0.2, 0.27}, ShownRange{0.25, 0.5, 0.52}}) {
        Plot plot = before_record(parameters().priors);
        plot.capacity_share = capacity_share;
        const Texture texture = texture_of(parameters(), soil_fixture::texture("loam"), range, plot);
        const double capacity = range.driest + capacity_share * (range.wettest - range.driest);
        CHECK(theta_field_capacity(texture) == within(capacity, 1e-6));
        CHECK(theta_wilting(texture) == within(0.6 * range.driest, 1e-6));
        CHECK(24.0 * conductivity_mm_per_h(texture, capacity) == within(1.2, 1e-6));
        CHECK(texture.theta_s >= range.highest);
      }
  }

  TEST_CASE("a range takes a month of days and must be one") {
    PlotRecord record = dry_summer(40);
    for (std::size_t day = 0; day < 29; ++day) record.theta[day] = 0.2 + 0.005 * static_cast<double>(day);
    CHECK(!shown_range(parameters(), record, 40));
    record.theta[29] = 0.4;
    const auto range = shown_range(parameters(), record, 40);
    REQUIRE(range);
    CHECK(range->driest == within(0.2, 1e-12));
    CHECK(range->highest == within(0.4, 1e-12));
    CHECK(range->wettest == within(0.2 + 0.005 * 0.8 * 29.0, 1e-12));
    CHECK(!shown_range(parameters(), record, 29));
    for (auto& theta : record.theta) theta = 0.3;
    CHECK(!shown_range(parameters(), record, 40));
  }

  TEST_CASE("what is measured later changes no day before it") {
    PlotRecord record = left_by(before_record(parameters().priors), 60);
    std::vector<bool> believed(60, true);
    const auto before = follow(zone_of(before_record(parameters().priors)), parameters(), record, believed, 0, 60);
    for (std::size_t day = 40; day < 60; ++day) record.theta[day] = 0.16;
    const auto after = follow(zone_of(before_record(parameters().priors)), parameters(), record, believed, 0, 60);
    REQUIRE(before);
    REQUIRE(after);
    for (std::size_t day = 0; day < 40; ++day) CHECK(*(*before)[day] == *(*after)[day]);
    CHECK(*(*after)[50] == within(0.16, 0.02));
  }

  TEST_CASE("a reading drier than this ground can be stays an offset of the record instead of a jump back") {
    PlotRecord record = dry_summer(30);
    record.theta[0] = 0.03;
    std::vector<bool> believed(30, true);
    const auto theta = follow(zone_of(before_record(parameters().priors)), parameters(), record, believed, 0, 4);
    REQUIRE(theta);
    CHECK(*(*theta)[3] == within(0.03, 0.01));
  }

  TEST_CASE("a fit sees that the cover drinks more than believed, and forecasts a week better than what is believed beforehand") {
    Plot truth = before_record(parameters().priors);
    truth.kcb = 1.0;
    PlotRecord record = left_by(truth, 67);
    const auto fitted = fit_plot(soil_fixture::parameters(), parameters(), soil_fixture::texture("loam"), shown, record, 0, 60);
    REQUIRE(fitted);
    CHECK(fitted->kcb > 0.7);  // cover, roots and bare ground share the loss between them
    std::vector<bool> believed(67, true);
    for (std::size_t day = 60; day < 67; ++day) believed[day] = false;
    const auto error = [&](const Plot& plot) {
      return std::abs(*(*follow(zone_of(plot), parameters(), record, believed, 0, 67))[66] - *record.theta[66]);
    };
    CHECK(error(*fitted) < 0.5 * error(before_record(parameters().priors)));
  }

  TEST_CASE("a record of nothing leaves what is believed beforehand") {
    const auto fitted = fit_plot(soil_fixture::parameters(), parameters(), soil_fixture::texture("loam"), shown, dry_summer(60), 0, 60);
    REQUIRE(fitted);
    CHECK(fitted->kcb == 0.6);
  }
}
