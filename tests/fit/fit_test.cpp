// The tools of the fit, held to problems with a known answer.
#include <doctest/doctest.h>

#include <cmath>

#include "fit/chains.h"
#include "fit/digits.h"
#include "fit/edge.h"
#include "fit/fact_fit.h"
#include "fit/shipped_text.h"
#include "support/within.h"

namespace {

using fit::Residuals;

// Three deviates seen through four measurements, r = (A z - b)/s. With a standard normal prior the posterior is normal with covariance
// C = (I + A'A/s^2)^-1 and mean C A'b/s^2 (normal equations of linear regression with a ridge).
struct Linear {
  Eigen::MatrixXd a{{1.0, 0.4, 0.0}, {0.2, -1.0, 0.5}, {0.0, 0.3, 0.1}, {0.7, 0.7, 0.7}};
  Eigen::VectorXd b{{0.8, -0.3, 0.5, 1.1}};
  double s = 0.5;

  [[nodiscard]] Residuals residuals() const {
    return [*this](const Eigen::MatrixXd& points) -> Eigen::MatrixXd { return ((a * points).colwise() - b) / s; };
  }
  [[nodiscard]] Eigen::MatrixXd covariance() const { return (Eigen::MatrixXd::Identity(3, 3) + a.transpose() * a / (s * s)).inverse(); }
  [[nodiscard]] Eigen::VectorXd mean() const { return covariance() * a.transpose() * b / (s * s); }
};

// One deviate behind one edge: z > a, known to within s. Then z given z + s w > a, w standard normal, has the mean phi(c)/Phi(-c)/q with
// q = sqrt(1 + s^2), c = a/q (mean of one of two correlated normals when the other is cut; from the definition of both).
struct Edge {
  double a = 1.0, s = 0.3;

  [[nodiscard]] Residuals residuals() const {
    return [*this](const Eigen::MatrixXd& points) -> Eigen::MatrixXd {
      return points.unaryExpr([*this](double z) { return fit::edge_residual((z - a) / s); });
    };
  }
  [[nodiscard]] double mean() const {
    const double q = std::sqrt(1.0 + s * s), c = a / q;
    return std::exp(-0.5 * c * c) / std::sqrt(2.0 * std::numbers::pi) / fit::normal_share(-c) / q;
  }
};

fit::Prior lognormal() {
  fit::Prior prior;
  prior.median = 3.0, prior.ln_sd = 0.6, prior.lowest = 0.5, prior.highest = 12.0;
  return prior;
}
fit::Prior uniform() {
  fit::Prior prior;
  prior.uniform = true, prior.lowest = 0.4, prior.highest = 1.0;
  return prior;
}

}  // namespace

