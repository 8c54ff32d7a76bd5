#include "app/text_status.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/edit_plan.h"
#include "app/open_book.h"
#include "app/words.h"
#include "units/text.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;
using book::MessageState;

std::string reader_of(const OutboxEntry& entry) {
  if (entry.reader.kind == ReaderKind::office) return "the office";
  return units::for_message(entry.reader_name.empty() ? entry.reader.id : entry.reader_name, 24);
}

std::string purpose_of(const OutboxEntry& entry) {
  if (!entry.purpose) return "";
  std::string text{book::name_of(*entry.purpose)};
  if (*entry.purpose == book::Purpose::correction) text += fmt::format(" {}", entry.number);
  return text;
}

// The instant by the reader's clock; in UTC where his zone is not known.
std::string moment(const OutboxEntry& entry, const std::optional<units::UtcTime>& instant, units::UtcTime now) {
  if (!instant) return "";
  const auto zone = entry.zone.empty() ? std::nullopt : zone_named(entry.zone, now);
  return zone ? words::moment(zone->to_local(*instant)) : units::to_text(*instant);
}

std::string how_of(const OutboxEntry& entry, units::UtcTime now) {
  switch (entry.state) {
    case MessageState::sent:
      return fmt::format("{} to {}", moment(entry, entry.sent_at, now), units::for_message(entry.to));
    case MessageState::queued:
      return fmt::format("next try {}{}{}", moment(entry, entry.next_try_at, now), entry.reason.empty() ? "" : "; ", entry.reason);
    default:
      return entry.reason;
  }
}

}  // namespace

std::string outbox_text(const std::vector<OutboxEntry>& entries, bool words, units::UtcTime now) {
  std::string text = fmt::format("{:<11} {:<24} {:<13} {:<5} {:<9} {}\n", "day", "to", "purpose", "road", "state", "when, or why not");
  for (const OutboxEntry& entry : entries) {
    text += fmt::format("{:<11} {:<24} {:<13} {:<5} {:<9} {}\n", entry.day ? units::to_text(*entry.day) : "", reader_of(entry),
                        purpose_of(entry), entry.road ? book::name_of(*entry.road) : "", book::name_of(entry.state), how_of(entry, now));
    if (!words && entry.state != MessageState::failed && entry.state != MessageState::uncertain) continue;
    text += fmt::format("  id: {}\n", entry.id);
    if (!words) continue;
    if (!entry.subject.empty()) text += fmt::format("  subject: {}\n", entry.subject);
    std::string_view rest = entry.text;
    while (!rest.empty()) {
      const auto end = std::min(rest.find('\n'), rest.size());
      text += fmt::format("  | {}\n", rest.substr(0, end));
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
  }
  return text;
}

Json outbox_json(const std::vector<OutboxEntry>& entries) {
  Json list = Json::array();
  const auto instant = [](const std::optional<units::UtcTime>& at) { return at ? Json(units::to_text(*at)) : Json(nullptr); };
  const auto known = [](const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); };
  for (const OutboxEntry& entry : entries) {
    Json order = Json::parse(entry.order, nullptr, false);
    if (order.is_discarded()) order = nullptr;
    list.push_back({{"id", entry.id},
                    {"to", entry.reader.kind == ReaderKind::office ? "office"
                           : entry.reader.kind == ReaderKind::crew ? "crew"
                                                                   : "client"},
                    {"reader", known(entry.reader.id)},
                    {"name", known(entry.reader_name)},
                    {"day", entry.day ? Json(units::to_text(*entry.day)) : Json(nullptr)},
                    {"purpose", entry.purpose ? Json(book::name_of(*entry.purpose)) : Json(nullptr)},
                    {"number", entry.purpose == book::Purpose::correction ? Json(entry.number) : Json(nullptr)},
                    {"road", entry.road ? Json(book::name_of(*entry.road)) : Json(nullptr)},
                    {"state", book::name_of(entry.state)},
                    {"sent_to", known(entry.to)},
                    {"sent_at", instant(entry.sent_at)},
                    {"made_at", instant(entry.made_at)},
                    {"next_try_at", instant(entry.next_try_at)},
                    {"not_after", instant(entry.not_after)},
                    {"tries", entry.tries},
                    {"reason", known(entry.reason)},
                    {"code", entry.code == 0 ? Json(nullptr) : Json(entry.code)},
                    {"subject", known(entry.subject)},
                    {"text", entry.text},
                    {"order", std::move(order)}});
  }
  return list;
}

Outcome text_status_command(const Common& common, const TextStatusRequest& request) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  for (const auto& [kind, id] : {std::pair{"crew", request.crew}, {"client", request.client}})
    if (!id.empty() && !book->find(kind, id))
      return refused({std::string{"--"} + kind, units::for_message(id), std::string{"expected the id of a "} + kind + " in the book"});
  OutboxFilter filter{request.crew, request.client, request.day, request.since, request.state};
  if (!request.day && !request.since && !request.state) filter.since = units::ZoneOffsets::utc().day_of(common.now) - std::chrono::days{7};
  const auto entries = outbox(*book, filter);
  if (common.format == Format::json)
    outcome.out = Json{{"messages", outbox_json(entries)}}.dump(2) + "\n";
  else if (entries.empty())
    outcome.out = "no messages\n";
  else
    outcome.out = outbox_text(entries, !request.crew.empty() || !request.client.empty(), common.now);
  return outcome;
}

}  // namespace app
