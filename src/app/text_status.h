// `text status`: what was sent to whom, when, by which road, and what was not.
#pragma once
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "app/outbox.h"
#include "app/outcome.h"
#include "app/request.h"

namespace app {

struct TextStatusRequest {
  std::string crew, client;
  std::optional<units::LocalDay> day, since;  // without either, and without a state: of the last seven days and later
  std::optional<book::MessageState> state;
};

// Fault: no such crew or client. No message is no fault.
[[nodiscard]] Outcome text_status_command(const Common& common, const TextStatusRequest& request);

// A line a message; with `words` what it says below. Times are the reader's.
[[nodiscard]] std::string outbox_text(const std::vector<OutboxEntry>& entries, bool words, units::UtcTime now);
[[nodiscard]] nlohmann::ordered_json outbox_json(const std::vector<OutboxEntry>& entries);

}  // namespace app
