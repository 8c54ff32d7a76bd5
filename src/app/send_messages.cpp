#include "app/send_messages.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "app/address_book.h"
#include "app/edit_plan.h"
#include "app/open_book.h"
#include "app/settings_file.h"
#include "units/text.h"

namespace app {
namespace {

using book::Edit;
using book::Life;
using book::MessageState;
using book::Next;
using book::Purpose;
using book::Record;
using book::Road;

std::string text_of(std::string_view view) { return std::string{view}; }

std::string who(const OutboxEntry& message) {
  if (message.reader.kind == ReaderKind::office) return "the office";
  return (message.reader.kind == ReaderKind::crew ? "crew " : "client ") + message.reader.id;
}

// "evening text to crew B about 2026-07-07".
std::string what(const OutboxEntry& message) {
  return fmt::format("{} {} to {} about {}", message.purpose ? book::name_of(*message.purpose) : "",
                     message.road == Road::email ? "mail" : "text", who(message), message.day ? units::to_text(*message.day) : "no day");
}

book::Came came(post::Delivery delivery) {
  switch (delivery) {
    case post::Delivery::delivered:
      return book::Came::over;
    case post::Delivery::later:
      return book::Came::later;
    case post::Delivery::refused:
      return book::Came::refused;
    case post::Delivery::uncertain:
      break;
  }
  return book::Came::uncertain;
}

std::vector<post::Attachment> attachments_of(const Record& record) {
  std::vector<post::Attachment> all;
  const auto list = nlohmann::json::parse(record.text("attachments"), nullptr, false);
  if (!list.is_array()) return all;
  for (const auto& one : list)
    if (one.is_object()) all.push_back({one.value("name", ""), one.value("type", ""), one.value("text", "")});
  return all;
}

Life life_of(const Record& record) {
  return {static_cast<int>(record.number("tries").value_or(0.0)), record.instant("made_at").value_or(units::UtcTime{}),
          record.instant("not_after").value_or(units::UtcTime{}), record.yes("maybe_over")};
}

// The fields that a message has when `next` has come.
book::Fields fields_of(const Next& next, const std::string& reason) {
  return {{"state", text_of(book::name_of(next.state))},
          {"tries", std::to_string(next.tries)},
          {"maybe_over", next.maybe_over ? "yes" : ""},
          {"next_try_at", next.state == MessageState::queued ? units::to_text(next.next_try_at) : ""},
          {"claimed_by", ""},
          {"claimed_at", ""},
          {"reason", units::for_message(reason, 400)}};
}

class Sending {
 public:
  Sending(store::Book& book, const Roads& roads, const Common& common)
      : book_(book), roads_(roads), common_(common), terms_(common.models.sending) {
    for (int i = 0; i < 4; ++i)
      token_ += fmt::format("{:04x}", std::min(0xffff, static_cast<int>(common.around->machine.uniform() * 0x10000)));
  }

  SendReport run(std::optional<std::chrono::seconds> within) {
    const auto begun = now();
    take_back();
    give_up_outlived();
    // What was given up leaves notes to the office behind, which are due at once.
    for (int round = 0; round < 3; ++round)
      for (const Record& record : due()) {
        report_.out_of_time = report_.out_of_time || (within && now() - begun >= *within);
        if (!report_.out_of_time) send(record);
      }
    for (const auto& [id, entry] : touched_) report_.touched.push_back(entry);
    for (const auto& [id, line] : troubles_) report_.told.push_back(line);
    report_.told.insert(report_.told.end(), told_.begin(), told_.end());
    if (report_.out_of_time) report_.told.emplace_back("out of time: messages that are due were not tried");
    return std::move(report_);
  }

 private:
  [[nodiscard]] units::UtcTime now() const { return std::chrono::floor<std::chrono::seconds>(common_.around->machine.now()); }

  [[nodiscard]] book::Author writer() const {
    book::Author author = app::author(common_, "text send");
    author.when = now();
    return author;
  }

  [[nodiscard]] post::Sender* road(const OutboxEntry& message) const {
    return message.road == Road::email ? roads_.senders.mails.get() : roads_.senders.texts.get();
  }

  // Whether they were written: not where another desk changed the message meanwhile, nor where the book refuses them, which is told.
  bool write(const std::vector<Edit>& edits, Record& after) {
    const store::Applied applied = book_.apply(edits, writer(), store::Mode::all_or_nothing);
    for (const store::Refusal& refusal : applied.refusals)
      for (const units::Fault& fault : refusal.faults)
        told_.push_back("message " + units::for_message(edits.front().id) + ": " + fault.line());
    if (!applied.kept) return false;
    after = applied.written.front().after;
    return true;
  }

