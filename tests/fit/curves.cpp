// fact-curves MODELS_FOLDER: what the pictures of docs/model/uptake.md and days.md are drawn from, as JSON: hours of the dose by trunk
// diameter, the course of a day with its band, and how much of the spread of hours each parameter makes.
#include <algorithm>
#include <cmath>
#include <iostream>
#include <nlohmann/json.hpp>
#include <numeric>

#include "app/facts.h"
#include "uptake/ensemble.h"

namespace {

using Json = nlohmann::ordered_json;
using units::Lanes;
constexpr std::size_t trees = 4096;
constexpr double start_h = 4.0;  // 9 o'clock
constexpr double longest_h = 36.0;

uptake::Ensemble ensemble(const app::TrialGround& ground, const app::Trial& trial) {
  const uptake::Subject subject = ground.subject(trial);
  uptake::Ensemble ensemble{subject, ground.loam(), uptake::sample_draws(subject.source, trees, 1), trees};
  const auto hours = ground.hours(trial, 42);
  const uptake::Scenario scenario{hours, std::vector<uptake::Shift<Lanes>>(hours.size())};
  ensemble.set_hours({&scenario, 1}, 0.0);
  return ensemble;
}

// 10, 50 and 90 %.
Json band(std::vector<double> numbers) {
  std::sort(numbers.begin(), numbers.end());
  Json three = Json::array();
  for (const double share : {0.1, 0.5, 0.9}) {
    const double number = numbers[static_cast<std::size_t>(share * static_cast<double>(numbers.size() - 1))];
    three.push_back(std::isfinite(number) ? Json(number) : Json(nullptr));
  }
  return three;
}

Json by_size(const app::TrialGround& ground) {
  Json rows = Json::array();
  for (const double dbh_cm : {20, 25, 30, 35, 40, 50, 60, 75, 95, 120, 140, 160}) {
    const auto middle = [&](app::Trial trial) {
      trial.dbh_cm = dbh_cm;
      const double hours = ground.run(trial).dose_h();
      return std::isfinite(hours) ? Json(hours) : Json(nullptr);
    };
    rows.push_back({{"dbh_cm", dbh_cm},
                    {"good", middle({})},
                    {"overcast", middle({.day = "overcast"})},
                    {"dry", middle({.rew = 0.2})},
                    {"good_band", band(ensemble(ground, {.dbh_cm = dbh_cm}).finish(start_h, longest_h).dose_h)}});
  }
  return rows;
}

// Rates as means of half hours, volumes as shares of the dose.
Json course(const app::TrialGround& ground, const app::Trial& trial) {
  uptake::Subject subject = ground.subject(trial);
  const double dose_l = subject.dose.value;
  auto all = ensemble(ground, trial);
  const auto followed = all.follow(start_h, 10.0);
  Json rows = Json::array();
  std::vector<double> before(trees, 0.0);
  for (std::size_t i = 0; i < followed.volumes_l.size(); ++i) {
    std::vector<double> rates, shares;
    for (std::size_t tree = 0; tree < trees; ++tree) {
      const double now_l = std::min(dose_l, followed.volumes_l[i][tree]);
      rates.push_back((now_l - before[tree]) / 0.5);
      shares.push_back(now_l / dose_l);
      before[tree] = now_l;
    }
    rows.push_back({{"hour", 0.5 * static_cast<double>(i + 1)}, {"rate_l_h", band(rates)}, {"share", band(shares)}});
  }
  return {{"dose_l", dose_l}, {"finish_h", band(followed.finishes.dose_h)}, {"half_hours", std::move(rows)}};
}

// Var(E[ln h | x])/Var(ln h) of trees that finish, from 32 equal classes of x; less what chance alone would make of them.
double first_order(const std::vector<double>& ln_hours, const std::vector<double>& x) {
  constexpr std::size_t classes = 32;
  std::vector<std::size_t> order(x.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return x[a] < x[b]; });
  const auto n = static_cast<double>(x.size());
  const double mean = std::accumulate(ln_hours.begin(), ln_hours.end(), 0.0) / n;
  double total = 0.0, between = 0.0;
  for (const double h : ln_hours) total += (h - mean) * (h - mean) / n;
  for (std::size_t c = 0; c < classes; ++c) {
    const std::size_t from = c * order.size() / classes, until = (c + 1) * order.size() / classes;
    double sum = 0.0;
    for (std::size_t i = from; i < until; ++i) sum += ln_hours[order[i]] - mean;
    between += sum * sum / static_cast<double>(until - from) / n;
  }
  return (between - total * (classes - 1) / n) / (total * (1.0 - (classes - 1) / n));
}

