#include "app/morning_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/files.h"
#include "app/open_book.h"
#include "app/send_messages.h"
#include "app/text_status.h"
#include "app/words.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;

// What became of one crew's message.
struct Told {
  std::string crew, name, id;  // id: of the message; empty where none was made
  std::string what;            // "sent", "no change", "already there: sent", "nobody is told: ..."
};

struct Result {
  std::vector<Told> told;
  SendReport sent;
  bool was_sending = false;
};

void worsen(Outcome& outcome, Exit to) { outcome.exit = std::max(outcome.exit, to); }

class Morning {
 public:
  Morning(const Common& common, const MorningRequest& request, Outcome& outcome) : common_(common), request_(request), outcome_(outcome) {}

  void run() {
    const auto began = common_.around->machine.now();
    auto texts = crew_texts(common_, request_.texts, outcome_);
    if (!texts) return;
    const auto roads = roads_of(common_, request_.texts.orders.office.config);
    if (!roads) {
      outcome_.refuse(roads.error());
      outcome_.out = common_.format == Format::json
                         ? crew_texts_json(common_, *texts, occasion())
                         : crew_texts_text(*texts, occasion(), false) + "NOT SENT, and nothing was queued: " + roads.error().line() + "\n";
      return;
    }
    auto book = open_book(common_, NoBook::refuse, outcome_);
    if (!book) return;
    for (const CrewTexts::One& one : texts->all) hand_over(*book, *texts, one);
    result_.sent = send_due(*book, *roads, common_, time_left(began));
    result_.was_sending = true;
    for (Told& told : result_.told)
      if (const auto message = told.id.empty() ? std::nullopt : book->find("message", told.id))
        told.what += (told.what.empty() ? "" : ": ") + message->text("state") +
                     (message->text("reason").empty() ? "" : ", " + message->text("reason"));
    for (const std::string& line : result_.sent.told) outcome_.err.push_back(line);
    if (result_.sent.out_of_time) outcome_.err.push_back("out of time: some messages wait for the next `text send`");
    if (result_.sent.failed()) worsen(outcome_, Exit::service_failed);
    if (!texts->orders.missing.empty() || !texts->missing.empty()) worsen(outcome_, Exit::bad_input);
    outcome_.out = common_.format == Format::json ? json(*texts) : text(*texts);
  }

  [[nodiscard]] const Result& result() const { return result_; }

 private:
  [[nodiscard]] Occasion occasion() const { return request_.texts.occasion; }

  // Of the time allowed; none was set: no limit. Never below a second, so that what is shortest still leaves.
  [[nodiscard]] std::optional<std::chrono::seconds> time_left(std::chrono::sys_time<std::chrono::milliseconds> began) const {
    if (!request_.within) return std::nullopt;
    const auto spent = std::chrono::duration_cast<std::chrono::seconds>(common_.around->machine.now() - began);
    return std::max(std::chrono::seconds{1}, *request_.within - spent);
  }

  void hand_over(store::Book& book, const CrewTexts& texts, const CrewTexts::One& one) {
    Told told{one.order.crew.id, one.order.order.crew, "", ""};
    const bool asked_for = one.text.message.news || (occasion() == Occasion::morning && texts.tell_no_change);
    if (!asked_for) {
      told.what = occasion() == Occasion::morning ? "no change" : "nothing to tell";
    } else if (const auto road = road_to(book, {ReaderKind::crew, one.order.crew.id}, common_.now); !road) {
      refuse(told, road.error());
    } else {
      const Composed message = composed_for(book, common_, texts.orders, one.order, one.text, one.before, *road);
      if (message.not_after < common_.now && !book.find("message", message_id(message))) {
        refuse(told, {one.order.order.crew, units::to_text(message.not_after), "too late: expected to be told by then"});
        result_.told.push_back(std::move(told));
        return;
      }
      const auto queued = queue_messages(book, {message}, author(common_, name_of(occasion()))).front();
      for (const units::Fault& fault : queued.faults) refuse(told, fault);
      if (queued.faults.empty()) told.id = queued.id;
      if (queued.already_there) told.what = "already there";
    }
    result_.told.push_back(std::move(told));
  }

  void refuse(Told& told, const units::Fault& fault) {
    told.what = "NOT TOLD: " + fault.line();
    outcome_.refuse(fault);
  }

  [[nodiscard]] std::string text(const CrewTexts& texts) const {
    std::string page;
    for (const Told& told : result_.told) page += fmt::format("{:<16} {}\n", told.name, told.what);
    if (result_.told.empty()) page += "No crew has a booking: nothing to tell.\n";
    return page + to_look_at(texts);
  }

  [[nodiscard]] std::string json(const CrewTexts& texts) const {
    Json crews = Json::array();
    for (const Told& told : result_.told)
      crews.push_back({{"crew", told.crew}, {"message", told.id.empty() ? Json(nullptr) : Json(told.id)}, {"what", told.what}});
    std::vector<std::string> missing = texts.orders.missing;
    missing.insert(missing.end(), texts.missing.begin(), texts.missing.end());
    return Json{{"made_at", units::to_text(common_.now)},
                {"occasion", name_of(occasion())},
                {"crews", std::move(crews)},
                {"sent", outbox_json(result_.sent.touched)},
                {"missing", missing},
                {"plan", texts.orders.plan}}
               .dump(2, ' ', false, Json::error_handler_t::replace) +
           "\n";
  }

  const Common& common_;
  const MorningRequest& request_;
  Outcome& outcome_;
  Result result_;
};

// Written whatever happened, so that its absence means that nothing ran.
void beat(const Common& common, const MorningRequest& request, const Result& result, Outcome& outcome) {
  if (!request.heartbeat) return;
  const auto ended = std::chrono::floor<std::chrono::seconds>(common.around->machine.now());
  const Json heart{{"command", "morning"},
                   {"occasion", name_of(request.texts.occasion)},
                   {"ended_at", units::to_text(ended)},
                   {"exit", static_cast<int>(outcome.exit)},
                   {"crews", result.told.size()},
                   {"sent", result.sent.sent},
                   {"lines", outcome.err}};
  if (const auto written = write_file(*request.heartbeat, heart.dump(2, ' ', false, Json::error_handler_t::replace) + "\n"); !written)
    outcome.refuse(written.error());
}

}  // namespace

Outcome morning_command(const Common& common, const MorningRequest& request) {
  Outcome outcome;
  Morning morning{common, request, outcome};
  try {
    morning.run();
  } catch (const store::Failure& failure) {
    outcome.err.push_back(failure.what());
    outcome.exit = Exit::store_failed;
  }
  beat(common, request, morning.result(), outcome);
  return outcome;
}

}  // namespace app
