#include "app/plan_book.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>

#include "app/open_book.h"
#include "app/plan_facts.h"
#include "app/plan_locks.h"
#include "app/plan_task.h"
#include "app/plan_teams.h"
#include "app/words.h"
#include "days/job_time.h"
#include "text/clean.h"

namespace app {
namespace {

using book::Record;
using units::LocalDay;

constexpr double km_per_degree = 111.2;  // of latitude; places of one office are near enough to each other for a plane

class Builder {
 public:
  Builder(const Common& common, const PlanRequest& request, const PlanFacts& facts, DaysReport days, Outcome& outcome)
      : common_(common), request_(request), facts_(facts), outcome_(outcome), terms_(common.models.planning) {
    plan_.days = std::move(days);
  }

  std::optional<PlanBook> built() {
    if (facts_.crews.empty()) {
      outcome_.refuse({"crews", "none", "expected a crew in the book: sapdraw crew add --name ..."});
      return std::nullopt;
    }
    if (plan_.days.trees.empty()) {
      if (outcome_.exit == Exit::done) outcome_.refuse({"jobs", "none", "expected an open job or a due tree in the book"});
      return std::nullopt;
    }
    frame();
    plan_.crews = facts_.crews;
    plan_.rules = facts_.rules;
    add_teams(
        common_, facts_, request_.ifs, plan_.first_day, [this](double lat, double lon) { return place(lat, lon); }, plan_.office, outcome_);
    if (nobody_works()) {
      outcome_.refuse(
          {"crews", "no working hours", "expected a crew that works on one of the days ahead: see days off, work days and hours"});
      return std::nullopt;
    }
    for (const Record& job : facts_.jobs) add_job(job);
    if (request_.what == PlanRequest::What::propose)
      for (const DueTree& tree : facts_.due) add_due(tree);
    join_in_sight();
    if (!locks_can_be_kept(plan_, outcome_)) return std::nullopt;
    hold_settled(plan_);
    return std::move(plan_);
  }

 private:
  void frame() {
    plan_.first_day = plan_.days.trees.front().answers.front().date;
    LocalDay last = plan_.first_day;
    double latitude = 0.0, longitude = 0.0;
    for (const TreeReport& tree : plan_.days.trees) {
      plan_.first_day = std::min(plan_.first_day, tree.answers.front().date);
      last = std::max(last, tree.answers.back().date);
      latitude += tree.tree.row.site.latitude.value / static_cast<double>(plan_.days.trees.size());
      longitude += tree.tree.row.site.longitude.value / static_cast<double>(plan_.days.trees.size());
    }
    middle_lat_ = latitude, middle_lon_ = longitude;
    plan_.office.days = static_cast<int>((last - plan_.first_day).count()) + 1;
    plan_.office.worth = {terms_.late_per_day, terms_.travel_per_h, terms_.move_day, terms_.move_day, terms_.move_crew, terms_.drop};
    plan_.office.travel = {terms_.detour, terms_.speed_km_h, terms_.stop_h};
    plan_.office.terms = {terms_.overtime_per_h, terms_.refill_h, terms_.new_hour};
  }

  [[nodiscard]] plan::Point place(double lat, double lon) const {
    return {km_per_degree * (lon - middle_lon_) * std::cos(middle_lat_ * std::numbers::pi / 180.0), km_per_degree * (lat - middle_lat_)};
  }

  [[nodiscard]] bool nobody_works() const {
    return std::ranges::none_of(plan_.office.teams, [](const plan::Team& team) {
      for (std::size_t day = 0; day < team.from_h.size(); ++day)
        if (team.from_h[day] < team.until_h[day]) return true;
      return false;
    });
  }

  // A task with its tree, place and report; empty where the tree is not answered for.
  [[nodiscard]] std::optional<PlanTask> looked_up(const std::string& tree_id) const {
    const auto tree = facts_.trees.find(tree_id);
    const auto report = std::ranges::find(plan_.days.trees, tree_id, [](const TreeReport& one) { return one.tree.row.tree; });
    if (tree == facts_.trees.end() || report == plan_.days.trees.end()) return std::nullopt;
    PlanTask task{{},
                  tree->second,
                  facts_.sites.at(tree->second.text("site")),
                  {},
                  static_cast<std::size_t>(report - plan_.days.trees.begin()),
                  0.0,
                  false,
                  {}};
    if (const auto client = facts_.clients.find(task.site.text("client")); client != facts_.clients.end()) task.client = client->second;
    const auto work = days::job_time(report->tree.tree, common_.models.practice.phases);
    task.prepare_h = (work.dig + work.layout).value;
    return task;
  }

  void leave(const Record& job, const std::string& why, bool needs_you) {
    const auto tree = facts_.trees.find(job.text("tree"));
    plan_.left.push_back({job.id, tree == facts_.trees.end() ? job.text("tree") : tree->second.text("name"), why, needs_you});
  }

