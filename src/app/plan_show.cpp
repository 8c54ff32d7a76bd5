#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "app/plan_command.h"
#include "app/plan_why.h"
#include "app/words.h"
#include "app/wrap.h"
#include "units/text.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// A letter of its own for each crew: the last of its name where no other crew has that, else the next free one.
std::vector<char> letters(const std::vector<book::Record>& crews) {
  std::vector<char> found;
  const auto taken = [&](char letter) { return std::ranges::find(found, letter) != found.end(); };
  for (const book::Record& crew : crews) {
    const std::string& name = crew.text("name");
    char letter = name.empty() ? 'A' : static_cast<char>(std::toupper(static_cast<unsigned char>(name.back())));
    if (letter < 'A' || letter > 'Z') letter = 'A';
    for (int tries = 0; tries < 26 && taken(letter); ++tries) letter = letter == 'Z' ? 'A' : static_cast<char>(letter + 1);
    found.push_back(letter);
  }
  return found;
}

// "B  5h 9": the crew booked, hours likely, odds in ten.
std::string cell(const days::DayAnswer* answer, char crew) {
  if (answer == nullptr) return "";
  const std::string hours = answer->uptake_h.p50 ? fmt::format("{:.0f}h", *answer->uptake_h.p50) : "--";
  const auto odds = std::clamp(static_cast<int>(std::floor(10.0 * answer->chance_all_clear + 1e-9)), 0, 9);
  return fmt::format("{}{:>4} {}", crew == ' ' ? ' ' : crew, hours, odds);
}

std::string grid(const PlanBook& book) {
  const auto letter = letters(book.crews);
  constexpr int most_days = 9;  // in the width of a page
  std::string text;
  for (int first = 0; first < book.office.days; first += most_days) {
    const int last = std::min(book.office.days, first + most_days);
    text += fmt::format("{:<22}", "tree");
    for (int day = first; day < last; ++day)
      text += fmt::format(
          " {:>7}", words::day(book.day(day)).substr(0, 3) + words::day(book.day(day)).substr(words::day(book.day(day)).find_last_of(' ')));
    text += "\n";
    for (int task = 0; task < static_cast<int>(book.tasks.size()); ++task) {
      text += fmt::format("{:<22}", units::for_message(book.tasks[at(task)].name(), 22));
      const auto& promised = book.office.tasks[at(task)].promised;
      for (int day = first; day < last; ++day)
        text += fmt::format(" {:>7}", cell(book.answer(task, day), promised && promised->day == day ? letter[at(promised->crew)] : ' '));
      text += "\n";
    }
    text += "\n";
  }
  text += "A cell: the crew where it is booked, hours likely, odds in 10 to be done and clear.";
  for (std::size_t crew = 0; crew < book.crews.size(); ++crew) text += fmt::format(" {} {}.", letter[crew], book.crews[crew].text("name"));
  return text + "\n";
}

std::string by_crew(const PlanBook& book) {
  std::string text;
  for (int crew = 0; crew < static_cast<int>(book.crews.size()); ++crew) {
    text += book.crew_name(crew) + "\n";
    for (int day = 0; day < book.office.days; ++day) {
      const auto& team = book.office.teams[at(crew)];
      std::string stops;
      for (int task = 0; task < static_cast<int>(book.tasks.size()); ++task) {
        const auto& of = book.office.tasks[at(task)];
        if (of.promised != plan::CrewDay{day, crew}) continue;
        const auto* answer = book.answer(task, day);
        stops += fmt::format("{}{} {}{}", stops.empty() ? "" : "; ", of.promised_at_h ? hour_text(*of.promised_at_h) : "",
                             book.tasks[at(task)].name(),
                             answer == nullptr ? "" : ", " + words::verdict(answer->verdict) + ", " + words::takes(answer->uptake_h));
      }
      const bool off = team.from_h[at(day)] >= team.until_h[at(day)];
      if (!stops.empty() || !off) text += wrap(fmt::format("{}: {}", words::day(book.day(day)), stops.empty() ? "free" : stops), "  ");
    }
  }
  return text;
}

std::string json(const PlanBook& book) {
  Json list = Json::array();
  for (int task = 0; task < static_cast<int>(book.tasks.size()); ++task) {
    const auto& of = book.office.tasks[at(task)];
    Json one{{"job", book.tasks[at(task)].job ? Json(book.tasks[at(task)].job->id) : Json(nullptr)},
             {"tree", book.tasks[at(task)].tree.id}};
    one["booked"] = of.promised ? Json{{"day", units::to_text(book.day(of.promised->day))}, {"crew", book.crews[at(of.promised->crew)].id}}
                                : Json(nullptr);
    one["days"] = Json::array();
    for (const auto& answer : book.report(task).answers)
      one["days"].push_back({{"date", units::to_text(answer.date)},
                             {"verdict", words::verdict_key(answer.verdict)},
                             {"uptake_h_p50", answer.uptake_h.p50 ? Json(*answer.uptake_h.p50) : Json(nullptr)},
                             {"chance", answer.chance_all_clear}});
    list.push_back(std::move(one));
  }
  return Json{{"jobs", list}}.dump(2) + "\n";
}

}  // namespace

Outcome plan_show_command(const Common& common, const PlanShowRequest& request) {
  Outcome outcome;
  const auto book = plan_book(common, request.plan, outcome);
  if (!book) return outcome;
  outcome.out = common.format == Format::json ? json(*book) : request.by_crew ? by_crew(*book) : grid(*book);
  return outcome;
}

}  // namespace app
