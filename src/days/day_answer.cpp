#include "days/day_answer.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "air/humidity.h"
#include "days/pace.h"
#include "days/reference_day.h"
#include "days/rewatered.h"
#include "tree/wet_crown.h"

namespace days {
namespace {

using std::chrono::days;
using std::chrono::hours;
using units::LocalDay;
using units::UtcTime;
using uptake::HourWeather;

constexpr double horizon_h = 24.0;  // a dose that is not in by then is not in

UtcTime later_by(UtcTime time, double h) { return time + std::chrono::seconds{std::lround(h * 3600.0)}; }
double hours_between(UtcTime from, UtcTime until) { return std::chrono::duration<double, std::ratio<3600>>(until - from).count(); }

// Value below which `share` of the draws lie, read between them at Hyndman & Fan's (1996) definition 8, which a small sample does not
// bias; draws that never finish count as larger than any.
std::optional<double> quantile(std::vector<double> sorted_or_not, double share) {
  std::sort(sorted_or_not.begin(), sorted_or_not.end());
  const auto last = static_cast<double>(sorted_or_not.size() - 1);
  const double position = std::clamp((last + 4.0 / 3.0) * share - 2.0 / 3.0, 0.0, last);
  const auto below = static_cast<std::size_t>(position);
  const double low = sorted_or_not[below], high = sorted_or_not[std::min(below + 1, sorted_or_not.size() - 1)];
  if (!std::isfinite(high)) return std::isfinite(low) && position == static_cast<double>(below) ? std::optional{low} : std::nullopt;
  return low + (position - static_cast<double>(below)) * (high - low);
}

double mean(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

// Standard error of the mean over draws of a low-discrepancy sequence. Runs of consecutive draws, each a small net of its own, are
// taken for independent; they are not, they fill each other's gaps, so this errs to the safe side (docs/model/days.md, What was measured).
double standard_error(const std::vector<double>& by_draw) {
  constexpr std::size_t run = units::Lanes::count;
  std::vector<double> means;
  for (std::size_t first = 0; first + run <= by_draw.size(); first += run)
    means.push_back(std::accumulate(by_draw.begin() + static_cast<std::ptrdiff_t>(first),
                                    by_draw.begin() + static_cast<std::ptrdiff_t>(first + run), 0.0) /
                    static_cast<double>(run));
  if (means.size() < 2) return 0.0;
  const double middle = mean(means);
  double squares = 0.0;
  for (const double m : means) squares += (m - middle) * (m - middle);
  const auto n = static_cast<double>(means.size());
  return std::sqrt(squares / (n * (n - 1.0)));
}

Quantiles quantiles(const std::vector<double>& values) { return {quantile(values, 0.1), quantile(values, 0.5), quantile(values, 0.9)}; }

// Water on the central crown's leaves, followed through the whole outlook.
struct CrownWater {
  std::vector<double> before_mm;  // at the beginning of each hour
  std::vector<double> wet_share;  // over each hour
};

CrownWater crown_water(const TreeCase& tree, const std::vector<HourWeather>& course) {
  const auto plant = uptake::plant(tree.subject, uptake::central_draw(tree.subject.source));
  CrownWater water;
  double on_leaves = 0.0;
  for (const HourWeather& w : course) {
    water.before_mm.push_back(on_leaves);
    const double lai = std::max(plant.size.lai * w.leaf_share, 0.01);
    water.wet_share.push_back(tree::wet_hour(tree.subject.source.tree.wet_crown, lai, w.rain_mm, w.reference_mm, on_leaves));
  }
  return water;
}

// One local day on the outlook's clock.
struct Frame {
  LocalDay date;
  std::size_t first;  // the hour that the day begins in
  std::size_t until;  // end of the hours a job of this day may run through
  std::size_t day_end;
};

std::vector<Frame> frames(const TreeCase& tree, const Outlook& outlook, UtcTime now) {
  std::vector<Frame> found;
  if (outlook.known == 0) return found;
  LocalDay day = tree.zone.day_of(std::max(now, outlook.begins(0)));
  if (tree.zone.start_of(day) < std::max(now, outlook.begins(0))) day += days{1};
  for (; tree.zone.end_of(day) <= outlook.begins(outlook.known); day += days{1}) {
    const std::size_t first = *outlook.hour_at(tree.zone.start_of(day));
    const std::size_t day_end = outlook.hour_at(tree.zone.end_of(day)).value_or(outlook.hours());
    found.push_back({day, first, std::min(first + 48, outlook.hours()), day_end});
  }
  return found;
}

// A way to work the day, and what it would come to for each draw.
struct Plan {
  UtcTime arrive, open;
  std::vector<double> dose_by_draw, clear_by_draw, cost_by_draw_h;
  double cost_h = 0.0;
  double chance_dose = 0.0, chance_clear = 0.0;
};

class Worker {
 public:
  // `good_h`: uptake of this tree on its reference good day.
  Worker(const TreeCase& tree, const Settings& settings, const uptake::Ensemble& ensemble, double good_h)
      : tree_(tree), settings_(settings), job_(job_time(tree, settings.practice.phases)) {
    comeback_h_ = settings.practice.decision.return_cost_h + job_.before().value + good_h + job_.after().value;
    for (std::size_t draw = 0; draw < ensemble.draws(); ++draw)
      pace_.push_back(std::exp(settings.practice.phases.ln_sd *
                               ensemble.block(draw / units::Lanes::count).pace_z[static_cast<int>(draw % units::Lanes::count)]));
  }

  [[nodiscard]] const JobTime& job() const { return job_; }
  [[nodiscard]] double before_h(std::size_t draw) const { return job_.before().value * pace_[draw]; }
  [[nodiscard]] double after_h(std::size_t draw) const { return job_.after().value * pace_[draw]; }

  [[nodiscard]] UtcTime clock(LocalDay date, double wall_h) const {
    return tree_.zone.to_utc(units::LocalTime{date} + std::chrono::seconds{std::lround(wall_h * 3600.0)});
  }
  [[nodiscard]] UtcTime off_site_by(LocalDay date) const {
    return tree_.leave_by ? tree_.zone.to_utc(units::LocalTime{date} + *tree_.leave_by) : clock(date, settings_.practice.day.off_site_h);
  }
  [[nodiscard]] UtcTime shut_by(LocalDay date) const { return later_by(off_site_by(date), -job_.after().value); }

  // Arrivals worth looking at, on the start step of practice.
  [[nodiscard]] std::vector<UtcTime> arrivals(LocalDay date) const {
    const WorkDay& day = settings_.practice.day;
    std::vector<UtcTime> all;
    for (int i = 0; day.earliest_start_h + i * day.start_step_h <= day.latest_start_h + 1e-9; ++i)
      all.push_back(clock(date, day.earliest_start_h + i * day.start_step_h));
    return all;
  }

  // Chances and cost over the draws in `finishes` for an arrival; work ends when valves must be shut or the next hold begins. A crew
  // that does not finish has spent the day and comes back to do the job on a good one. A tree's hours do not depend on the crew's
  // pace, so each draw counts with its expectation over all paces, not with one drawn pace.
  [[nodiscard]] Plan weigh(LocalDay date, UtcTime arrive, const std::vector<Hold>& barred, const uptake::Finishes& finishes) const {
    Plan plan{arrive, later_by(arrive, job_.before().value), {}, {}, {}, 0.0, 0.0, 0.0};
    const double shut_h = hours_between(arrive, shut_by(date));
    const double stop_h = std::min(shut_h, hours_between(arrive, next_hold(arrive, barred)));
    const PacedWork before{job_.before().value, settings_.practice.phases.ln_sd}, after{job_.after().value, before.ln_sd};
    for (std::size_t i = 0; i < finishes.dose_h.size(); ++i) {
      const double clear = chance_within(before, stop_h - finishes.flush_h[i]);
      const double drinking = std::min(finishes.flush_h[i], std::max(shut_h, 0.0));
      plan.dose_by_draw.push_back(chance_within(before, shut_h - finishes.dose_h[i]));
      plan.clear_by_draw.push_back(clear);
      plan.cost_by_draw_h.push_back(drinking + expected_up_to(before, std::max(shut_h, 0.0) - drinking) + expected(after) +
                                    (1.0 - clear) * comeback_h_);
    }
    plan.chance_dose = mean(plan.dose_by_draw);
    plan.chance_clear = mean(plan.clear_by_draw);
    plan.cost_h = mean(plan.cost_by_draw_h);
    return plan;
  }

  // When the first hold not over by `from` begins; far away where there is none.
  [[nodiscard]] static UtcTime next_hold(UtcTime from, const std::vector<Hold>& barred) {
    UtcTime first = from + hours{24 * 365};
    for (const Hold& hold : barred)
      if (hold.until > from) first = std::min(first, hold.from);
    return first;
  }

 private:
  const TreeCase& tree_;
  const Settings& settings_;
  JobTime job_;
  double comeback_h_ = 0.0;
  std::vector<double> pace_;
};

// Whether a plan beats an earlier one: up to the owner's GO chance the surer, from there on the cheaper. Where no plan is clear of
// holds, the one likeliest to finish without them, and among the hopeless the earliest: it shows the day at its best.
bool better(const Plan& a, const Plan& b, const Decision& decision) {
  constexpr double noise = 0.01;
  const double sure_a = std::min(a.chance_clear, decision.go_chance), sure_b = std::min(b.chance_clear, decision.go_chance);
  if (std::abs(sure_a - sure_b) > noise) return sure_a > sure_b;
  if (sure_a < noise) return a.chance_dose > b.chance_dose + noise;
  return a.cost_h < b.cost_h - 1e-9;
}

Conditions conditions(const Outlook& outlook, const Frame& frame, const CrownWater& crown, const HoldLimits& limits, std::size_t start) {
  const auto& course = outlook.courses.front();
  Conditions c;
  c.rew = course[start].rew;
  c.temp_max_c = -100.0;
  double cloud = 0.0, cloudy_hours = 0.0;
  for (std::size_t i = frame.first >= 168 ? frame.first - 168 : 0; i < frame.first; ++i) c.rain_7d_mm += course[i].rain_mm;
  for (std::size_t i = frame.first; i < frame.day_end; ++i) {
    const HourWeather& w = course[i];
    const auto es = [](double t) { return air::saturation_pressure(units::Celsius{t}); };
    c.vpd_kpa_max = std::max(c.vpd_kpa_max, air::vapour_pressure_deficit(es(w.temp_c), es(w.dew_point_c)).value);
    c.temp_max_c = std::max(c.temp_max_c, w.temp_c);
    c.rain_today_mm += w.rain_mm;
    if (const auto gust = outlook.signs[i].gust_m_s) c.gust_max_m_s = std::max(c.gust_max_m_s.value_or(0.0), *gust);
    if (w.clear_sky_w_m2 <= 0.0) continue;
    if (crown.wet_share[i] >= limits.wet_crown_share) c.wet_leaf_h += 1.0;
    if (const auto sky = outlook.signs[i].cloud_pct) {
      cloud += *sky;
      cloudy_hours += 1.0;
    }
  }
  if (cloudy_hours > 0.0) c.cloud_pct_mean = cloud / cloudy_hours;
  return c;
}

// Rates from the volumes: the median by half hour, and every draw's highest.
void add_rates(const std::vector<std::vector<double>>& volumes, DayAnswer& answer) {
  if (volumes.empty()) return;
  std::vector<double> peak(volumes.front().size(), 0.0);
  std::vector<double> rate(peak.size());
  for (std::size_t i = 0; i < volumes.size(); ++i) {
    for (std::size_t draw = 0; draw < rate.size(); ++draw) {
      rate[draw] = 2.0 * (volumes[i][draw] - (i > 0 ? volumes[i - 1][draw] : 0.0));
      peak[draw] = std::max(peak[draw], rate[draw]);
    }
    answer.rate_l_h.push_back(*quantile(rate, 0.5));
  }
  answer.peak_rate_l_h = quantiles(peak);
}

// Tanks of which even the slow draws take every drop before work ends. `available_h` of each draw: from its own opening of the valves,
// which follows the crew's pace, to the end of work.
int sure_tanks(const TreeCase& tree, const SetUp& set_up, const std::vector<std::vector<double>>& volumes,
               const std::vector<double>& available_h) {
  if (volumes.empty()) return 0;
  std::vector<double> taken_l(available_h.size(), 0.0);
  for (std::size_t draw = 0; draw < taken_l.size(); ++draw) {
    const auto half_hours = static_cast<std::size_t>(std::max(0.0, 2.0 * available_h[draw] + 1e-9));
    if (half_hours > 0) taken_l[draw] = volumes[std::min(half_hours, volumes.size()) - 1][draw];
  }
  const double sure_l = *quantile(std::move(taken_l), 1.0 - set_up.tank_sure);
  if (sure_l >= tree.subject.dose.value) return tank_count(tree, set_up);
  return static_cast<int>(sure_l / set_up.tank_l);
}

// The middle tree's hours on its reference good day, valves open at the middle of the morning.
double good_day_hours(const TreeCase& tree, const Settings& settings, UtcTime midnight) {
  constexpr double morning_h = 9.0;
  const auto good = day_of_kind(settings.practice.good_day, tree.site, midnight, static_cast<std::size_t>(morning_h + horizon_h));
  return reference_hours(tree.subject, tree.curve, good, morning_h);
}

// The reasons of a day whose valves open at `open`, over the first block of the tree's draws.
Reasons why(const TreeCase& tree, const Outlook& outlook, const Frame& frame, const CrownWater& crown,
            const uptake::Draw<units::Lanes>& draws, const DayKind& good_day, UtcTime open) {
  constexpr std::size_t rest_h = 4;
  const std::size_t open_hour = *outlook.hour_at(open);
  const std::size_t from = std::max(frame.first + rest_h, open_hour) - rest_h;
  const std::size_t count = std::min(open_hour + 1 + static_cast<std::size_t>(horizon_h), frame.until) - from;
  const auto good = day_of_kind(good_day, tree.site, outlook.begins(from), count);
  return reasons(tree.subject, tree.curve, draws, std::span{outlook.courses.front()}.subspan(from, count), good, crown.before_mm[from],
                 hours_between(outlook.begins(from), open));
}

DayAnswer answer_day(const TreeCase& tree, const Outlook& outlook, const Frame& frame, const CrownWater& crown, const Worker& worker,
                     const ForecastError& error, uptake::Ensemble& ensemble, const Settings& settings) {
  const Practice& practice = settings.practice;
  ensemble.set_day(error.scenarios(frame.first, frame.until), crown.before_mm[frame.first]);
  const UtcTime table_begins = outlook.begins(frame.first);
  const auto open_h = [&](UtcTime arrive) { return hours_between(table_begins, later_by(arrive, worker.job().before().value)); };

  DayAnswer answer;
  answer.date = frame.date;
  const auto arrivals = worker.arrivals(frame.date);
  answer.holds = holds(outlook, practice.holds, crown.wet_share, arrivals.front(), worker.off_site_by(frame.date));
  std::optional<Plan> best;
  for (const UtcTime arrive : arrivals) {
    const Plan plan = worker.weigh(frame.date, arrive, answer.holds, ensemble.finish(open_h(arrive), horizon_h, settings.search_draws));
    if (!best || better(plan, *best, practice.decision)) best = plan;
  }

  const double start_h = open_h(best->arrive);
  const uptake::Finishes finishes = ensemble.finish(start_h, horizon_h);
  const Plan plan = worker.weigh(frame.date, best->arrive, answer.holds, finishes);
  const auto volumes = ensemble.volumes(start_h, horizon_h);
  answer.arrive = plan.arrive;
  answer.valves_open = plan.open;
  answer.valves_shut_by = worker.shut_by(frame.date);
  answer.off_site_by = worker.off_site_by(frame.date);
  answer.chance_to_finish = plan.chance_dose;
  answer.chance_all_clear = plan.chance_clear;
  answer.mc_error = standard_error(plan.dose_by_draw);
  answer.expected_cost_h = plan.cost_h;
  answer.verdict = verdict(practice.decision, plan.chance_clear);
  answer.uptake_h = quantiles(finishes.dose_h);
  std::vector<double> on_site(finishes.flush_h);
  for (std::size_t i = 0; i < on_site.size(); ++i) on_site[i] += worker.before_h(i) + worker.after_h(i);
  answer.on_site_h = quantiles(on_site);
  if (answer.on_site_h.p50) answer.off_site_p50 = later_by(plan.arrive, *answer.on_site_h.p50);
  if (answer.on_site_h.p90) answer.off_site_p90 = later_by(plan.arrive, *answer.on_site_h.p90);
  add_rates(volumes, answer);
  const UtcTime stop = std::min(answer.valves_shut_by, Worker::next_hold(plan.arrive, answer.holds));
  std::vector<double> available_h;
  for (std::size_t draw = 0; draw < ensemble.draws(); ++draw)
    available_h.push_back(hours_between(plan.arrive, stop) - worker.before_h(draw));
  answer.sure_tanks = sure_tanks(tree, practice.set_up, volumes, available_h);
  answer.conditions = conditions(outlook, frame, crown, practice.holds, *outlook.hour_at(plan.open));
  answer.why = why(tree, outlook, frame, crown, ensemble.block(0), practice.good_day, plan.open);
  answer.rain_known =
      std::all_of(outlook.signs.begin() + static_cast<std::ptrdiff_t>(frame.first),
                  outlook.signs.begin() + static_cast<std::ptrdiff_t>(frame.day_end), [](const HourSigns& s) { return s.rain_known; });
  answer.cost_by_draw_h = plan.cost_by_draw_h;
  const auto last = outlook.hour_at(answer.off_site_by).value_or(outlook.hours());
  const auto from = *outlook.hour_at(plan.arrive);
  answer.departures = error.departures(from, std::max(last, from + 1), ensemble.draws());
  return answer;
}

// The first draws of a tree once more, for days run again under other water than they have.
uptake::Ensemble first_draws(const TreeCase& tree, const uptake::Ensemble& all, std::size_t count) {
  const std::size_t draws = std::min(count, all.draws());
  std::vector<uptake::Draw<units::Lanes>> blocks;
  for (std::size_t b = 0; b * units::Lanes::count < draws; ++b) blocks.push_back(all.block(b));
  return {tree.subject, tree.curve, std::move(blocks), draws};
}

Settings flare_dug(Settings settings) {
  settings.practice.phases.dig_h = settings.practice.phases.dig_h_per_m = 0.0;
  return settings;
}

// Each draw's at most the horizon.
double mean_h(const std::vector<double>& finish_h) {
  double sum = 0.0;
  for (const double h : finish_h) sum += std::min(h, horizon_h);
  return sum / static_cast<double>(finish_h.size());
}

// Runs an answered day again with one thing changed, over the draws that the search for the start uses. `ensemble` is still set to the
// day; `rewatered_trees` are those draws once more.
class Again {
 public:
  Again(const TreeCase& tree, const Outlook& outlook, const CrownWater& crown, const Worker& worker, const Worker& dug,
        const ForecastError& error, uptake::Ensemble& ensemble, uptake::Ensemble& rewatered_trees, const Settings& settings)
      : tree_(tree),
        outlook_(outlook),
        crown_(crown),
        worker_(worker),
        dug_(dug),
        error_(error),
        ensemble_(ensemble),
        rewatered_(rewatered_trees),
        settings_(settings) {}

  [[nodiscard]] std::vector<Advice> advice(const Frame& frame, const DayAnswer& answer, UtcTime now) {
    as_is_.clear();
    const auto arrivals = worker_.arrivals(frame.date);
    const std::size_t open_hour = *outlook_.hour_at(answer.valves_open);
    const auto dry = [&](std::size_t hour) { return crown_.wet_share[hour] < settings_.practice.holds.wet_crown_share; };
    const auto soil = std::ranges::find(answer.why.by_factor, Factor::soil_water, &Reason::factor);
    const DayAsAnswered day{.chance = answer.chance_all_clear,
                            .dig_h = worker_.job().dig.value,
                            .soil_costs_h = soil->hours,
                            .leaves_dry = dry(open_hour - 1) && dry(open_hour),
                            .soaking = soaking(tree_, outlook_, settings_.practice.advice, frame.date, answer.valves_open, now),
                            .earliest_arrival = arrivals.front(),
                            .latest_arrival = arrivals.back()};
    return advise(day, settings_.practice, [&](const Change& change) { return run(frame, answer, arrivals.front(), change); });
  }

 private:
  [[nodiscard]] Trial run(const Frame& frame, const DayAnswer& answer, UtcTime earliest, const Change& change) {
    const Worker& crew = change.flare_dug ? dug_ : worker_;
    const UtcTime arrive = change.arrive.value_or(answer.arrive), open = later_by(arrive, crew.job().before().value);
    const uptake::Finishes finishes =
        change.wetted_share > 0.0 || change.soak_rew > 0.0 ? under_other_water(frame, open, change) : as_forecast(frame, open);
    const auto barred =
        arrive < earliest ? holds(outlook_, settings_.practice.holds, crown_.wet_share, arrive, answer.off_site_by) : answer.holds;
    const Plan plan = crew.weigh(frame.date, arrive, barred, finishes);
    return {arrive, open, plan.chance_clear, mean_h(finishes.dose_h), mean_h(finishes.flush_h)};
  }

  const uptake::Finishes& as_forecast(const Frame& frame, UtcTime open) {
    const auto known = as_is_.find(open);
    if (known != as_is_.end()) return known->second;
    const double start_h = hours_between(outlook_.begins(frame.first), open);
    return as_is_.emplace(open, ensemble_.finish(start_h, horizon_h, settings_.search_draws)).first->second;
  }

  [[nodiscard]] uptake::Finishes under_other_water(const Frame& frame, UtcTime open, const Change& change) {
    auto courses = error_.scenarios(frame.first, frame.until);
    courses.resize(std::min(courses.size(), rewatered_.blocks()));
    rewatered_.set_day(rewatered(std::move(courses), tree_.subject, change, *outlook_.hour_at(open) - frame.first),
                       crown_.before_mm[frame.first]);
    return rewatered_.finish(hours_between(outlook_.begins(frame.first), open), horizon_h);
  }

  const TreeCase& tree_;
  const Outlook& outlook_;
  const CrownWater& crown_;
  const Worker& worker_;
  const Worker& dug_;
  const ForecastError& error_;
  uptake::Ensemble& ensemble_;
  uptake::Ensemble& rewatered_;
  const Settings& settings_;
  std::map<UtcTime, uptake::Finishes> as_is_;  // of the day at hand, by the opening of the valves
};

}  // namespace

std::vector<DayAnswer> answer_days(const TreeCase& tree, const Outlook& outlook, uptake::Ensemble& ensemble, const Settings& settings,
                                   UtcTime now) {
  const CrownWater crown = crown_water(tree, outlook.courses.front());
  std::vector<DayAnswer> answers;
  const auto all = frames(tree, outlook, now);
  if (all.empty()) return answers;
  const double good_h = good_day_hours(tree, settings, outlook.begins(all.front().first));
  const Settings dug_settings = flare_dug(settings);
  const Worker worker{tree, settings, ensemble, good_h}, dug{tree, dug_settings, ensemble, good_h};
  uptake::Ensemble rewatered_trees = first_draws(tree, ensemble, settings.search_draws);
  const ForecastError error{outlook, settings.practice.weather_error, ensemble.blocks(), settings.seed};
  Again again{tree, outlook, crown, worker, dug, error, ensemble, rewatered_trees, settings};
  for (const Frame& frame : all) {
    answers.push_back(answer_day(tree, outlook, frame, crown, worker, error, ensemble, settings));
    answers.back().advice = again.advice(frame, answers.back(), now);
  }
  return answers;
}

}  // namespace days
