#include "app/plan_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/plan_why.h"
#include "app/words.h"
#include "app/wrap.h"

namespace app {
namespace {

class Page {
 public:
  Page(const Common& common, const PlanBook& book, const Proposal& proposal) : common_(common), book_(book), told_(proposal) {}

  std::string text() {
    head();
    group("MOVE", [](const Move& move) { return move.what != Move::What::booked && !move.may_wait; });
    if (names_days() && std::ranges::any_of(told_.moves, [](const Move& move) { return move.what == Move::What::day && !move.may_wait; }))
      text_ += "  Notices to neighbours and signs name the old days: tell them the new ones.\n";
    group("CAN WAIT", [](const Move& move) { return move.may_wait; });
    group("BOOK", [](const Move& move) { return move.what == Move::What::booked; });
    cannot_move();
    stays();
    left();
    prepare();
    calls();
    return text_ + words::cautions() + "\n";
  }

 private:
  static std::size_t at(int index) { return static_cast<std::size_t>(index); }

  void head() {
    const auto day = [&](int index) { return words::day(book_.day(index)); };
    text_ += fmt::format("PLAN {} to {}: {} job{}, {} crew{}", day(0), day(book_.office.days - 1), book_.tasks.size(),
                         book_.tasks.size() == 1 ? "" : "s", book_.crews.size(), book_.crews.size() == 1 ? "" : "s");
    for (const WeatherUsed& weather : book_.days.weather)
      if (weather.issued_at) {
        text_ += fmt::format(", forecast {:.0f} h old",
                             std::chrono::duration<double, std::ratio<3600>>(common_.now - *weather.issued_at).count());
        break;
      }
    const auto count = [&](auto is) { return std::ranges::count_if(told_.moves, is); };
    const auto now = count([](const Move& move) { return move.what != Move::What::booked && !move.may_wait; });
    const auto later = count([](const Move& move) { return move.may_wait; });
    const auto booked = count([](const Move& move) { return move.what == Move::What::booked; });
    text_ +=
        fmt::format("\n{} to move, {} can wait, {} to book, {} stay. ", now, later, booked, told_.stays.size() + told_.stays_badly.size());
    text_ += told_.at_most_h() < 0.05 ? "No plan is better than this one.\n"
                                      : fmt::format("No plan saves more than {:.1f} h over this one.\n", told_.at_most_h());
  }

  template <class Is>
  void group(const char* title, Is is) {
    if (std::ranges::none_of(told_.moves, is)) return;
    text_ += fmt::format("\n{}\n", title);
    for (const Move& move : told_.moves)
      if (is(move)) one(move);
  }

  void one(const Move& move) {
    const PlanTask& task = book_.tasks[at(move.task)];
    const std::string to = move.to ? slot_text(book_, *move.to) : "no day";
    text_ += wrap(fmt::format("{} {}: {}{}", move.id.empty() ? "-" : move.id, task.name(),
                              move.from ? slot_text(book_, *move.from) + " -> " : "", to),
                  "  ");
    text_ += wrap(move.why, "      ");
    std::string more;
    if (move.may_wait && move.saved_chance)
      more += fmt::format("{} that the next forecasts save {}: leave it until {}. ", words::chance(*move.saved_chance),
                          words::day(move.from->day), moment(move));
    else if (move.from)
      more += move.decide_by <= common_.now ? std::string{"Decide now. "} : fmt::format("Decide by {}. ", moment(move));
    if (!move.frees.empty()) more += "Frees " + move.frees + ". ";
    if (move.from) more += move.refusing_costs_h ? fmt::format("Leaving it costs {:.1f} h. ", *move.refusing_costs_h) : "It cannot stay. ";
    if (const auto* visit = told_.schedule.visit(move.task); visit != nullptr && visit->beside)
      more += "It drinks beside another tree in sight. ";
    if (!move.needs.empty()) {
      more += "Only with";
      for (const int other : move.needs) more += " " + id_of(other);
      more += ". ";
    }
    if (!more.empty()) text_ += wrap(more, "      ");
    for (const std::string& line : move.breaks) text_ += wrap(line, "      ! ");
    for (const std::string& line : task.notes) text_ += wrap(line, "      ! ");
  }

  [[nodiscard]] bool names_days() const {
    return std::ranges::any_of(book_.rules,
                               [](const book::Record& rule) { return rule.text("needs") == "notice" || rule.text("needs") == "posting"; });
  }

  [[nodiscard]] std::string id_of(int task) const {
    const auto move = std::ranges::find(told_.moves, task, &Move::task);
    return move == told_.moves.end() || move->id.empty() ? book_.tasks[at(task)].id() : move->id;
  }

