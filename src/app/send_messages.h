// Sends what is due in the outbox. Every message is taken by one process before it is sent, and what became of it is written behind it, so
// that any number of processes may send at once and any of them may be killed at any moment.
#pragma once
#include <chrono>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/office.h"
#include "app/outbox.h"
#include "app/outcome.h"
#include "post/senders.h"

namespace app {

struct Roads {
  post::Senders senders;
  std::string office;  // where the office is told; empty: nowhere
};

// The roads of the settings. Faults: theirs; sending is not on.
[[nodiscard]] units::Result<Roads> roads_of(const Common& common, const std::optional<std::filesystem::path>& config);

struct SendReport {
  std::vector<OutboxEntry> touched;   // messages that this run sent, tried, held back or gave up, as they are now
  std::size_t sent = 0, waiting = 0;  // of them: delivered; held by quiet hours
  std::vector<std::string> told;      // a line each for what went wrong: not sent, uncertain, a road stopped
  bool out_of_time = false;           // some that are due were not tried
  [[nodiscard]] bool failed() const { return !told.empty() || out_of_time; }
};

// In this order: messages whose process is gone (book::after_loss), those that have outlived their use, then what is due, corrections
// first. A message goes to the number or mail that its reader has in the book now, if texts are agreed to; it is held while his quiet hours
// last (book::held_until), and cancelled where these last beyond its use. A message that is given up is told to the office, in the same
// transaction and once: a message of its own, which leaves in the same run. A road that refuses all messages alike is left for this run.
// Stops taking further messages `within` so long after it began.
[[nodiscard]] SendReport send_due(store::Book& book, const Roads& roads, const Common& common,
                                  std::optional<std::chrono::seconds> within = {});

}  // namespace app
