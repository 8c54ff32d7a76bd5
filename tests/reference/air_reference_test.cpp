// Every published value on air runs through the program; what is not met is marked in the data, with its reason.
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "reckon.h"
#include "support/within.h"

namespace {

struct Count {
  std::size_t met = 0, met_wider = 0, left_out = 0;
};

void check_value(const reference::Published& published, const std::vector<double>& reckoned, Count& count) {
  CAPTURE(published.name);
  if (published.left_out) {
    CHECK(reckoned.empty());  // a value that can be reckoned is no longer left out
    count.left_out += published.values.size();
    return;
  }
  CHECK(reckoned.size() == published.values.size());
  if (reckoned.size() != published.values.size()) return;
  const double tolerance = published.reached_within.value_or(published.tolerance);
  // A tolerance of nothing is for constants of an equation: the last bits of a sum or difference do not count.
  const double allowed = tolerance > 0.0 ? tolerance : 1e-12 * std::abs(published.values[0]);
  bool within_print = true;
  for (std::size_t i = 0; i < reckoned.size(); ++i) {
    CAPTURE(i);
    CHECK(reckoned[i] == within(published.values[i], allowed));
    within_print = within_print && reckoned[i] == within(published.values[i], published.tolerance);
  }
  // A mark that has become needless hides the next fault.
  if (published.reached_within) CHECK_FALSE(within_print);
  (published.reached_within ? count.met_wider : count.met) += published.values.size();
}

void check_file(const char* name, reference::Reckoned (*reckon)(const reference::Check&)) {
  Count count;
  for (const reference::Check& check : reference::load(name)) {
    CAPTURE(check.id());
    const reference::Reckoned reckoned = reckon(check);
    for (const reference::Published& published : check.published()) check_value(published, reckoned.at(published.name), count);
  }
  MESSAGE(std::string(name) << ": " << count.met << " published values met, " << count.met_wider << " within a wider bound, "
                            << count.left_out << " left out");
}

}  // namespace

TEST_SUITE("reference") {
  TEST_CASE("FAO-56 chapter 3 examples come out as printed") { check_file("fao56_ch3_examples", reference::fao56_chapter3); }
  TEST_CASE("FAO-56 chapter 4 examples come out as printed") { check_file("fao56_ch4_eto_examples", reference::fao56_chapter4); }
  TEST_CASE("FAO-56 annex 2 tables of pressure and vapour come out as printed") {
    check_file("fao56_annex2_pressure_vapour", reference::fao56_annex2);
  }
  TEST_CASE("FAO-56 annex 2 tables of radiation and day length come out as printed") {
    check_file("fao56_annex2_radiation_daylight", reference::fao56_annex2);
  }
  TEST_CASE("ASCE-EWRI 2005 values come out as published") { check_file("asce_ewri_2005", reference::asce_ewri); }
  TEST_CASE("the sun stands, rises and sets as published") { check_file("solar_position", reference::sun); }
  TEST_CASE("cloud dims the sky as published") { check_file("cloud_radiation", reference::cloud); }
}
