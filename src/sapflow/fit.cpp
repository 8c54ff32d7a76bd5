#include "sapflow/fit.h"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <algorithm>
#include <cmath>

namespace sapflow {
namespace {

struct Member {
  double Demand::*value;
  units::Uncertain Priors::*prior;
};

// The parameters that a form uses.
std::vector<Member> free_members(const Form& form) {
  std::vector<Member> all{{&Demand::conductance_cm_s, &Priors::conductance_cm_s},
                          {&Demand::light_half_w_m2, &Priors::light_half_w_m2},
                          {&Demand::temp_low_c, &Priors::temp_low_c},
                          {&Demand::dark_share, &Priors::dark_share}};
  if (form.lag) all.push_back({&Demand::lag_h, &Priors::lag_h});
  if (form.soil_water) all.push_back({&Demand::rew_knee, &Priors::rew_knee});
  if (form.coupling == Coupling::big_leaf) all.push_back({&Demand::aerodynamic_cm_s, &Priors::aerodynamic_cm_s});
  switch (form.vpd) {
    case tree::VpdForm::oren:
      all.push_back({&Demand::vpd_slope, &Priors::vpd_slope});
      all.push_back({&Demand::vpd_floor, &Priors::vpd_floor});
      break;
    case tree::VpdForm::medlyn:
      all.push_back({&Demand::medlyn_g1_sqrt_kpa, &Priors::medlyn_g1_sqrt_kpa});
      break;
    case tree::VpdForm::jarvis:
      all.push_back({&Demand::jarvis_half_kpa, &Priors::jarvis_half_kpa});
      all.push_back({&Demand::jarvis_steepness, &Priors::jarvis_steepness});
      break;
  }
  return all;
}

// The hours that samples need: each with two days before it, in which the lag forgets its start.
std::vector<Stretch> stretches_of(std::span<const Sample> samples) {
  constexpr std::size_t before = 48;
  std::vector<Stretch> all;
  for (const Sample& sample : samples) {
    const std::size_t from = sample.hour > before ? sample.hour - before : 0;
    if (all.empty() || from > all.back().until)
      all.push_back({from, sample.hour + 1});
    else
      all.back().until = sample.hour + 1;
  }
  return all;
}

class Problem {
 public:
  Problem(const tree::Stomata& stomata, const Parameters& parameters, const Form& form, const Hours& hours, std::span<const Sample> samples,
          const Demand& start)
      : stomata_(stomata),
        parameters_(parameters),
        form_(form),
        hours_(hours),
        samples_(samples),
        start_(start),
        members_(free_members(form)),
        stretches_(stretches_of(samples)),
        flow_(hours.size(), 0.0),
        per_sd_(1.0 / (parameters.noise.hour_sd * std::sqrt(parameters.noise.hours_alike))) {}

  [[nodiscard]] Eigen::Index size() const { return static_cast<Eigen::Index>(members_.size()); }

  // Deviates from the priors' medians, in units of their spread.
  [[nodiscard]] Eigen::VectorXd deviates(const Demand& demand) const {
    Eigen::VectorXd z(size());
    for (Eigen::Index i = 0; i < size(); ++i) {
      const units::Uncertain& prior = parameters_.priors.*members_[static_cast<std::size_t>(i)].prior;
      z(i) = std::log(demand.*members_[static_cast<std::size_t>(i)].value / prior.value) / prior.spread_ln_sd;
    }
    return z;
  }

  [[nodiscard]] Demand demand(const Eigen::VectorXd& z) const {
    Demand all = start_;
    for (Eigen::Index i = 0; i < size(); ++i) {
      const Member& member = members_[static_cast<std::size_t>(i)];
      const units::Uncertain& prior = parameters_.priors.*member.prior;
      all.*member.value = std::clamp(prior.value * std::exp(prior.spread_ln_sd * z(i)), prior.lowest, prior.highest);
    }
    return all;
  }

  // Misfit of every sample, in units of its error.
  [[nodiscard]] Eigen::VectorXd misfit(const Eigen::VectorXd& z) {
    const Demand d = demand(z);
    for (const Stretch& stretch : stretches_) relative_flow(stomata_, parameters_.stand, form_, d, hours_, stretch, flow_);
    Eigen::VectorXd r(static_cast<Eigen::Index>(samples_.size()));
    for (std::size_t i = 0; i < samples_.size(); ++i)
      r(static_cast<Eigen::Index>(i)) = (flow_[samples_[i].hour] - samples_[i].flow) * per_sd_;
    return r;
  }

 private:
  const tree::Stomata& stomata_;
  const Parameters& parameters_;
  const Form& form_;
  const Hours& hours_;
  std::span<const Sample> samples_;
  Demand start_;
  std::vector<Member> members_;
  std::vector<Stretch> stretches_;
  std::vector<double> flow_;
  double per_sd_;
};

}  // namespace

Demand before_record(const Priors& p) {
  return {p.conductance_cm_s.value,   p.aerodynamic_cm_s.value, p.vpd_slope.value,        p.vpd_floor.value,
          p.medlyn_g1_sqrt_kpa.value, p.jarvis_half_kpa.value,  p.jarvis_steepness.value, p.light_half_w_m2.value,
          p.temp_low_c.value,         p.rew_knee.value,         p.dark_share.value,       p.lag_h.value};
}

Demand fit(const tree::Stomata& stomata, const Parameters& parameters, const Form& form, const Hours& hours,
           std::span<const Sample> samples, const Demand& start) {
  if (samples.empty()) return before_record(parameters.priors);
  constexpr int most_rounds = 40;
  constexpr double step = 1e-3, enough = 1e-5;
  Problem problem{stomata, parameters, form, hours, samples, start};
  Eigen::VectorXd z = problem.deviates(start);
  Eigen::VectorXd r = problem.misfit(z);
  double cost = r.squaredNorm() + z.squaredNorm();
  double damping = 1e-2;
  Eigen::MatrixXd jacobian(r.size(), z.size());
  for (int round = 0; round < most_rounds; ++round) {
    for (Eigen::Index i = 0; i < z.size(); ++i) {
      Eigen::VectorXd beside = z;
      beside(i) += step;
      jacobian.col(i) = (problem.misfit(beside) - r) / step;
    }
    const Eigen::MatrixXd normal = jacobian.transpose() * jacobian + Eigen::MatrixXd::Identity(z.size(), z.size());
    const Eigen::VectorXd slope = jacobian.transpose() * r + z;
    bool better = false;
    double gained = 0.0;
    for (int attempt = 0; attempt < 8 && !better; ++attempt) {
      Eigen::MatrixXd damped = normal;
      damped.diagonal() *= 1.0 + damping;
      const Eigen::VectorXd next = z - damped.ldlt().solve(slope);
      const Eigen::VectorXd next_r = problem.misfit(next);
      const double next_cost = next_r.squaredNorm() + next.squaredNorm();
      better = next_cost < cost;
      damping = better ? damping * 0.2 : damping * 5.0;
      if (better) {
        gained = cost - next_cost;
        z = next;
        r = next_r;
        cost = next_cost;
      }
    }
    if (!better || gained < enough * cost) break;
  }
  return problem.demand(z);
}

std::vector<double> flow_of(const tree::Stomata& stomata, const Parameters& parameters, const Form& form, const Hours& hours,
                            const Demand& demand) {
  std::vector<double> flow(hours.size(), 0.0);
  relative_flow(stomata, parameters.stand, form, demand, hours, {0, hours.size()}, flow);
  return flow;
}

}  // namespace sapflow