  [[nodiscard]] std::string moment(const Move& move) const {
    if (move.decide_by <= common_.now) return "now";
    const auto wall = book_.report(move.task).tree.tree.zone.to_local(move.decide_by);
    return words::day(std::chrono::floor<std::chrono::days>(wall)) + " " + words::clock(wall);
  }

  void cannot_move() {
    bool titled = false;
    const auto line = [&](const std::string& text) {
      if (!titled) text_ += "\nCANNOT MOVE\n";
      titled = true;
      text_ += wrap(text, "  ");
    };
    for (const int task : told_.stays_badly) {
      const plan::Task& of = book_.office.tasks[at(task)];
      const auto* answer = book_.answer(task, of.promised->day);
      const PlanTask& one = book_.tasks[at(task)];
      const std::string why = one.job->yes("locked") ? "it is locked"
                              : !one.notes.empty()   ? "it " + one.notes.front()
                              : nowhere_else(of)     ? "no other day that suits it is GO or TIGHT"
                                                     : "no other day is worth a broken promise";
      line(fmt::format("{}: {}, {}: {}.", book_.tasks[at(task)].name(), day_in_short(*answer), book_.crew_name(of.promised->crew), why));
    }
    for (const LeftAlone& left : book_.left)
      if (left.needs_you) line(fmt::format("{} ({}): {}.", left.name, left.job, left.why));
  }

  [[nodiscard]] static bool nowhere_else(const plan::Task& task) {
    for (int day = 0; day < static_cast<int>(task.begins.size()); ++day)
      if (day != task.promised->day && day >= task.earliest && day <= task.latest && !task.begins[at(day)].empty()) return false;
    return true;
  }

  void stays() {
    if (told_.stays.empty()) return;
    text_ += "\nSTAYS\n";
    for (const int task : told_.stays) {
      const auto& booked = *told_.schedule.plan[at(task)];
      const auto* answer = book_.answer(task, booked.day);
      const auto* visit = told_.schedule.visit(task);
      text_ += fmt::format("  {:<10} {:<9} {:<10} {:<34} {}\n", words::day(book_.day(booked.day)),
                           visit == nullptr ? "" : hour_text(visit->arrive_h), book_.crew_name(booked.crew), book_.tasks[at(task)].name(),
                           answer == nullptr ? "" : words::verdict(answer->verdict) + " " + words::chance(answer->chance_all_clear));
      constexpr double told_from = 0.1;
      if (visit != nullptr && answer != nullptr && visit->chance < answer->chance_all_clear - told_from)
        text_ += wrap(fmt::format("the hours it gets leave {}", words::chance(visit->chance)), "      ! ");
      for (const std::string& note : book_.tasks[at(task)].notes)
        if (answer == nullptr || answer->verdict != days::Verdict::go) text_ += wrap(note, "      ! ");
    }
  }

  void left() {
    std::string lines;
    for (const int task : told_.unplaced)
      lines += wrap(book_.tasks[at(task)].name() + ": no crew has room for it on a day that is worth it.", "  ");
    for (const LeftAlone& left : book_.left)
      if (!left.needs_you) lines += wrap(fmt::format("{} ({}): {}.", left.name, left.job, left.why), "  ");
    if (!lines.empty()) text_ += "\nNOT PLANNED\n" + lines;
  }

  void prepare() {
    if (told_.prepare.empty()) return;
    text_ += "\nFREE CREWS COULD PREPARE (dig, measure, lay out)\n";
    for (const Preparation& one : told_.prepare)
      text_ += wrap(fmt::format("{} {}: {} for {}: saves {} on the day.", words::day(one.day), book_.crew_name(one.crew),
                                book_.tasks[at(one.task)].name(), words::day(one.for_day), words::duration(one.hours)),
                    "  ");
  }

  void calls() {
    bool titled = false;
    for (const Move& move : told_.moves) {
      if (move.call.empty() || move.may_wait) continue;
      if (!titled) text_ += "\nCALL\n";
      titled = true;
      const PlanTask& task = book_.tasks[at(move.task)];
      const std::string who = !task.client                           ? "client not known"
                              : task.client->text("contact").empty() ? task.client->text("name")
                                                                     : task.client->text("contact");
      const std::string number = task.client && !task.client->text("phone").empty() ? task.client->text("phone") : "no number";
      text_ += wrap(fmt::format("{}, {}: {}, {} -> {}", who, number, task.name(), words::day(move.from->day),
                                move.to ? words::day(move.to->day) : "no day"),
                    "  ");
      text_ += wrap("\"" + move.call + "\"", "      ");
    }
    text_ += "\n";
  }

  const Common& common_;
  const PlanBook& book_;
  const Proposal& told_;
  std::string text_;
};

}  // namespace

std::string plan_text(const Common& common, const PlanBook& book, const Proposal& proposal) { return Page{common, book, proposal}.text(); }

}  // namespace app
