// The office's problem out of its book and the answers of `days`: which job could be done when, by whom, and what it rests on.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/days_report.h"
#include "book/lawful.h"
#include "plan/office.h"
#include "store/book.h"

namespace app {

// Something to be taken for granted that is not so in the book.
struct WhatIf {
  enum class What { crew_out, rig_down, stays };
  What what = What::stays;
  std::string id;                           // of the crew, rig or job
  std::optional<units::LocalDay> day = {};  // crew_out, rig_down: only on this day
};

struct PlanRequest {
  WeatherRequest weather = {};
  OfficeRequest office = {};
  std::optional<std::filesystem::path> rain = {};
  std::size_t draws = 256;
  enum class What { propose, rework } what = What::rework;
  std::vector<WhatIf> ifs = {};
  double seconds = 0.0;          // to search, 0: by the size of the book
  std::uint64_t iterations = 0;  // instead of seconds: the same plan on every machine
  bool look_only = false;        // keep nothing
};

// A job as the plan sees it, beside its plan::Task.
struct PlanTask {
  std::optional<book::Record> job;  // none: a tree that is due and not booked
  book::Record tree, site;
  std::optional<book::Record> client;
  std::size_t report = 0;  // index into DaysReport::trees
  double prepare_h = 0.0;  // dig and lay out: what a crew could do before the day; 0 where it is done
  bool settled = false;    // stays where it is booked if any plan can keep it there
  std::vector<std::string> notes;

  [[nodiscard]] std::string id() const { return job ? job->id : "new"; }
  [[nodiscard]] std::string name() const;  // "Oak Court elm (J4)"
};

// A job that the plan does not touch, and why.
struct LeftAlone {
  std::string job, name, why;
  bool needs_you = false;  // somebody has to do something about it
};

struct PlanBook {
  DaysReport days;
  plan::Office office;
  std::vector<PlanTask> tasks;      // as many as office.tasks
  std::vector<book::Record> crews;  // as many as office.teams
  std::vector<book::Record> rules;
  std::vector<LeftAlone> left;
  units::LocalDay first_day;

  [[nodiscard]] units::LocalDay day(int index) const { return first_day + std::chrono::days{index}; }
  [[nodiscard]] const TreeReport& report(int task) const { return days.trees[tasks[static_cast<std::size_t>(task)].report]; }
  // nullptr: that day is not in the tree's forecast.
  [[nodiscard]] const days::DayAnswer* answer(int task, int day) const;
  [[nodiscard]] std::string crew_name(int team) const { return crews[static_cast<std::size_t>(team)].text("name"); }
};

// Empty where nothing can be planned, with the lines in `outcome`.
[[nodiscard]] std::optional<PlanBook> plan_book(const Common& common, const PlanRequest& request, Outcome& outcome);

}  // namespace app
