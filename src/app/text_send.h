// `text send`: what is due in the outbox, sent.
#pragma once
#include <chrono>
#include <filesystem>
#include <optional>

#include "app/outcome.h"
#include "app/request.h"

namespace app {

struct TextSendRequest {
  std::optional<std::filesystem::path> config;
  std::optional<std::chrono::seconds> within;
};

// Exit codes: 0 all that was due is sent; 1 nothing was due; 3 the settings (sending is not on); 4 something was not sent, or may not have
// been.
[[nodiscard]] Outcome text_send_command(const Common& common, const TextSendRequest& request);

}  // namespace app
