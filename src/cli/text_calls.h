// `text` and what it can be asked.
#pragma once
#include "cli/options.h"

namespace cli {

void add_text_calls(CLI::App& app, Given& given);

}  // namespace cli
