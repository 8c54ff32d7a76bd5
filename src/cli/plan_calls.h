// `plan` and what it can be asked.
#pragma once
#include "cli/options.h"

namespace cli {

void add_plan_calls(CLI::App& app, Given& given);

}  // namespace cli
