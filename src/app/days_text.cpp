#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/best_days.h"
#include "app/days_command.h"
#include "app/words.h"
#include "app/wrap.h"
#include "days/job_time.h"
#include "units/us_customary.h"

namespace app {
namespace {

using days::DayAnswer;
using days::Verdict;

// Colour only for a terminal and never alone: the word stands beside it.
std::string painted(Verdict verdict, const std::string& text, bool colour) {
  if (!colour) return text;
  const int code = verdict == Verdict::go ? 1 : verdict == Verdict::tight ? 4 : 2;  // bold, underlined, faint
  return fmt::format("\033[{}m{}\033[0m", code, text);
}

class TreeText {
 public:
  TreeText(const TreeReport& report, const Common& common) : report_(report), common_(common), tree_(report.tree.tree) {}

  [[nodiscard]] std::string text() const {
    std::string out = heading() + "\n";
    out += fmt::format("    {:<11} {:<6} {:<28} {:<13} {:>8} {:>8} {:>8}\n", "day", "", "", "odds", "arrive", "open", "off site");
    for (const auto& ranked : report_.ranking) out += day(ranked);
    if (report_.wait) out += wrap(words::wait(*report_.wait, tree_.zone), "  ");
    return out + "\n" + best_day();
  }

 private:
  [[nodiscard]] std::string clock(units::UtcTime t) const { return words::clock(tree_.zone.to_local(t)); }

  [[nodiscard]] std::string heading() const {
    const auto& row = report_.tree.row;
    const auto units = common_.units;
    const auto& english = report_.tree.species.english;
    std::string out = fmt::format("{} - {}, {}, {}\n", row.name.empty() ? row.tree : row.name,
                                  english.empty() ? report_.tree.species.latin : english.front(), words::diameter(row.dbh.value, units),
                                  report_.tree.texture.name);
    out += wrap(fmt::format("{} of mix through {} ports at {}, then {} of clean water. {}", words::amount(tree_.subject.dose.value, units),
                            days::port_count(tree_), words::pressure(tree_.subject.pressure.value * 1000.0, units),
                            words::amount(tree_.subject.flush.value, units),
                            tree_.dose_from_label ? "Dose from the tree list." : "DRAFT dose: common practice, not your label's figure."),
                "  ");
    out += wrap(fmt::format("{}{}.", static_cast<char>(std::toupper(report_.soil_story[0])), report_.soil_story.substr(1)), "  ");
    if (report_.forecast_old)
      out += wrap(fmt::format("Note: this forecast is older than {:.0f} h: TIGHT at best until there is a fresher one.",
                              common_.models.practice.decision.oldest_forecast_h),
                  "  ");
    for (const auto& note : report_.notes) out += wrap(fmt::format("Note: {}.", note), "  ");
    return out;
  }

  [[nodiscard]] std::string day(const days::Ranked& ranked) const {
    const DayAnswer& d = report_.answers[ranked.day];
    const std::string verdict = painted(d.verdict, words::verdict(d.verdict), common_.colour);
    const std::string pad(6 - words::verdict(d.verdict).size(), ' ');
    std::string out = fmt::format("{:>2}{} {:<11} {} {:<28} {:<13} {:>8} {:>8} {:>8}\n", ranked.rank, ranked.tied ? '=' : ' ',
                                  words::day(d.date), verdict + pad, words::takes(d.uptake_h), words::chance(d.chance_all_clear),
                                  clock(d.arrive), clock(d.valves_open), off_site(d));
    const std::string why = reasons(d);
    if (!why.empty()) out += wrap(why, "       ");
    for (const auto& hold : d.holds)
      out += wrap(fmt::format("HOLD {} to {}: {}", clock(hold.from), clock(hold.until), words::hold(hold, common_.units)), "       ");
    for (const auto& alert : d.watches)
      out += wrap(fmt::format("Note {} to {}: {}", clock(std::max(alert.from, d.arrive)), clock(std::min(alert.until, d.off_site_by)),
                              words::watch(alert)),
                  "       ");
    if (!d.rain_known) out += wrap("no rain forecast for part of this day: taken as the usual chance", "       ");
    return out;
  }

  [[nodiscard]] std::string off_site(const DayAnswer& d) const {
    const bool same_day = d.off_site_p50 && tree_.zone.day_of(*d.off_site_p50) == d.date;
    return same_day ? clock(*d.off_site_p50) : "too late";
  }

