#include "app/plan_command.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/plan_keep.h"
#include "app/plan_text.h"
#include "app/plan_why.h"
#include "app/words.h"
#include "app/wrap.h"

namespace app {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// How a job fares in two plans, where it differs.
std::string differences(const PlanBook& book, const plan::Schedule& usual, const PlanBook& other_book, const plan::Schedule& other) {
  std::string text;
  const auto where = [](const PlanBook& in, const plan::Schedule& schedule, int task) {
    const auto& booked = schedule.plan[at(task)];
    if (!booked) return std::string{"no day"};
    const auto* visit = schedule.visit(task);
    return slot_text(in, {in.day(booked->day), booked->crew, visit == nullptr ? std::nullopt : std::optional{visit->arrive_h}});
  };
  for (int task = 0; task < static_cast<int>(book.tasks.size()); ++task) {
    const auto same = std::ranges::find_if(other_book.tasks, [&](const PlanTask& one) {
      return one.tree.id == book.tasks[at(task)].tree.id && one.id() == book.tasks[at(task)].id();
    });
    const int there = same == other_book.tasks.end() ? -1 : static_cast<int>(same - other_book.tasks.begin());
    const std::string was = where(book, usual, task), is = there < 0 ? "has nowhere to go" : where(other_book, other, there);
    if (was != is) text += wrap(fmt::format("{}: {}, not {}", book.tasks[at(task)].name(), is, was), "  ");
  }
  return text;
}

}  // namespace

Outcome plan_command(const Common& common, const PlanRequest& request) {
  Outcome outcome;
  const auto book = plan_book(common, request, outcome);
  if (!book) return outcome;
  auto told = proposal(common, request, *book, outcome);
  if (!told) return outcome;
  if (!request.look_only) keep_proposal(common, *book, *told, outcome);
  outcome.out = common.format == Format::json ? plan_json(*book, *told) : plan_text(common, *book, *told);
  return outcome;
}

Outcome what_if_command(const Common& common, const PlanRequest& request) {
  Outcome outcome;
  PlanRequest usual = request;
  usual.ifs.clear();
  const auto book = plan_book(common, usual, outcome);
  const auto other_book = book ? plan_book(common, request, outcome) : std::nullopt;
  if (!book || !other_book) return outcome;
  const auto told = proposal(common, usual, *book, outcome);
  const auto other = told ? proposal(common, request, *other_book, outcome) : std::nullopt;
  if (!other) return outcome;
  if (common.format == Format::json) {
    outcome.out = plan_json(*other_book, *other);
    return outcome;
  }
  const double costs_h = told->schedule.objective - other->schedule.objective;
  outcome.out = fmt::format("WHAT IF: {} {:.1f} h against the plan without it.\n", costs_h >= 0.0 ? "costs" : "gains", std::abs(costs_h));
  const std::string lines = differences(*book, told->schedule, *other_book, other->schedule);
  outcome.out += lines.empty() ? "Nobody's day or hour would be different.\n\n" : lines + "\n";
  outcome.out += plan_text(common, *other_book, *other);
  return outcome;
}

}  // namespace app
