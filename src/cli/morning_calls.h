// The command `morning`, and what it shares with `text preview`.
#pragma once
#include "app/crew_texts.h"
#include "cli/options.h"

namespace cli {

// Weather, office, --rain, --draws, --crew, --day and the occasion, --evening or --correction.
void add_crew_texts(CLI::App& command, app::CrewTextsRequest& request);

void add_morning(CLI::App& app, Given& given);

}  // namespace cli
