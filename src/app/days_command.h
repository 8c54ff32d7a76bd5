// `days`: the report in words, as JSON, or as a table for a spreadsheet.
#pragma once
#include <string>

#include "app/days_report.h"
#include "app/outcome.h"
#include "app/request.h"

namespace app {

// `strict`: exit 1 when no tree has a GO day.
[[nodiscard]] Outcome days_command(const Common& common, const DaysRequest& request, bool strict);

// The contract's JSON, SI in its texts too, ending in a newline.
[[nodiscard]] std::string days_json(const DaysReport& report, const params::Models& models);
// One row a tree and day, SI, best first.
[[nodiscard]] std::string days_csv(const DaysReport& report);
// What a person would pin to a dashboard: at most 100 columns.
[[nodiscard]] std::string days_text(const DaysReport& report, const Common& common);

}  // namespace app
