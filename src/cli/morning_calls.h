// The command `morning`, and the options that it shares with those of `text`. What they write into must outlive the parsing.
#pragma once
#include <chrono>
#include <optional>

#include "app/crew_texts.h"
#include "cli/options.h"

namespace cli {

// Weather, office, --rain, --draws, --crew and --day.
void add_crew_texts(CLI::App& command, app::CrewTextsRequest& request);
// --correction: the occasion.
CLI::Option* add_correction(CLI::App& command, app::CrewTextsRequest& request);
// A day as `name`.
void add_day(CLI::App& command, const char* name, std::optional<units::LocalDay>& day, const char* help);
// --within: seconds, 1 to a day.
void add_within(CLI::App& command, std::optional<std::chrono::seconds>& within);

void add_morning(CLI::App& app, Given& given);

}  // namespace cli