  // The two largest, where they matter.
  [[nodiscard]] std::string reasons(const DayAnswer& d) const {
    std::string out;
    for (std::size_t i = 0; i < std::min<std::size_t>(2, d.why.by_factor.size()); ++i) {
      const auto& reason = d.why.by_factor[i];
      if (std::abs(reason.hours) < common_.models.practice.advice.worth_h) break;
      out += (out.empty() ? "" : ", ") + words::reason(reason, d, common_.models.practice.good_day);
    }
    return out;
  }

  [[nodiscard]] std::string best_day() const {
    const DayAnswer& best = report_.answers[report_.ranking.front().day];
    std::string out = best.verdict == Verdict::no_go ? "  No day here is GO or TIGHT. The least bad:\n" : "";
    out += fmt::format("  {}: valves open {}, shut by {}, off site by {}\n", words::day(best.date), clock(best.valves_open),
                       clock(best.valves_shut_by), clock(best.off_site_by));
    out += bar(best);
    const int tanks = days::tank_count(tree_, common_.models.practice.set_up);
    out += "  " + tank_advice(best, tanks) + "\n";
    const auto& limits = common_.models.practice.advice;
    for (std::size_t i = 0; i < std::min<std::size_t>(2, best.advice.size()); ++i)
      out += wrap(words::advice(best.advice[i], limits, tree_.zone, common_.units), "  ");
    return out;
  }

  [[nodiscard]] std::string tank_advice(const DayAnswer& best, int tanks) const {
    if (best.sure_tanks >= tanks) return fmt::format("All {} tank{} should go in: 9 in 10 or better.", tanks, tanks == 1 ? "" : "s");
    if (best.sure_tanks == 0) return "Not one full tank is 9 in 10 sure to go in before shut-off: mix small batches or wait.";
    return fmt::format("Mix {} of {} tanks; the next only if the tank readings say it goes in before shut-off.", best.sure_tanks, tanks);
  }

  // Mix an hour through the day, from the opening of the valves until the middle tree is done.
  [[nodiscard]] std::string bar(const DayAnswer& d) const {
    const bool us = common_.units == UnitSystem::us;
    std::string out;
    double most = 0.0;
    std::vector<double> hourly;
    for (std::size_t i = 0; i + 1 < d.rate_l_h.size() && hourly.size() < 14; i += 2) {
      const double litres = 0.5 * (d.rate_l_h[i] + d.rate_l_h[i + 1]);
      if (litres < 0.05) break;
      hourly.push_back(us ? units::us::gallons(litres) : litres);
      most = std::max(most, hourly.back());
    }
    for (std::size_t i = 0; i < hourly.size(); ++i) {
      const auto from = d.valves_open + std::chrono::hours{static_cast<long>(i)};
      const auto width = static_cast<std::size_t>(std::lround(40.0 * hourly[i] / most));
      out += fmt::format("    {:>8}  {:<40} {:.0f} {} an hour\n", clock(from), std::string(width, '='), hourly[i], us ? "gal" : "L");
    }
    return out;
  }

  const TreeReport& report_;
  const Common& common_;
  const days::TreeCase& tree_;
};

std::string weather_line(const WeatherUsed& weather, units::UtcTime made_at) {
  std::string line = "Weather: " + weather.source;
  if (weather.issued_at)
    line += fmt::format(", {:.0f} h old", std::chrono::duration<double, std::ratio<3600>>(made_at - *weather.issued_at).count());
  if (weather.members > 0) line += fmt::format(", {} members", weather.members + 1);
  if (!weather.credit.empty()) line += ". " + weather.credit;
  return wrap(line, "");
}

}  // namespace

std::string days_text(const DaysReport& report, const Common& common) {
  std::string out;
  for (const auto& tree : report.trees) out += TreeText{tree, common}.text() + "\n";
  for (const auto& refused : report.refused)

    out += wrap(fmt::format("{}: not answered: {}", refused.tree.empty() ? "a tree" : refused.tree, refused.why), "");
  for (const auto& weather : report.weather) out += weather_line(weather, report.made_at);
  return out + words::cautions() + "\n";
}

Outcome days_command(const Common& common, const DaysRequest& request, bool strict) {
  Outcome outcome;
  const DaysReport report = days_report(common, request, outcome);
  if (report.trees.empty() && report.refused.empty() && common.format != Format::json) return outcome;
  if (request.trees.empty()) BestDays::keep(common, report);
  outcome.out = common.format == Format::json  ? days_json(report, common.models)
                : common.format == Format::csv ? days_csv(report)
                                               : days_text(report, common);
  bool any_go = false;
  for (const auto& tree : report.trees)
    for (const auto& day : tree.answers) any_go = any_go || day.verdict == Verdict::go;
  if (strict && !any_go && outcome.exit == Exit::done) outcome.exit = Exit::nothing;
  return outcome;
}

}  // namespace app