Json drivers(const app::TrialGround& ground, const app::Trial& trial) {
  auto all = ensemble(ground, trial);
  const auto finishes = all.finish(start_h, longest_h).dose_h;
  using Member = Lanes uptake::Draw<Lanes>::*;
  using D = uptake::Draw<Lanes>;
  const std::vector<std::pair<const char*, Member>> members{{"port conductance", &D::conductance_l_h_mpa},
                                                            {"hole of practice", &D::hole_factor},
                                                            {"fast fatigue, share", &D::fast_share},
                                                            {"fast fatigue, time", &D::fast_hours},
                                                            {"slow fatigue", &D::slow_hours},
                                                            {"air drawn in at drilling", &D::drilling_mpa},
                                                            {"native embolism", &D::native_p50_mpa},
                                                            {"lumens, volume", &D::lumens_l_per_port},
                                                            {"lumens, time", &D::lumens_hours},
                                                            {"flare to trunk", &D::flare_factor},
                                                            {"leaf area", &D::leaf_area_z},
                                                            {"stomata", &D::g_ref_mmol_m2_s},
                                                            {"closing, crown potential", &D::psi_half_mpa},
                                                            {"light in the crown", &D::light_extinction},
                                                            {"root signal, knee", &D::rew_knee},
                                                            {"root signal, sharpness", &D::rew_knee_sharpness},
                                                            {"whole-plant conductance", &D::whole_plant_mm_d_mpa},
                                                            {"root share", &D::root_share},
                                                            {"backflow", &D::backflow},
                                                            {"roots in dry soil", &D::rew_half_conductance},
                                                            {"stem P50", &D::p50_mpa},
                                                            {"elastic storage", &D::elastic_l_m3_mpa}};
  std::vector<double> ln_hours;
  std::vector<std::size_t> finished;
  for (std::size_t tree = 0; tree < trees; ++tree)
    if (std::isfinite(finishes[tree])) {
      finished.push_back(tree);
      ln_hours.push_back(std::log(finishes[tree]));
    }
  Json shares;
  for (const auto& [name, member] : members) {
    std::vector<double> x;
    for (const std::size_t tree : finished) x.push_back((all.block(tree / Lanes::count).*member)[static_cast<int>(tree % Lanes::count)]);
    shares[name] = first_order(ln_hours, x);
  }
  const double n = static_cast<double>(ln_hours.size()), mean = std::accumulate(ln_hours.begin(), ln_hours.end(), 0.0) / n;
  double squares = 0.0;
  for (const double h : ln_hours) squares += (h - mean) * (h - mean);
  return {{"ln_sd", std::sqrt(squares / n)}, {"finished", n / static_cast<double>(trees)}, {"shares", std::move(shares)}};
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 2) {
    std::cerr << "usage: fact-curves MODELS_FOLDER\n";
    return 2;
  }
  const auto models = params::load_models(arguments[1]);
  const auto facts = params::load_facts(arguments[1]);
  if (!models || !facts) {
    std::cerr << (models ? facts.error() : models.error()).line() << '\n';
    return 3;
  }
  const app::TrialGround ground{*models, *facts};
  std::cout << Json{{"by_size", by_size(ground)},
                    {"good_140", course(ground, {})},
                    {"overcast_140", course(ground, {.day = "overcast"})},
                    {"drivers",
                     {{"140 cm, clear", drivers(ground, {})},
                      {"140 cm, overcast", drivers(ground, {.day = "overcast"})},
                      {"50 cm, clear", drivers(ground, {.dbh_cm = 50})},
                      {"140 cm, a fifth of the soil's water", drivers(ground, {.rew = 0.2})}}}}
                   .dump(1)
            << '\n';
  return 0;
}