  // The job that a tree is planned for where it has two: under way, else with a day, else the older one. nullptr: it is this one.
  [[nodiscard]] const Record* same_tree(const Record& job) const {
    const auto rank = [](const Record& one) {
      return std::tuple{one.text("state") != "under_way", !one.day("day"), one.id.size(), one.id};
    };
    const auto is_over = [&](const Record& one) { return one.day("day") && *one.day("day") < plan_.first_day - std::chrono::days{1}; };
    const auto other = std::ranges::find_if(facts_.jobs, [&](const Record& one) {
      return one.id != job.id && one.text("tree") == job.text("tree") && !is_over(one) && rank(one) < rank(job);
    });
    return other == facts_.jobs.end() ? nullptr : &*other;
  }

  void add_job(const Record& job) {
    auto task = looked_up(job.text("tree"));
    if (!task) return leave(job, "its tree has no answer: see the lines above", true);
    task->job = job;
    if (job.day("prepared_on")) task->prepare_h = 0.0;
    if (job.text("state") == "under_way") return leave(job, "under way: sapdraw reading --job " + job.id + " follows it", false);
    const auto day = job.day("day");
    const LocalDay today = plan_.days.trees[task->report].tree.tree.zone.day_of(common_.now);
    if (day && *day < today)
      return leave(job, fmt::format("booked for {}, which is over: record what became of it, or give it a new day", words::dated(*day)),
                   true);
    if (!day && facts_.refused_lately.contains(job.id)) return leave(job, "its booking was refused today", false);
    if (const Record* other = same_tree(job))
      return leave(job, fmt::format("its tree has job {} too: drop one of the two", other->id), true);
    if (day && *day < plan_.first_day) return leave(job, "today's: change it by hand", false);
    if (day && *day > plan_.day(plan_.office.days - 1))
      return leave(job, "booked for " + words::day(*day) + ", beyond the forecast", false);

    plan::Task to = window_of(*task);
    if (day) {
      const int index = static_cast<int>((*day - plan_.first_day).count());
      const auto crew = std::ranges::find(facts_.crews, job.text("crew"), &Record::id);
      if (crew != facts_.crews.end()) {
        to.promised = plan::CrewDay{index, static_cast<int>(crew - facts_.crews.begin())};
        if (const auto start = job.clock("start")) to.promised_at_h = std::chrono::duration<double, std::ratio<3600>>(*start).count();
        to.keep = keep(*task, index);
        to.locked = job.yes("locked") || is_to_stay(job.id);
        if (is_to_stay(job.id)) task->notes.insert(task->notes.begin(), "stays, as asked");
      } else {
        to.earliest = to.latest = index;  // the day stands; who goes is open
      }
      // What was promised outside of what suits stays possible.
      to.earliest = std::min(to.earliest, index), to.latest = std::max(to.latest, index);
    }
    add(std::move(*task), std::move(to));
  }

  void add_due(const DueTree& due) {
    const LocalDay horizon = plan_.first_day + std::chrono::days{common_.models.office.look_ahead_days};
    if (!due.urgent && !(due.due && due.due->by <= horizon)) return;
    auto task = looked_up(due.tree.tree);
    if (!task || facts_.refused_trees.contains(due.tree.tree)) return;
    plan::Task to = window_of(*task);
    if (due.due && !due.due->overdue)
      to.latest = std::min<int>(to.latest, std::max<int>(0, static_cast<int>((due.due->by - plan_.first_day).count())));
    add(std::move(*task), std::move(to));
  }

  [[nodiscard]] plan::Task window_of(const PlanTask& task) const {
    plan::Task to;
    to.latest = plan_.office.days - 1;
    if (task.job) {
      if (const auto day = task.job->day("not_before")) to.earliest = std::max(0, static_cast<int>((*day - plan_.first_day).count()));
      if (const auto day = task.job->day("not_after")) to.latest = std::min(to.latest, static_cast<int>((*day - plan_.first_day).count()));
    }
    return to;
  }

  [[nodiscard]] bool is_to_stay(const std::string& job) const {
    return std::ranges::any_of(request_.ifs, [&](const WhatIf& one) { return one.what == WhatIf::What::stays && one.id == job; });
  }

  [[nodiscard]] double keep(PlanTask& task, int day) const {
    double keep = task.client ? task.client->number("promise_weight").value_or(1.0) : 1.0;
    if (day == 0) keep *= terms_.tomorrow;
    if (day == 1 || day == 2) keep *= terms_.soon;
    const bool moved = facts_.moved_lately.contains(task.job->id), refused = facts_.refused_lately.contains(task.job->id);
    const bool far = day + 1 > terms_.far_d;
    if (far && request_.what == PlanRequest::What::rework) task.notes.push_back("is far ahead: later forecasts decide");
    if (moved) task.notes.push_back("was moved within the week");
    if (refused) task.notes.push_back("its move was refused");
    task.settled = moved || refused || far || request_.what == PlanRequest::What::propose;
    return keep;
  }

