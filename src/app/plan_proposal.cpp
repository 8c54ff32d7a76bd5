#include "app/plan_proposal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/lawful_report.h"
#include "app/office.h"
#include "app/plan_prepare.h"
#include "app/plan_task.h"
#include "app/plan_why.h"
#include "app/words.h"
#include "days/clock.h"
#include "days/turn.h"
#include "plan/check_schedule.h"

namespace app {
namespace {

using units::LocalDay;

// A gauge over so many seconds from now; none where moves are counted.
plan::Effort effort_of(const Common& common, const PlanRequest& request, double seconds) {
  plan::Effort effort{common.seed, request.iterations, {}};
  if (request.iterations > 0) return effort;
  const auto clock = common.around->machine.now;
  effort.spent = [clock, tell = common.around->on_search, begun = clock(), seconds] {
    const double share = std::chrono::duration<double>(clock() - begun).count() / seconds;
    if (tell) tell(share);
    return share;
  };
  return effort;
}

class Teller {
 public:
  Teller(const Common& common, const PlanRequest& request, const PlanBook& book, plan::Schedule schedule)
      : common_(common), request_(request), book_(book) {
    told_.schedule = std::move(schedule);
  }

  Proposal told() {
    for (int task = 0; task < static_cast<int>(book_.tasks.size()); ++task) tell(task);
    const auto order = [&](const Move& move) {
      const int group = move.what == Move::What::booked ? 2 : move.may_wait ? 1 : 0;
      return std::tuple{group, move.from ? move.from->day : move.to->day, move.task};
    };
    price_refusals();
    std::ranges::sort(told_.moves, {}, order);
    const auto by_day = [&](int task) { return std::tuple{told_.schedule.plan[at(task)]->day, told_.schedule.plan[at(task)]->crew, task}; };
    std::ranges::sort(told_.stays, {}, by_day);
    std::ranges::sort(told_.stays_badly, {}, by_day);
    told_.prepare = preparations(common_, book_, told_.schedule);
    return std::move(told_);
  }

 private:
  static std::size_t at(int index) { return static_cast<std::size_t>(index); }
  [[nodiscard]] const plan::Task& task(int index) const { return book_.office.tasks[at(index)]; }

  void tell(int index) {
    const plan::Task& task = this->task(index);
    const auto& booked = told_.schedule.plan[at(index)];
    if (!booked && !task.promised) return told_.unplaced.push_back(index);
    Move move;
    move.task = index;
    if (task.promised) move.from = Slot{book_.day(task.promised->day), task.promised->crew, task.promised_at_h};
    if (booked)
      move.to = Slot{book_.day(booked->day), booked->crew,
                     told_.schedule.visit(index) ? std::optional{told_.schedule.visit(index)->arrive_h} : std::nullopt};
    if (!move.from)
      move.what = Move::What::booked;
    else if (!move.to)
      move.what = Move::What::dropped;
    else if (move.from->day != move.to->day)
      move.what = Move::What::day;
    else if (move.from->crew != move.to->crew)
      move.what = Move::What::crew;
    else if (move.other_hour() && !task.locked)
      move.what = Move::What::hour;
    else
      return stay(index, booked->day);
    complete(move);
    told_.moves.push_back(std::move(move));
  }

  void stay(int index, int day) {
    const days::DayAnswer* answer = book_.answer(index, day);
    const bool bad = answer != nullptr && answer->verdict == days::Verdict::no_go;
    (bad ? told_.stays_badly : told_.stays).push_back(index);
  }

  void complete(Move& move) {
    const TreeReport& report = book_.report(move.task);
    move.why = why_moved(common_, book_, move);
    const LocalDay first = move.from && move.to ? std::min(move.from->day, move.to->day) : move.from ? move.from->day : move.to->day;
    move.decide_by = days::at_wall_clock(report.tree.tree.zone, first - std::chrono::days{1}, common_.models.practice.decision.decide_h);
    move.needs = plan::moves_needed(book_.office, told_.schedule, move.task);
    breaks(move);
    if (!move.from) return;
    move.call = call_sentence(common_, book_, move);
    const auto& was = *task(move.task).promised;
    if (!told_.schedule.days.contains({was.day, was.crew}))
      move.frees = fmt::format("{} on {}", book_.crew_name(was.crew), words::day(move.from->day));
  }

