#include "soil/plot_fit.h"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace soil {
namespace {

struct Member {
  double Plot::*value;
  units::Uncertain PlotPriors::*prior;
};

constexpr std::array<Member, 6> members{{{&Plot::kcb, &PlotPriors::kcb},
                                         {&Plot::exposed, &PlotPriors::exposed},
                                         {&Plot::depletion_share_p, &PlotPriors::depletion_share_p},
                                         {&Plot::wilting_share, &PlotPriors::wilting_share},
                                         {&Plot::capacity_share, &PlotPriors::capacity_share},
                                         {&Plot::capacity_flux_mm_d, &PlotPriors::capacity_flux_mm_d}}};
constexpr auto size = static_cast<Eigen::Index>(members.size());

// Deviates from the priors' medians, in units of their spread.
Plot plot_at(const PlotPriors& priors, const Eigen::VectorXd& z) {
  Plot plot;
  for (Eigen::Index i = 0; i < size; ++i) {
    const units::Uncertain& prior = priors.*members[static_cast<std::size_t>(i)].prior;
    plot.*members[static_cast<std::size_t>(i)].value =
        std::clamp(prior.value * std::exp(prior.spread_ln_sd * z(i)), prior.lowest, prior.highest);
  }
  return plot;
}

}  // namespace

units::Result<Plot> fit_plot(const Parameters& trees, const PlotParameters& parameters, const Texture& like, const ShownRange& range,
                             const PlotRecord& record, std::size_t from, std::size_t until) {
  constexpr int most_rounds = 8;
  constexpr double step = 0.05, enough = 1e-3;
  const auto lead = static_cast<std::size_t>(parameters.lead_days);
  std::vector<bool> believed(record.days(), false);
  std::vector<std::size_t> judged;
  std::optional<std::size_t> last;
  for (std::size_t day = from; day < until; ++day) {
    if (!record.theta[day]) continue;
    // A day that corrects the state at noon is no forecast any more.
    believed[day] = !last || day - *last > lead;
    if (believed[day])
      last = day;
    else
      judged.push_back(day);
  }
  if (judged.empty()) return before_record(parameters.priors);
  const double per_sd = 1.0 / (parameters.forecast_sd * (range.wettest - range.driest) * std::sqrt(parameters.days_alike));
  const auto misfit = [&](const Eigen::VectorXd& z) -> units::Result<Eigen::VectorXd> {
    const Plot plot = plot_at(parameters.priors, z);
    const auto zone = root_zone_of(trees, parameters, texture_of(parameters, like, range, plot), plot, record.bottom_cm);
    if (!zone) return tl::make_unexpected(zone.error());
    const auto theta = follow(*zone, parameters, record, believed, from, until);
    if (!theta) return tl::make_unexpected(theta.error());
    Eigen::VectorXd r(static_cast<Eigen::Index>(judged.size()));
    for (std::size_t i = 0; i < judged.size(); ++i)
      r(static_cast<Eigen::Index>(i)) = (*(*theta)[judged[i]] - *record.theta[judged[i]]) * per_sd;
    return r;
  };

  Eigen::VectorXd z = Eigen::VectorXd::Zero(size);
  auto first = misfit(z);
  if (!first) return tl::make_unexpected(first.error());
  Eigen::VectorXd r = *first;
  double cost = r.squaredNorm(), damping = 1e-2;
  Eigen::MatrixXd jacobian(r.size(), size);
  for (int round = 0; round < most_rounds; ++round) {
    for (Eigen::Index i = 0; i < size; ++i) {
      Eigen::VectorXd beside = z;
      beside(i) += step;
      const auto there = misfit(beside);
      if (!there) return tl::make_unexpected(there.error());
      jacobian.col(i) = (*there - r) / step;
    }
    const Eigen::MatrixXd normal = jacobian.transpose() * jacobian + Eigen::MatrixXd::Identity(size, size);
    const Eigen::VectorXd slope = jacobian.transpose() * r + z;
    bool better = false;
    double gained = 0.0;
    for (int attempt = 0; attempt < 5 && !better; ++attempt) {
      Eigen::MatrixXd damped = normal;
      damped.diagonal() *= 1.0 + damping;
      const Eigen::VectorXd next = z - damped.ldlt().solve(slope);
      const auto next_r = misfit(next);
      const double next_cost = next_r ? next_r->squaredNorm() + next.squaredNorm() : cost;
      better = next_cost < cost;
      damping = better ? damping * 0.2 : damping * 5.0;
      if (better) {
        gained = cost - next_cost;
        z = next;
        r = *next_r;
        cost = next_cost;
      }
    }
    if (!better || gained < enough * cost) break;
  }
  return plot_at(parameters.priors, z);
}

}  // namespace soil