  void add(PlanTask task, plan::Task to) {
    const TreeReport& report = plan_.days.trees[task.report];
    const auto& row = report.tree.row;
    to.at = place(row.site.latitude.value, row.site.longitude.value);
    for (int crew = 0; crew < static_cast<int>(facts_.crews.size()); ++crew) to.teams.push_back(crew);
    const auto work = days::job_time(report.tree.tree, common_.models.practice.phases);
    to.before_h = work.before().value;
    to.after_h = work.after().value;
    if (task.site.text("water") == "none") to.hauled_l = report.tree.tree.subject.dose.value + report.tree.tree.subject.flush.value;
    const auto& best = report.answers[report.ranking.front().day];
    const auto value = task.job ? task.job->number("value") : std::nullopt;
    const double whole_day_h = common_.models.practice.day.off_site_h - common_.models.practice.day.earliest_start_h;
    to.worth_h = value ? *value / terms_.hour_value : terms_.finished_worth * best.on_site_h.p50.value_or(whole_day_h);
    const TaskSource source{common_, facts_, report, task, facts_.crews, plan_.first_day, plan_.office.days};
    add_begins(source, to);
    if (to.promised) {
      const auto& team = plan_.office.teams[static_cast<std::size_t>(to.promised->crew)];
      const auto day = static_cast<std::size_t>(to.promised->day);
      if (team.from_h[day] >= team.until_h[day])
        task.notes.push_back(plan_.crew_name(to.promised->crew) + " does not work on " + words::day(plan_.day(to.promised->day)));
    }
    if (!has_somewhere(to)) {
      const bool has_day = task.job && task.job->day("day");
      plan_.left.push_back(
          {task.id(), task.tree.text("name").empty() ? task.tree.id : task.tree.text("name"), why_nowhere(source, to), has_day});
      return;
    }
    plan_.office.tasks.push_back(std::move(to));
    plan_.tasks.push_back(std::move(task));
  }

  [[nodiscard]] bool has_somewhere(const plan::Task& task) const {
    if (task.locked) return !task.begins[static_cast<std::size_t>(task.promised->day)].empty();
    for (int day = std::max(0, task.earliest); day <= std::min(task.latest, plan_.office.days - 1); ++day)
      for (const int crew : task.teams) {
        const auto& team = plan_.office.teams[static_cast<std::size_t>(crew)];
        const auto d = static_cast<std::size_t>(day);
        if (!task.begins[d].empty() && team.from_h[d] < team.until_h[d] &&
            std::ranges::find(task.barred, plan::CrewDay{day, crew}) == task.barred.end())
          return true;
      }
    return false;
  }

  // Trees of one site near enough to its first one.
  void join_in_sight() {
    for (std::size_t i = 0; i < plan_.tasks.size(); ++i)
      for (std::size_t first = 0; first <= i; ++first) {
        if (plan_.tasks[first].site.id != plan_.tasks[i].site.id) continue;
        const plan::Point a = plan_.office.tasks[first].at, b = plan_.office.tasks[i].at;
        if (1000.0 * std::hypot(a.x_km - b.x_km, a.y_km - b.y_km) <= terms_.in_sight_m)
          plan_.office.tasks[i].in_sight = static_cast<int>(first);
        break;
      }
  }

  const Common& common_;
  const PlanRequest& request_;
  const PlanFacts& facts_;
  Outcome& outcome_;
  const plan::Planning& terms_;
  double middle_lat_ = 0.0, middle_lon_ = 0.0;
  PlanBook plan_;
};

// What-ifs are of things that are there.
bool known(store::Book& book, const std::vector<WhatIf>& ifs, Outcome& outcome) {
  for (const WhatIf& one : ifs) {
    const char* kind = one.what == WhatIf::What::crew_out ? "crew" : one.what == WhatIf::What::rig_down ? "rig" : "job";
    const auto record = book.find(kind, one.id);
    if (record && one.what == WhatIf::What::stays && (record->text("day").empty() || record->text("crew").empty()))
      outcome.refuse({"job " + one.id, "", "expected one that has a day and a crew to stay with"});
    if (!record || record->removed) outcome.refuse({kind, one.id, std::string{"expected the id of a "} + kind + " in the book"});
  }
  return outcome.exit == Exit::done;
}

}  // namespace

std::string PlanTask::name() const {
  constexpr std::size_t longest = 40;
  const std::string called = text::clean(tree.text("name").empty() ? tree.id : tree.text("name"), longest);
  return job ? fmt::format("{} ({})", called, job->id) : fmt::format("{} (new)", called);
}

const days::DayAnswer* PlanBook::answer(int task, int day) const {
  const auto& answers = report(task).answers;
  const auto found = std::ranges::find(answers, this->day(day), &days::DayAnswer::date);
  return found == answers.end() ? nullptr : &*found;
}

std::optional<PlanBook> plan_book(const Common& common, const PlanRequest& request, Outcome& outcome) {
  std::optional<PlanFacts> facts;
  {
    auto book = open_book(common, NoBook::refuse, outcome);
    if (!book || !known(*book, request.ifs, outcome)) return std::nullopt;
    facts = read_plan_facts(*book, common);
  }
  if (facts->crews.empty()) return Builder{common, request, *facts, {}, outcome}.built();
  DaysRequest days;
  days.weather = request.weather;
  days.office = request.office;
  days.rain = request.rain;
  days.draws = request.draws;
  DaysReport report = days_report(common, days, outcome);
  return Builder{common, request, *facts, std::move(report), outcome}.built();
}

}  // namespace app
