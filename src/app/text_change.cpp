#include "app/text_change.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/open_book.h"
#include "app/outbox.h"
#include "app/record_faults.h"
#include "app/text_status.h"
#include "units/text.h"

namespace app {
namespace {

using book::Edit;
using book::MessageState;
using book::Record;

units::Fault unfit(const Record& message, const std::string& expected) {
  return {"message " + units::for_message(message.id), message.text("state"), expected};
}

std::optional<units::Fault> not_to_be_resent(const Record& message, bool again, units::UtcTime now) {
  const auto state = book::message_state(message.text("state"));
  const auto not_after = message.instant("not_after");
  if (state == MessageState::sent && !again) return unfit(message, "expected one that was not sent; --again sends it though it was");
  if (state == MessageState::draft || state == MessageState::queued || state == MessageState::sending)
    return unfit(message, "expected one that was sent, failed, is uncertain or was cancelled");
  if (!message.instant("made_at") || !not_after) return unfit(message, "expected one of the outbox: this was written down by hand");
  if (now > *not_after)
    return units::Fault{"message " + units::for_message(message.id), units::to_text(*not_after),
                        "expected one that is still of use: it was not to be sent later than this"};
  return std::nullopt;
}

// Writes `set` where `fault` finds nothing wrong, and shows the message.
template <class Refusal>
Outcome change(const Common& common, const std::string& id, const std::string& why, Refusal fault, const std::string& done) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  const auto message = book->find("message", id);
  if (!message || message->removed) return refused({"message", units::for_message(id), "expected the id of a message in the outbox"});
  book::Fields set;
  if (const auto refusal = fault(*message, set)) return refused(*refusal);
  const store::Applied applied =
      book->apply({{Edit::What::change, "message", id, set, message->version}}, author(common, why), store::Mode::all_or_nothing);
  for (const store::Refusal& refusal : applied.refusals)
    if (refusal.conflict) {
      for (const auto& line : conflict_lines("message", id, *refusal.conflict)) outcome.err.push_back(line);
      outcome.exit = Exit::bad_input;
    }
  tell_refusals(
      applied, [&](std::size_t) { return "message " + units::for_message(id) + ": "; }, outcome);
  if (!applied.kept) return outcome;
  const OutboxEntry entry = entry_of(applied.written.front().after);
  if (common.format == Format::json)
    outcome.out = outbox_json({entry}).front().dump(2) + "\n";
  else
    outcome.out = fmt::format("message {}: {}\n", units::for_message(id), done);
  return outcome;
}

}  // namespace

Outcome text_resend_command(const Common& common, const TextResendRequest& request) {
  return change(
      common, request.id, request.why.empty() ? "text resend" : request.why,
      [&](const Record& message, book::Fields& set) -> std::optional<units::Fault> {
        if (const auto fault = not_to_be_resent(message, request.again, common.now)) return fault;
        set = {{"state", std::string{book::name_of(MessageState::queued)}}, {"tries", "0"}, {"next_try_at", units::to_text(common.now)}};
        if (!request.again) return std::nullopt;
        set["resent"] = book::shortest(message.number("resent").value_or(0.0) + 1.0);
        set["maybe_over"] = "";
        return std::nullopt;
      },
      "queued; sapdraw text send sends it");
}

Outcome text_cancel_command(const Common& common, const TextCancelRequest& request) {
  return change(
      common, request.id, request.why.empty() ? "text cancel" : request.why,
      [&](const Record& message, book::Fields& set) -> std::optional<units::Fault> {
        const auto state = book::message_state(message.text("state"));
        if (state != MessageState::draft && state != MessageState::queued)
          return unfit(message, "expected a draft or one that is queued: only what has not left can be cancelled");
        set = {{"state", std::string{book::name_of(MessageState::cancelled)}},
               {"reason", "cancelled" + (request.why.empty() ? "" : ": " + units::for_message(request.why, 200))}};
        return std::nullopt;
      },
      "cancelled");
}

}  // namespace app