  // Each is given its share of the time, or a tenth of the moves that the plan was given.
  void price_refusals() {
    PlanRequest request = request_;
    if (request.iterations > 0) request.iterations = std::max<std::uint64_t>(1, request.iterations / 10);
    const auto priced = std::ranges::count_if(told_.moves, [](const Move& move) { return move.from.has_value(); });
    const double share_s = common_.models.planning.search.refusals_s / static_cast<double>(std::max<std::ptrdiff_t>(1, priced));
    for (Move& move : told_.moves) {
      if (!move.from) continue;
      const auto refusal = plan::refusal(book_.office, told_.schedule, move.task, effort_of(common_, request, share_s));
      if (refusal) move.refusing_costs_h = refusal->cost_h;
      if (move.what == Move::What::day || move.what == Move::What::dropped) wait(move, refusal.has_value());
    }
  }

  // Whether a later forecast may save the day; only for a day that is not good enough as it stands.
  void wait(Move& move, bool could_stay) {
    const auto& decision = common_.models.practice.decision;
    const TreeReport& report = book_.report(move.task);
    const auto day = std::ranges::find(report.answers, move.from->day, &days::DayAnswer::date);
    if (!could_stay || day == report.answers.end() || day->verdict == days::Verdict::go) return;
    const auto turn = days::may_turn(report.answers, static_cast<std::size_t>(day - report.answers.begin()),
                                     day->verdict == days::Verdict::tight ? decision.go_chance : decision.tight_chance,
                                     common_.models.practice, report.decider);
    if (!turn) return;
    move.saved_chance = turn->chance;
    // What comes in its stead must still be open that evening.
    move.may_wait = turn->chance >= common_.models.planning.hope && (!move.to || move.to->day > move.from->day);
    if (move.may_wait) move.decide_by = turn->decide_by;
  }

  void breaks(Move& move) const {
    if (!move.to) return;
    const TreeReport& report = book_.report(move.task);
    const double arrive_h = move.to->arrive_h.value_or(common_.models.practice.day.earliest_start_h);
    for (const book::Finding& finding :
         findings_of_place(common_, book_.rules, report, book_.tasks[at(move.task)], move.to->day, arrive_h)) {
      if (finding.state != book::Lawful::expiring || !finding.until ||
          *finding.until > move.to->day + std::chrono::days{common_.models.planning.lapse_d})
        continue;
      move.breaks.push_back(finding_text(finding, report.tree.tree.zone));
    }
  }

  const Common& common_;
  const PlanRequest& request_;
  const PlanBook& book_;
  Proposal told_;
};

}  // namespace

bool Move::other_hour() const {
  return from && to && from->day == to->day && from->arrive_h && to->arrive_h &&
         std::abs(*from->arrive_h - *to->arrive_h) > plan::same_hour_h;
}

std::optional<Proposal> proposal(const Common& common, const PlanRequest& request, const PlanBook& book, Outcome& outcome) {
  const auto& time = common.models.planning.search;
  const double seconds = request.seconds > 0.0
                             ? request.seconds
                             : std::min(time.most_s, time.least_s + time.per_job_s * static_cast<double>(book.tasks.size()));
  auto found = plan::schedule(book.office, effort_of(common, request, seconds));
  if (!found) {
    outcome.refuse(found.error());
    return std::nullopt;
  }
  // Nothing is shown that breaks a rule, whoever erred.
  if (const auto broken = plan::broken_rules(book.office, *found); !broken.empty()) {
    outcome.refuse({"plan: " + broken.front().where, broken.front().found, broken.front().expected + ": please report this"});
    return std::nullopt;
  }
  Proposal told = Teller{common, request, book, std::move(*found)}.told();
  if (common.around->on_search) common.around->on_search(1.0);
  return told;
}

}  // namespace app
