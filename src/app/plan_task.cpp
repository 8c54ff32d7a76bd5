#include "app/plan_task.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "air/sun_position.h"
#include "app/lawful_report.h"
#include "app/words.h"
#include "days/clock.h"
#include "days/job_time.h"
#include "plan/timetable.h"

namespace app {
namespace {

using book::Finding;
using book::Record;
using units::LocalDay;

double clock_h(units::LocalTime wall) {
  return std::chrono::duration<double, std::ratio<3600>>(wall - std::chrono::floor<std::chrono::days>(wall)).count();
}

bool depends_on_day(const Finding& finding) {
  return finding.why == book::Why::too_late || finding.why == book::Why::not_yet || finding.why == book::Why::lapsed;
}

// The hours that a client, the light and the owner leave of a day.
struct Window {
  double from_h = 0.0, until_h = 24.0;
};

Window window(const TaskSource& source, LocalDay day) {
  const auto& zone = source.report.tree.tree.zone;
  Window hours;
  const auto sun = air::sun_times(day, source.report.tree.row.site);
  if (sun.civil_dawn) hours.from_h = clock_h(zone.to_local(*sun.civil_dawn));
  if (sun.civil_dusk && zone.day_of(*sun.civil_dusk) == day) hours.until_h = clock_h(zone.to_local(*sun.civil_dusk));
  const auto h = [](std::chrono::minutes clock) { return std::chrono::duration<double, std::ratio<3600>>(clock).count(); };
  if (const auto from = source.task.site.clock("work_from")) hours.from_h = std::max(hours.from_h, h(*from));
  if (const auto until = source.task.site.clock("work_until")) hours.until_h = std::min(hours.until_h, h(*until));
  return hours;
}

double arrives_h(const TaskSource& source, const days::Start& start) {
  return clock_h(source.report.tree.tree.zone.to_local(start.arrive));
}

// A begin as it was looked at, less what was prepared before the day. Labour takes its time whatever the tree drinks.
plan::Begin begin_of(const TaskSource& source, const days::Start& start) {
  const auto work = days::job_time(source.report.tree.tree, source.common.models.practice.phases);
  const double saved_h = source.task.job && source.task.job->day("prepared_on") ? (work.dig + work.layout).value : 0.0;
  const double least_h = (work.before() + work.after()).value - saved_h;
  plan::Begin begin{arrives_h(source, start), std::max(least_h, start.reserve_h - saved_h), std::max(0.0, start.spent_h - saved_h),
                    start.chance_all_clear, start.on_site_h};
  for (double& takes_h : begin.takes_h) takes_h -= saved_h;
  return begin;
}

// Nobody looks at every half hour: an arrival within a step of the promised one stands for it.
void say_as_promised(const TaskSource& source, std::optional<double> promised_at_h, std::vector<plan::Begin>& begins) {
  if (!promised_at_h || begins.empty()) return;
  const auto nearest =
      std::ranges::min_element(begins, {}, [&](const plan::Begin& begin) { return std::abs(begin.arrive_h - *promised_at_h); });
  if (std::abs(nearest->arrive_h - *promised_at_h) <= source.common.models.practice.day.start_step_h) nearest->arrive_h = *promised_at_h;
}

std::vector<plan::Begin> begins_of(const TaskSource& source, const days::DayAnswer& answer, double least_chance) {
  const Window hours = window(source, answer.date);
  std::vector<plan::Begin> begins;
  for (const days::Start& start : answer.starts) {
    const plan::Begin begin = plan::until(begin_of(source, start), hours.until_h);
    if (begin.arrive_h >= hours.from_h && begin.on_site_h > 0.0 && begin.chance >= least_chance) begins.push_back(begin);
  }
  return begins;
}

// A locked job begins when it was said; its hours are those of the arrival looked at that is nearest to that.
plan::Begin as_booked(const TaskSource& source, const days::DayAnswer& answer, std::optional<double> at_h) {
  const double wanted_h = at_h.value_or(clock_h(source.report.tree.tree.zone.to_local(answer.arrive)));
  plan::Begin begin = begin_of(source, *std::ranges::min_element(answer.starts, {}, [&](const days::Start& start) {
                                 return std::abs(arrives_h(source, start) - wanted_h);
                               }));
  begin.arrive_h = wanted_h;
  return begin;
}

bool any_missing(const std::vector<Finding>& findings, bool of_the_day_only) {
  return std::ranges::any_of(findings, [&](const Finding& finding) {
    return finding.state == book::Lawful::missing && (!of_the_day_only || depends_on_day(finding));
  });
}

bool of_the_crew(const Record& rule) { return rule.text("needs") == "licence" || rule.text("needs") == "attended"; }

std::vector<Record> those(const std::vector<Record>& rules, bool of_crew) {
  std::vector<Record> some;
  std::ranges::copy_if(rules, std::back_inserter(some), [&](const Record& rule) { return of_the_crew(rule) == of_crew; });
  return some;
}

// The findings of the rules that hang on who goes.
std::vector<Finding> findings_of_crew(const TaskSource& source, int crew, LocalDay day) {
  const auto& zone = source.report.tree.tree.zone;
  book::AtWork there = book::at_work(source.facts.people, source.crews[static_cast<std::size_t>(crew)].id, day);
  const book::JobFacts facts{
      day, zone.start_of(day), zone, source.task.client, source.task.site, std::move(there.licences), there.members.size(), true};
  return book::lawful(those(source.facts.rules, true), facts, source.common.models.office.warn_days);
}

std::string missing_text(const TaskSource& source, const std::vector<Finding>& findings) {
  for (const Finding& finding : findings)
    if (finding.state == book::Lawful::missing) return finding_text(finding, source.report.tree.tree.zone);
  return {};
}

}  // namespace

std::vector<Finding> findings_of_place(const Common& common, const std::vector<Record>& rules, const TreeReport& report,
                                       const PlanTask& task, LocalDay day, double arrive_h) {
  const auto& zone = report.tree.tree.zone;
  const book::JobFacts facts{day, days::at_wall_clock(zone, day, arrive_h), zone, task.client, task.site, {}, 0, false};
  return book::lawful(those(rules, false), facts, common.models.office.warn_days);
}

void add_begins(const TaskSource& source, plan::Task& to) {
  const double least = to.least_chance = source.common.models.practice.decision.tight_chance;
  bool told = false;
  for (int index = 0; index < source.days; ++index) {
    const LocalDay day = source.first_day + std::chrono::days{index};
    auto& begins = to.begins.emplace_back();
    const auto answer = std::ranges::find(source.report.answers, day, &days::DayAnswer::date);
    const bool promised_day = to.promised && to.promised->day == index;
    if (answer == source.report.answers.end()) continue;
    if (to.locked && promised_day) {
      begins = {as_booked(source, *answer, to.promised_at_h)};
      continue;
    }
    if (!book::is_one_of(source.task.site.text("work_days"), day)) {
      if (promised_day) source.task.notes.push_back("days that suit the site: " + source.task.site.text("work_days"));
      continue;
    }
    begins = begins_of(source, *answer, promised_day ? 0.0 : least);
    if (promised_day) say_as_promised(source, to.promised_at_h, begins);
    // Where the promised day is hopeless nobody is sent at another hour, or another crew: it stays as it is, or moves.
    if (promised_day && std::ranges::none_of(begins, [&](const plan::Begin& begin) { return begin.chance >= least; })) {
      const double at_h = to.promised_at_h.value_or(0.0);
      const auto nearest = std::ranges::min_element(begins, {}, [&](const plan::Begin& begin) { return std::abs(begin.arrive_h - at_h); });
      if (nearest != begins.end()) begins = {*nearest};
      for (const int crew : to.teams)
        if (crew != to.promised->crew) to.barred.push_back({index, crew});
    }
    // Whoever was promised another day hears of tomorrow late.
    if (index == 0 && to.promised && !promised_day)
      for (plan::Begin& begin : begins) begin.toll_h += source.common.models.planning.to_tomorrow;
    // Rules of the place and the client ask for an hour; those of the crew for a day.
    std::erase_if(begins, [&](const plan::Begin& begin) {
      const auto findings = findings_of_place(source.common, source.facts.rules, source.report, source.task, day, begin.arrive_h);
      if (promised_day && any_missing(findings, false) && !told) {
        source.task.notes.push_back((any_missing(findings, true) ? "not lawful that day: " : "not lawful yet: ") +
                                    missing_text(source, findings));
        told = true;
      }
      return any_missing(findings, promised_day);
    });
    for (const int crew : to.teams) {
      const auto findings = findings_of_crew(source, crew, day);
      const bool promised_here = promised_day && to.promised->crew == crew;
      if (!any_missing(findings, promised_here)) continue;
      to.barred.push_back({index, crew});
      if (promised_here) source.task.notes.push_back("not lawful that day: " + missing_text(source, findings));
    }
  }
}

std::string why_nowhere(const TaskSource& source, const plan::Task& task) {
  if (const auto day = source.task.job ? source.task.job->day("day") : std::nullopt; day && !task.promised)
    return fmt::format("nobody can go on {}, and it has no crew: give it one, or take its day away to have it planned", words::day(*day));
  const bool any_day = std::ranges::any_of(task.begins, [](const auto& begins) { return !begins.empty(); });
  const auto& best = source.report.answers[source.report.ranking.front().day];
  if (!any_day && best.chance_all_clear < source.common.models.practice.decision.tight_chance)
    return fmt::format("no day to {} is GO or TIGHT: the best is {}, {}", words::day(source.report.answers.back().date),
                       words::day(best.date), words::chance(best.chance_all_clear));
  for (int index = 0; index < source.days; ++index) {
    const LocalDay day = source.first_day + std::chrono::days{index};
    auto findings = findings_of_place(source.common, source.facts.rules, source.report, source.task, day,
                                      source.common.models.practice.day.earliest_start_h);
    if (!task.teams.empty()) std::ranges::move(findings_of_crew(source, task.teams.front(), day), std::back_inserter(findings));
    if (const std::string text = missing_text(source, findings); !text.empty()) return text;
  }
  return "no crew works on a day and at hours that suit it";
}

}  // namespace app
