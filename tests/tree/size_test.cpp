#include "tree/size.h"

#include <doctest/doctest.h>

#include <array>

#include "support/shipped_models.h"
#include "support/within.h"

using tree::Measured;
using units::Centimetres;
using units::Metres;

namespace {

constexpr std::array<double, 5> sizes_cm{30, 60, 90, 120, 150};

tree::Size<double> size_of(std::string_view species, double dbh_cm, std::optional<Metres> crown = {}, double z = 0.0) {
  const tree::Species s = shipped::species(species);
  return tree::size(s.allometry, Measured{Centimetres{dbh_cm}, crown}, s.huber_m2_m2, z);
}

}  // namespace

TEST_SUITE("tree") {
  // Medians of our pooled fits to the US Urban Tree Database (McPherson, van Doorn & Peper 2016), worked out by another program.
  TEST_CASE("leaf area, crown and height of five trunks are those of the pooled fits") {
    struct Row {
      std::string_view species;
      std::array<double, 5> leaf_area_m2;
    };
    for (const Row& row : {Row{"american elm", {148, 546, 1172, 2013, 3063}}, Row{"siberian elm", {118, 451, 990, 1729, 2665}},
                           Row{"red oak", {169, 617, 1318, 2258, 3429}}, Row{"sugar maple", {158, 588, 1272, 2197, 3358}}})
      for (std::size_t i = 0; i < sizes_cm.size(); ++i) {
        CAPTURE(row.species);
        // Printed to whole square metres from coefficients of four decimals.
        CHECK(size_of(row.species, sizes_cm[i]).leaf_area_m2 == within(row.leaf_area_m2[i], 0.5 + 4e-4 * row.leaf_area_m2[i]));
      }
    constexpr std::array<double, 5> crown_m{8.4, 14.3, 19.4, 24.2, 28.6}, height_m{12.8, 18.2, 22.4, 26.0, 29.1};
    for (std::size_t i = 0; i < sizes_cm.size(); ++i) {
      const auto elm = size_of("american elm", sizes_cm[i]);
      CHECK(std::sqrt(elm.crown_area_m2 * 4.0 / std::numbers::pi) == within(crown_m[i], 0.051));
      CHECK(elm.height_m == within(height_m[i], 0.051));
    }
  }

  TEST_CASE("sapwood area is leaf area over the Huber ratio") {
    // American elm at 6000 m2/m2: 0.025, 0.09, 0.20, 0.34, 0.51 m2.
    constexpr std::array<double, 5> sapwood_m2{0.025, 0.09, 0.20, 0.34, 0.51};
    for (std::size_t i = 0; i < sizes_cm.size(); ++i) {
      const auto elm = size_of("american elm", sizes_cm[i]);
      CHECK(elm.sapwood_m3 / elm.height_m == within(sapwood_m2[i], sapwood_m2[i] < 0.05 ? 0.0005 : 0.005));
    }
    CHECK(size_of("field elm", 60).sapwood_m3 > size_of("american elm", 60).sapwood_m3);
  }

  TEST_CASE("a thicker trunk has more of everything, from 2 to 400 cm and in every species") {
    for (const tree::Species& species : shipped::models().species)
      for (double dbh = 2.0; dbh < 400.0; dbh *= 1.1) {
        const auto thin = tree::size(species.allometry, Measured{Centimetres{dbh}, {}}, species.huber_m2_m2, 0.0);
        const auto thick = tree::size(species.allometry, Measured{Centimetres{1.1 * dbh}, {}}, species.huber_m2_m2, 0.0);
        CHECK(thick.leaf_area_m2 > thin.leaf_area_m2);
        CHECK(thick.crown_area_m2 > thin.crown_area_m2);
        CHECK(thick.height_m > thin.height_m);
        CHECK(thick.sapwood_m3 > thin.sapwood_m3);
      }
  }

  TEST_CASE("a deviate of one moves leaf area by one standard deviation of its logarithm") {
    CHECK(std::log(size_of("american elm", 90, {}, 1.0).leaf_area_m2 / size_of("american elm", 90).leaf_area_m2) == within(0.5779, 1e-12));
  }

  TEST_CASE("a measured crown carries its share of leaves and narrows what is left to chance") {
    const tree::Allometry& fit = shipped::species("american elm").allometry;
    const double fitted_m = std::sqrt(size_of("american elm", 90).crown_area_m2 * 4.0 / std::numbers::pi);
    CHECK(size_of("american elm", 90, Metres{fitted_m}).leaf_area_m2 == within(size_of("american elm", 90).leaf_area_m2, 1e-9));
    CHECK(size_of("american elm", 90, Metres{0.5 * fitted_m}).leaf_area_m2 ==
          within(0.25 * size_of("american elm", 90).leaf_area_m2, 1e-9));
    CHECK(size_of("american elm", 90, Metres{0.5 * fitted_m}).lai == within(size_of("american elm", 90).lai, 1e-12));
    const double unmeasured = tree::leaf_area_ln_sd(fit, {Centimetres{90}, {}});
    const double measured = tree::leaf_area_ln_sd(fit, {Centimetres{90}, Metres{20}});
    CHECK(unmeasured == fit.leaf_area_m2.ln_sd);
    CHECK(measured == within(std::sqrt(0.5779 * 0.5779 - 4.0 * 0.1886 * 0.1886), 1e-12));
    CHECK(measured < unmeasured);
  }

  TEST_CASE("no measured crown makes leaf area certain") {
    tree::Allometry fit = shipped::species("american elm").allometry;
    fit.crown_diameter_m.ln_sd = 1.0;
    CHECK(tree::leaf_area_ln_sd(fit, {Centimetres{90}, Metres{20}}) == within(0.5 * fit.leaf_area_m2.ln_sd, 1e-12));
  }
}
