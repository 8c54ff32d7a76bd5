#include "app/outbox.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <tuple>

#include "app/address_book.h"
#include "app/edit_plan.h"
#include "post/digest.h"
#include "units/text.h"

namespace app {
namespace {

using book::Edit;
using book::MessageState;
using book::Purpose;
using book::Record;
using Json = nlohmann::ordered_json;

std::string name(std::string_view view) { return std::string{view}; }

// Any JSON as the book's notes can hold it: without raw control characters.
std::string kept(const Json& json) { return json.dump(-1, ' ', true); }

units::Result<std::string> order_of(const Composed& message) {
  if (message.order.empty()) return std::string{};
  const Json order = Json::parse(message.order, nullptr, false);
  if (order.is_discarded()) return units::fault("order", "", "expected JSON");
  return kept(order);
}

units::Result<std::string> attachments_of(const Composed& message) {
  if (message.attachments.empty()) return std::string{};
  if (message.road != book::Road::email) return units::fault("attachments", "", "expected none beside a text");
  Json list = Json::array();
  for (const post::Attachment& one : message.attachments) {
    if (!units::is_utf8(one.bytes)) return units::fault("attachments", units::for_message(one.name), "expected UTF-8");
    list.push_back({{"name", one.name}, {"type", one.type}, {"text", one.bytes}});
  }
  return kept(list);
}

// Later ones overtake earlier ones of a crew's day.
std::pair<int, int> rank(Purpose purpose, int number) { return {static_cast<int>(purpose), purpose == Purpose::correction ? number : 0}; }

bool is_order(const OutboxEntry& entry) {
  return entry.purpose &&
         (*entry.purpose == Purpose::evening || *entry.purpose == Purpose::morning || *entry.purpose == Purpose::correction);
}

std::pair<int, int> rank(const OutboxEntry& entry) { return rank(*entry.purpose, entry.number); }

// Messages of orders to a crew about a day, in the order in which they overtake each other.
std::vector<OutboxEntry> orders(store::Book& book, const std::string& crew, units::LocalDay day) {
  std::vector<OutboxEntry> all = outbox(book, {.crew = crew, .day = day});
  std::erase_if(all, [](const OutboxEntry& entry) { return !is_order(entry); });
  std::ranges::stable_sort(all, {}, [](const OutboxEntry& entry) { return rank(entry); });
  return all;
}

std::optional<units::Fault> unfit(const Composed& message) {
  if (units::trimmed(message.text).empty()) return units::Fault{"text", "", "expected a text, not nothing"};
  if (message.not_after < message.made_at)
    return units::Fault{"not_after", units::to_text(message.not_after), "expected " + units::to_text(message.made_at) + " or later"};
  const bool needs_zone = message.reader.kind != ReaderKind::office;
  if ((needs_zone || !message.zone.empty()) && !zone_named(message.zone, message.made_at))
    return units::Fault{"zone", units::for_message(message.zone), "expected an IANA time zone such as America/Chicago"};
  return std::nullopt;
}

}  // namespace

std::string message_id(const Composed& message) {
  const std::string reader = message.reader.kind == ReaderKind::office ? std::string{"office"}
                             : message.reader.kind == ReaderKind::crew ? "crew " + message.reader.id
                                                                       : "client " + message.reader.id;
  std::string what = message.purpose == Purpose::office ? std::string{} : name(book::name_of(message.purpose));
  if (message.purpose == Purpose::correction) what += " " + std::to_string(message.number);
  if (!message.about.empty()) what += (what.empty() ? "" : " ") + message.about;
  const std::string id = reader + " " + units::to_text(message.day) + " " + what;
  // Ids are short; a name of 32 digits is as much the same for the same.
  return id.size() <= book::longest_id && book::canonical_id("message", id) ? id : "message " + post::stable_name(id);
}

units::Result<std::vector<Edit>> queue_edits(store::Book& book, const Composed& message, std::size_t group) {
  if (const auto fault = unfit(message)) return tl::make_unexpected(*fault);
  if (message.reader.kind != ReaderKind::office)
    if (const auto address = address_of(book, message.reader, message.road, message.made_at); !address)
      return tl::make_unexpected(address.error());
  const auto order = order_of(message), attachments = attachments_of(message);
  if (!order) return tl::make_unexpected(order.error());
  if (!attachments) return tl::make_unexpected(attachments.error());
  std::string jobs;
  for (const std::string& job : message.jobs) jobs += (jobs.empty() ? "" : "\n") + job;
  Edit add{Edit::What::add, "message", message_id(message)};
  add.set = {{"state", name(book::name_of(MessageState::queued))},
             {"day", units::to_text(message.day)},
             {"purpose", name(book::name_of(message.purpose))},
             {"road", name(book::name_of(message.road))},
             {"subject", units::for_message(message.subject, 400)},
             {"body", message.text},
             {"attachments", *attachments},
             {"order_json", *order},
             {"jobs", jobs},
             {"zone", message.zone},
             {"made_at", units::to_text(message.made_at)},
             {"next_try_at", units::to_text(message.made_at)},
             {"not_after", units::to_text(message.not_after)},
             {"tries", "0"}};
  if (message.purpose == Purpose::correction) add.set["number"] = std::to_string(message.number);
  if (message.reader.kind == ReaderKind::crew) add.set["crew"] = message.reader.id;
  if (message.reader.kind == ReaderKind::client) add.set["client"] = message.reader.id;
  add.group = group;
  add.unless_there = true;
  std::vector<Edit> edits{std::move(add)};
  if (message.reader.kind != ReaderKind::crew) return edits;
  for (const OutboxEntry& earlier : orders(book, message.reader.id, message.day))
    if (earlier.state == MessageState::queued && rank(earlier) < rank(message.purpose, message.number))
      edits.push_back({Edit::What::change,
                       "message",
                       earlier.id,
                       {{"state", name(book::name_of(MessageState::cancelled))},
                        {"reason", "overtaken by the " + name(book::name_of(message.purpose))}},
                       earlier.version,
                       group});
  return edits;
}

std::vector<Queued> queue_messages(store::Book& book, const std::vector<Composed>& messages, const book::Author& author) {
  std::vector<Queued> all;
  for (const Composed& message : messages) {
    Queued queued{message_id(message)};
    // One that it overtakes may leave meanwhile, once for every message there is.
    for (int look = 0; look < 10; ++look) {
      queued.faults.clear();
      const auto edits = queue_edits(book, message, 1);
      if (!edits) {
        queued.faults = {edits.error()};
        break;
      }
      const store::Applied applied = book.apply(*edits, author, store::Mode::all_or_nothing);
      if (applied.kept) {
        queued.already_there = applied.written.front().unchanged;
        break;
      }
      queued.faults = applied.refusals.front().faults;
      if (!applied.refusals.front().conflict) break;
      queued.faults = {{"message", queued.id, "expected a moment in which no other desk sends what it overtakes"}};
    }
    all.push_back(std::move(queued));
  }
  return all;
}

OutboxEntry entry_of(const Record& record) {
  OutboxEntry entry;
  entry.id = record.id;
  entry.purpose = book::purpose(record.text("purpose"));
  const bool to_office = entry.purpose == Purpose::office;
  entry.reader = to_office                     ? Reader{ReaderKind::office, ""}
                 : record.text("crew").empty() ? Reader{ReaderKind::client, record.text("client")}
                                               : Reader{ReaderKind::crew, record.text("crew")};
  entry.day = record.day("day");
  entry.number = static_cast<int>(record.number("number").value_or(1.0));
  entry.state = book::message_state(record.text("state")).value_or(MessageState::draft);
  entry.road = book::road(record.text("road"));
  entry.to = record.text("send_to");
  entry.subject = record.text("subject");
  entry.text = record.text("body");
  entry.order = record.text("order_json");
  entry.zone = record.text("zone");
  entry.tries = static_cast<int>(record.number("tries").value_or(0.0));
  entry.reason = record.text("reason");
  entry.code = static_cast<int>(record.number("code").value_or(0.0));
  entry.made_at = record.instant("made_at");
  entry.sent_at = record.instant("sent_at");
  entry.next_try_at = record.instant("next_try_at");
  entry.not_after = record.instant("not_after");
  entry.version = record.version;
  return entry;
}

std::vector<OutboxEntry> outbox(store::Book& book, const OutboxFilter& filter) {
  store::Filter asked;
  if (!filter.crew.empty()) asked.equal.emplace_back("crew", filter.crew);
  if (!filter.client.empty()) asked.equal.emplace_back("client", filter.client);
  if (filter.day) asked.equal.emplace_back("day", units::to_text(*filter.day));
  if (filter.state) asked.equal.emplace_back("state", name(book::name_of(*filter.state)));
  if (filter.since) {
    asked.between_field = "day";
    asked.between_from = units::to_text(*filter.since);
  }
  std::vector<OutboxEntry> all;
  book.at_one_moment([&] {
    std::map<std::string, std::string> names;
    for (const Record& record : book.list("message", asked)) {
      OutboxEntry entry = entry_of(record);
      if (entry.reader.kind != ReaderKind::office) {
        const std::string kind = entry.reader.kind == ReaderKind::crew ? "crew" : "client";
        const auto [known, is_new] = names.try_emplace(kind + " " + entry.reader.id);
        if (is_new)
          if (const auto reader = book.find(kind, entry.reader.id)) known->second = reader->text("name");
        entry.reader_name = known->second;
      }
      all.push_back(std::move(entry));
    }
  });
  std::ranges::stable_sort(all, {}, [](const OutboxEntry& entry) {
    return std::tuple{entry.day.value_or(units::LocalDay{}), entry.reader.kind, entry.reader.id,
                      entry.purpose ? rank(entry) : std::pair{0, 0}};
  });
  if (filter.limit > 0 && all.size() > filter.limit) all.erase(all.begin(), all.end() - static_cast<std::ptrdiff_t>(filter.limit));
  return all;
}

OrdersOfDay orders_of_day(store::Book& book, const std::string& crew, units::LocalDay day) {
  OrdersOfDay found;
  for (OutboxEntry& entry : orders(book, crew, day)) {
    if (entry.purpose == Purpose::correction) found.next_correction = std::max(found.next_correction, entry.number + 1);
    if (entry.order.empty()) continue;
    if (entry.state == MessageState::sent || entry.state == MessageState::uncertain || entry.state == MessageState::sending) {
      found.waiting.reset();
      found.said = std::move(entry);
    } else if (entry.state == MessageState::queued) {
      found.waiting = std::move(entry);
    }
  }
  return found;
}

}  // namespace app
