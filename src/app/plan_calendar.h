// `plan calendar`: confirmed jobs as an iCalendar file.
#pragma once
#include <string>

#include "app/outcome.h"
#include "app/request.h"

namespace app {

struct PlanCalendarRequest {
  std::string crew;  // an id; empty: all crews
};

[[nodiscard]] Outcome plan_calendar_command(const Common& common, const PlanCalendarRequest& request);

}  // namespace app
