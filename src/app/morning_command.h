// `morning`: weather, hours, what the plan must hear of, the crews' messages composed and sent, in one command that is safe to run twice.
// It never changes a booking.
#pragma once
#include <chrono>
#include <filesystem>
#include <optional>

#include "app/crew_texts.h"
#include "app/outcome.h"

namespace app {

struct MorningRequest {
  CrewTextsRequest texts = {.orders = {}, .occasion = Occasion::morning};
  std::optional<std::filesystem::path> heartbeat = {};  // told there how it ended, for a monitor to watch: JSON, written whole
  std::optional<std::chrono::seconds> within = {};      // takes up no further message after so long
};

// Whatever goes wrong for one crew, the others are told. Exit codes: 0 everybody was told who had to be (or there was nothing to tell);
// 3 something in the book or the settings stands in the way of a message; 4 weather failed, or a message was not sent in time, or may not
// have been; 5 the book. While sending is not on, nothing is queued: it shows what would be sent, and exit is 3.
[[nodiscard]] Outcome morning_command(const Common& common, const MorningRequest& request);

}  // namespace app