  void take_back() {
    for (const Record& record : book_.list("message", {.equal = {{"state", "sending"}}})) {
      const post::Sender* sender = road(entry_of(record));
      if (sender == nullptr) continue;  // what that road could tell is not known today
      const auto next = book::after_loss(record.instant("claimed_at").value_or(units::UtcTime{}), sender->tells_repeats_apart(),
                                         life_of(record), now(), terms_);
      if (next) settle(record, *next, "the process that sent it was lost", 0);
    }
  }

  void give_up_outlived() {
    for (const Record& record :
         book_.list("message", {.equal = {{"state", "queued"}}, .between_field = "not_after", .between_until = units::to_text(now())}))
      gave_up_outlived(record);
  }

  bool gave_up_outlived(const Record& record) {
    const auto next = book::if_outlived(life_of(record), now());
    if (!next) return false;
    const std::string& last = record.text("reason");
    settle(record, *next, last.empty() ? "too late to be of use" : "too late to be of use; before that: " + last, 0);
    return true;
  }

  std::vector<Record> due() {
    auto all =
        book_.list("message", {.equal = {{"state", "queued"}}, .between_field = "next_try_at", .between_until = units::to_text(now())});
    std::erase_if(all, [&](const Record& record) { return !seen_.insert(record.id).second; });
    constexpr std::array urgent{Purpose::correction, Purpose::morning, Purpose::evening, Purpose::notice, Purpose::office};
    std::ranges::stable_sort(
        all, {}, [&](const Record& record) { return std::ranges::find(urgent, book::purpose(record.text("purpose"))) - urgent.begin(); });
    return all;
  }

  void send(const Record& record) {
    const OutboxEntry message = entry_of(record);
    if (!message.road || stopped_.contains(*message.road)) return;
    post::Sender* sender = road(message);
    if (sender == nullptr) {
      stop(*message.road, fmt::format("post.{}: expected a road for {}s: none is set up", message.road == Road::email ? "smtp" : "texts",
                                      message.road == Road::email ? "mail" : "text"));
      return;
    }
    if (gave_up_outlived(record) || is_held(record, message)) return;
    const auto to = message.reader.kind == ReaderKind::office ? office_address() : address_of(book_, message.reader, *message.road, now());
    if (!to) {
      const Life life = life_of(record);
      settle(record, {life.maybe_over ? MessageState::uncertain : MessageState::failed, life.tries, {}, life.maybe_over, false, true},
             to.error().line(), 0);
      return;
    }
    Record claimed;
    Edit claim{Edit::What::change,
               "message",
               record.id,
               {{"state", "sending"}, {"claimed_by", token_}, {"claimed_at", units::to_text(now())}, {"send_to", *to}},
               record.version};
    if (!write({claim}, claimed)) return;  // another process has it
    const std::string& resent = record.text("resent");
    const post::Outcome outcome = sender->send(
        {resent.empty() ? record.id : record.id + " again " + resent, *to, message.subject, message.text, attachments_of(record)});
    const Next next = book::after_try({came(outcome.delivery), outcome.configuration, sender->tells_repeats_apart(), outcome.wait},
                                      life_of(record), now(), terms_);
    settle(claimed, next, outcome.reason, outcome.code, true);
    if (next.stop_road) stop(*message.road, outcome.reason);
  }

  units::Result<std::string> office_address() const {
    if (roads_.office.empty()) return units::fault("post.office", "", "expected where the office is told");
    return roads_.office;
  }

  // Held back by the reader's quiet hours; for good where they outlast the message.
  bool is_held(const Record& record, const OutboxEntry& message) {
    const auto zone = message.zone.empty() ? std::nullopt : zone_named(message.zone, now());
    if (!zone || !message.purpose) return false;
    const ReaderHours hours = hours_of(book_, message.reader);
    const auto until = book::held_until(hours.quiet, *message.purpose, message.day, hours.at_work, zone->to_local(now()));
    if (!until) return false;
    const Life life = life_of(record);
    const units::UtcTime end = zone->to_utc(*until);
    if (end > life.not_after) {
      settle(record, {life.maybe_over ? MessageState::uncertain : MessageState::cancelled, life.tries, {}, life.maybe_over, false, true},
             "quiet hours last beyond its use", 0);
      return true;
    }
    Record after;
    const std::string clock = units::to_text(*until).substr(11);
    if (write({{Edit::What::change,
                "message",
                record.id,
                {{"next_try_at", units::to_text(end)}, {"reason", "held: quiet hours until " + clock}},
                record.version}},
              after)) {
      ++report_.waiting;
      touched_[after.id] = entry_of(after);
    }
    return true;
  }

