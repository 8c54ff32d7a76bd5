#include "app/plan_why.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/words.h"

namespace app {
namespace {

const char* weekday(units::LocalDay day) {
  static constexpr const char* names[]{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};
  return names[std::chrono::weekday{day}.c_encoding()];
}

// What spoils a day most: a hold that ends the work, or the largest thing that costs hours.
std::string trouble(const Common& common, const days::DayAnswer& day) {
  // It would drink in time, and a hold is in the way.
  const bool stopped = day.chance_to_finish >= common.models.practice.decision.tight_chance && day.verdict == days::Verdict::no_go;
  if (stopped && !day.holds.empty()) return words::hold(day.holds.front(), common.units);
  for (const days::Reason& reason : day.why.by_factor)
    if (reason.hours >= common.models.practice.advice.worth_h) return words::reason(reason, day, common.models.practice.good_day);
  return {};
}

const days::DayAnswer* answer_on(const PlanBook& book, int task, units::LocalDay day) {
  return book.answer(task, static_cast<int>((day - book.first_day).count()));
}

// Whether it could go where it is promised at all: hours that suit and are lawful, a crew that works and may do it.
bool could_stay(const PlanBook& book, int index) {
  const plan::Task& task = book.office.tasks[static_cast<std::size_t>(index)];
  const auto day = static_cast<std::size_t>(task.promised->day);
  const plan::Team& team = book.office.teams[static_cast<std::size_t>(task.promised->crew)];
  return !task.begins[day].empty() && team.from_h[day] < team.until_h[day] &&
         std::ranges::find(task.barred, *task.promised) == task.barred.end();
}

bool has_other_day(const PlanBook& book, const Move& move) {
  const plan::Task& task = book.office.tasks[static_cast<std::size_t>(move.task)];
  for (int day = std::max(0, task.earliest); day <= task.latest; ++day)
    if (day != task.promised->day && !task.begins[static_cast<std::size_t>(day)].empty()) return true;
  return false;
}

bool rains(const Common& common, const days::DayAnswer& day) { return day.conditions.rain_today_mm >= common.models.planning.rain_told_mm; }

}  // namespace

std::string hour_text(double hour) { return words::clock(units::LocalTime{} + std::chrono::minutes{std::lround(hour * 60.0)}); }

std::string clock24(double hour) {
  const long minutes = std::lround(hour * 60.0);
  return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

std::string slot_text(const PlanBook& book, const Slot& slot) {
  return fmt::format("{}{}, {}", words::day(slot.day), slot.arrive_h ? " " + hour_text(*slot.arrive_h) : "", book.crew_name(slot.crew));
}

std::string day_in_short(const days::DayAnswer& day) {
  return fmt::format("{} {}: {}, {}", words::day(day.date), words::verdict(day.verdict), words::takes(day.uptake_h),
                     words::chance(day.chance_all_clear));
}

std::string why_moved(const Common& common, const PlanBook& book, const Move& move) {
  std::string text;
  const days::DayAnswer* was = move.from ? answer_on(book, move.task, move.from->day) : nullptr;
  const days::DayAnswer* is = move.to ? answer_on(book, move.task, move.to->day) : nullptr;
  if (was != nullptr) {
    text = day_in_short(*was);
    if (const std::string why = trouble(common, *was); !why.empty() && was->verdict != days::Verdict::go) text += " (" + why + ")";
    if (move.what == Move::What::day && was->verdict == days::Verdict::go && could_stay(book, move.task))
      text += "; it makes room for another";
    text += ". ";
  }
  if (is != nullptr && is != was) text += day_in_short(*is) + ".";
  if (move.what == Move::What::dropped)
    text +=
        has_other_day(book, move) ? "No crew has room for it on a day that is GO or TIGHT." : "No other day that suits it is GO or TIGHT.";
  while (text.ends_with(' ')) text.pop_back();
  return text;
}

std::string call_sentence(const Common& common, const PlanBook& book, const Move& move) {
  if (!move.from) return {};
  if (move.what == Move::What::crew && !move.other_hour()) return {};
  const days::DayAnswer* was = answer_on(book, move.task, move.from->day);
  const std::string old = weekday(move.from->day);
  std::string because = fmt::format("We cannot come on {} as we had said", old);
  if (was != nullptr && was->verdict != days::Verdict::go)
    because = rains(common, *was) ? fmt::format("Rain on {} would keep your tree from drinking", old)
                                  : fmt::format("On {} your tree would drink too slowly to finish", old);
  if (!move.to) return because + "; we will call with a new day.";
  const std::string at = move.to->arrive_h ? " at " + hour_text(*move.to->arrive_h) : "";
  if (move.other_hour())
    return fmt::format("We come on {}{}, not at {}.", old, at,
                       move.from->arrive_h ? hour_text(*move.from->arrive_h) : "the hour we had said");
  return fmt::format("{}: we would come on {}, {}{} instead.", because, weekday(move.to->day), words::day(move.to->day).substr(4), at);
}

}  // namespace app