TEST_SUITE("fit") {
  TEST_CASE("the most probable point of a linear problem is that of its normal equations, in one step") {
    const Linear linear;
    const auto optimum = fit::most_probable(linear.residuals(), Eigen::VectorXd::Zero(3));
    CHECK(optimum.rounds <= 2);
    CHECK((optimum.at - linear.mean()).norm() < 1e-9);
    CHECK((optimum.covariance - linear.covariance()).norm() < 1e-9);
  }

  TEST_CASE("without anything known the most probable point is the prior's and its spread stays") {
    const Residuals nothing = [](const Eigen::MatrixXd& points) -> Eigen::MatrixXd { return Eigen::MatrixXd::Zero(1, points.cols()); };
    const auto optimum = fit::most_probable(nothing, Eigen::VectorXd{{1.5, -2.0}});
    CHECK(optimum.at.norm() < 1e-12);
    CHECK((optimum.covariance - Eigen::MatrixXd::Identity(2, 2)).norm() < 1e-12);
  }

  TEST_CASE("the most probable point of a bent valley is found") {
    // Least of (x^2 + y^2)/2 + 50 (y - 1 - x^2)^2, by its own slopes: x = 0 and 101 y = 100.
    const Residuals valley = [](const Eigen::MatrixXd& points) -> Eigen::MatrixXd {
      return 10.0 * (points.row(1).array() - 1.0 - points.row(0).array().square()).matrix();
    };
    const auto optimum = fit::most_probable(valley, Eigen::VectorXd{{2.0, -1.0}});
    CHECK(optimum.at[0] == within(0.0, 1e-3));
    CHECK(optimum.at[1] == within(100.0 / 101.0, 1e-3));
  }

  TEST_CASE("chains have the mean and spread of a linear problem") {
    const Linear linear;
    const auto optimum = fit::most_probable(linear.residuals(), Eigen::VectorXd::Zero(3));
    const auto draws = fit::draw_chains(linear.residuals(), optimum, {.rounds = {200, 500, 4000}});
    const Eigen::VectorXd mean = draws.points.rowwise().mean();
    for (Eigen::Index i = 0; i < 3; ++i) {
      const double sd = std::sqrt(linear.covariance()(i, i));
      CHECK(mean[i] == within(linear.mean()[i], 0.03 * sd));
      CHECK(std::sqrt((draws.points.row(i).array() - mean[i]).square().mean()) == within(sd, 0.03 * sd));
      CHECK(fit::disagreement(draws, i) < 1.01);
    }
  }

  TEST_CASE("chains have the mean of a normal cut by a soft edge") {
    const Edge edge;
    const auto optimum = fit::most_probable(edge.residuals(), Eigen::VectorXd::Zero(1));
    const auto draws = fit::draw_chains(edge.residuals(), optimum, {.rounds = {200, 500, 40000}});
    CHECK(draws.points.mean() == within(edge.mean(), 0.01));
  }

  TEST_CASE("chains that begin elsewhere and do not mix disagree") {
    fit::Draws apart;
    apart.chains = 2;
    apart.points.resize(1, 200);
    for (Eigen::Index i = 0; i < 200; ++i) apart.points(0, i) = (i % 2 == 0 ? 5.0 : -5.0) + std::sin(static_cast<double>(i));
    CHECK(fit::disagreement(apart, 0) > 3.0);
  }

  TEST_CASE("an edge costs nothing far inside, ln 2 on it, and half the squared distance far outside") {
    const auto cost = [](double z) { return 0.5 * fit::edge_residual(z) * fit::edge_residual(z); };
    CHECK(cost(9.0) < 1e-15);
    CHECK(cost(0.0) == within(std::numbers::ln2, 1e-12));
    CHECK(cost(-1000.0) == within(500000.0, 10.0));
    CHECK(fit::edge_residual(-20.0 - 1e-9) == within(fit::edge_residual(-20.0 + 1e-9), 1e-3));
    CHECK(std::isinf(fit::edge_residual(std::nan(""))));
    CHECK(std::isinf(fit::edge_residual(-HUGE_VAL)));
  }

  TEST_CASE("a deviate and its value undo each other, and no deviate leaves the bounds") {
    for (const fit::Prior& prior : {lognormal(), uniform()}) {
      for (double z = -3.0; z <= 3.0; z += 0.25) CHECK(fit::deviate_of(prior, fit::value_at(prior, z)) == within(z, 1e-8));
      for (const double z : {-40.0, -8.0, 8.0, 40.0}) {
        CHECK(fit::value_at(prior, z) >= prior.lowest);
        CHECK(fit::value_at(prior, z) <= prior.highest);
      }
    }
  }

  TEST_CASE("at deviate 0 a prior has its median") {
    CHECK(fit::value_at(uniform(), 0.0) == within(0.7, 1e-12));
    fit::Prior wide = lognormal();
    wide.lowest = 1e-9, wide.highest = 1e9;
    CHECK(fit::value_at(wide, 0.0) == within(3.0, 1e-9));
  }

  TEST_CASE("numbers are shipped to so many digits, without exponents") {
    CHECK(fit::digits_text(55.55, 2) == "56");
    CHECK(fit::digits_text(1137.4, 2) == "1100");
    CHECK(fit::digits_text(0.0049951, 2) == "0.005");
    CHECK(fit::digits_text(1.0, 2) == "1");
    CHECK(fit::to_digits(0.58349, 3) == 0.583);
  }

  TEST_CASE("a value is put into its own place of a file and nothing else moves") {
    const std::string text = R"({"a": {"x": {"value": 1.0, "note": "y"}}, "b": {"x": {"value": 2}}})";
    CHECK(fit::with_value(text, "b.x", 3.5) == R"({"a": {"x": {"value": 1.0, "note": "y"}}, "b": {"x": {"value": 3.5}}})");
    CHECK(fit::with_value(text, "a.x", 1.0) == text);
    CHECK_THROWS(static_cast<void>(fit::with_value(text, "c.x", 1.0)));
  }
}
