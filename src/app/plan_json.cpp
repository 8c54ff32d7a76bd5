#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/json_parts.h"
#include "app/plan_text.h"
#include "app/plan_why.h"
#include "app/words.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

Json slot(const PlanBook& book, const std::optional<Slot>& slot) {
  if (!slot) return nullptr;
  return {{"day", units::to_text(slot->day)},
          {"crew", book.crews[at(slot->crew)].id},
          {"arrive_local", slot->arrive_h ? Json(clock24(*slot->arrive_h)) : Json(nullptr)}};
}

const char* key(Move::What what) {
  switch (what) {
    case Move::What::day:
      return "day";
    case Move::What::crew:
      return "crew";
    case Move::What::hour:
      return "hour";
    case Move::What::booked:
      return "booked";
    case Move::What::dropped:
      break;
  }
  return "dropped";
}

Json task(const PlanBook& book, int index) {
  const PlanTask& one = book.tasks[at(index)];
  return {{"job", one.job ? Json(one.job->id) : Json(nullptr)}, {"tree", one.tree.id}};
}

Json move_json(const PlanBook& book, const Move& move) {
  Json json = task(book, move.task);
  json["move"] = move.id.empty() ? Json(nullptr) : Json(move.id);
  json["what"] = key(move.what);
  json["from"] = slot(book, move.from);
  json["to"] = slot(book, move.to);
  json["why"] = move.why;
  json["frees"] = move.frees;
  json["breaks"] = move.breaks;
  json["refusing_costs_h"] = number_or_null(move.refusing_costs_h);
  json["decide_by"] = units::to_text(move.decide_by);
  json["saved_chance"] = number_or_null(move.saved_chance);
  json["may_wait"] = move.may_wait;
  json["needs"] = Json::array();
  for (const int other : move.needs) json["needs"].push_back(book.tasks[at(other)].id());
  json["call"] = move.call;
  return json;
}

}  // namespace

std::string plan_json(const PlanBook& book, const Proposal& told) {
  Json json{{"made_at", units::to_text(book.days.made_at)}, {"proposal", told.id.empty() ? Json(nullptr) : Json(told.id)}};
  json["days"] = {{"first", units::to_text(book.first_day)}, {"count", book.office.days}};
  json["worth_h"] = told.schedule.objective;
  json["bound_h"] = told.schedule.bound;
  json["saves_at_most_h"] = told.at_most_h();
  json["moves"] = Json::array();
  for (const Move& move : told.moves) json["moves"].push_back(move_json(book, move));
  json["schedule"] = Json::array();
  for (const auto& [when, day] : told.schedule.days) {
    Json visits = Json::array();
    for (const plan::Visit& visit : day.visits) {
      Json one = task(book, visit.task);
      one["arrive_local"] = clock24(visit.arrive_h);
      one["leave_local"] = clock24(visit.leave_h);
      one["chance"] = visit.chance;
      one["beside"] = visit.beside;
      visits.push_back(std::move(one));
    }
    json["schedule"].push_back({{"day", units::to_text(book.day(when.first))},
                                {"crew", book.crews[at(when.second)].id},
                                {"visits", visits},
                                {"overtime_h", day.overtime_h},
                                {"refills", day.refills}});
  }
  json["stays"] = Json::array();
  for (const int index : told.stays) json["stays"].push_back(task(book, index));
  json["stays_no_go"] = Json::array();
  for (const int index : told.stays_badly) json["stays_no_go"].push_back(task(book, index));
  json["unplaced"] = Json::array();
  for (const int index : told.unplaced) json["unplaced"].push_back(task(book, index));
  json["left_alone"] = Json::array();
  for (const LeftAlone& left : book.left)
    json["left_alone"].push_back({{"job", left.job}, {"why", left.why}, {"needs_you", left.needs_you}});
  json["prepare"] = Json::array();
  for (const Preparation& one : told.prepare) {
    Json line = task(book, one.task);
    line["crew"] = book.crews[at(one.crew)].id;
    line["day"] = units::to_text(one.day);
    line["for_day"] = units::to_text(one.for_day);
    line["hours"] = one.hours;
    json["prepare"].push_back(std::move(line));
  }
  return json.dump(2) + "\n";
}

}  // namespace app