  // Writes what has become of a message, with the note to the office where somebody has to look at it. One that this run has `tried` and
  // another desk changed meanwhile (its client was erased) is looked at again; where another process took it for lost, what that says
  // stands, unless the message was surely delivered.
  void settle(Record record, const Next& next, const std::string& reason, int code, bool tried = false) {
    for (int look = 0; look < 10; ++look) {
      std::vector<Edit> edits{{Edit::What::change, "message", record.id, fields_of(next, reason), record.version, 1}};
      if (code != 0) edits.front().set["code"] = std::to_string(code);
      if (next.state == MessageState::sent) edits.front().set["sent_at"] = units::to_text(now());
      if (next.tell_office) add_note(entry_of(record), next.state, reason, edits);
      Record after;
      if (write(edits, after)) {
        tell(entry_of(after), reason);
        return;
      }
      const auto present = book_.find("message", record.id);
      if (!tried || !present || present->removed) return;
      const bool is_mine = present->text("state") == "sending" && present->text("claimed_by") == token_;
      const bool taken_back = present->text("state") == "queued" || present->text("state") == "uncertain";
      if (!is_mine && !(taken_back && next.state == MessageState::sent)) return;
      record = *present;
    }
  }

  void add_note(const OutboxEntry& message, MessageState state, const std::string& reason, std::vector<Edit>& edits) const {
    if (message.purpose == Purpose::office || roads_.office.empty()) return;
    Composed note;
    note.reader = {ReaderKind::office, ""};
    note.day = message.day.value_or(units::ZoneOffsets::utc().day_of(now()));
    note.purpose = Purpose::office;
    note.about = text_of(book::name_of(state)) + " " + message.id;
    note.road = roads_.office.find('@') == std::string::npos ? Road::text : Road::email;
    note.subject = (state == MessageState::uncertain ? "Perhaps not sent: " : "Not sent: ") + what(message);
    note.text = fmt::format("{}.\n{}.\n{}\nsapdraw text resend '{}' sends it once more.\n", note.subject, reason,
                            state == MessageState::uncertain ? "It may have arrived: ask." : "It has not arrived: call.", message.id);
    note.made_at = now();
    note.not_after = now() + std::chrono::minutes{static_cast<long>(terms_.tell_for_h * 60.0)};
    if (auto more = queue_edits(book_, note, 1)) edits.insert(edits.end(), more->begin(), more->end());
  }

  void tell(const OutboxEntry& after, const std::string& reason) {
    touched_[after.id] = after;
    if (after.state == MessageState::sent) {
      ++report_.sent;
      troubles_.erase(after.id);  // of a process before this one
      return;
    }
    const std::string how = after.state == MessageState::queued
                                ? fmt::format("not sent yet, next try {}", after.next_try_at ? units::to_text(*after.next_try_at) : "")
                                : text_of(book::name_of(after.state));
    troubles_[after.id] = fmt::format("{}: {}: {}", what(after), how, reason);
  }

  void stop(Road road, const std::string& why) {
    stopped_.insert(road);
    told_.push_back(fmt::format("{}: nothing more is sent by it now: {}", road == Road::email ? "mail" : "texts", why));
  }

  store::Book& book_;
  const Roads& roads_;
  const Common& common_;
  const book::DeliveryTerms& terms_;
  std::string token_;  // of this run
  std::set<std::string> seen_;
  std::set<Road> stopped_;
  std::map<std::string, OutboxEntry> touched_;
  std::map<std::string, std::string> troubles_;  // by message
  std::vector<std::string> told_;                // of roads
  SendReport report_;
};

}  // namespace

units::Result<Roads> roads_of(const Common& common, const std::optional<std::filesystem::path>& config) {
  const Surroundings& around = *common.around;
  const auto places = settings::find_places({config, {}, {}}, around.environment);
  if (!places) return tl::make_unexpected(places.error());
  const auto settings = settings_of(places->config, config.has_value());
  if (!settings) return tl::make_unexpected(settings.error());
  auto senders = post::senders_of(
      settings->post, around.environment, [&around] { return std::chrono::floor<std::chrono::seconds>(around.machine.now()); },
      *around.out);
  if (!senders) {
    units::Fault fault = senders.error();
    fault.where = places->config.filename().string() + ": " + fault.where;
    return tl::make_unexpected(fault);
  }
  return Roads{std::move(*senders), settings->post.office};
}

SendReport send_due(store::Book& book, const Roads& roads, const Common& common, std::optional<std::chrono::seconds> within) {
  return Sending{book, roads, common}.run(within);
}

}  // namespace app
