// `plan calendar`: confirmed jobs as an iCalendar file.
#pragma once
#include <string>
#include <vector>

#include "app/outcome.h"
#include "app/request.h"
#include "store/book.h"

namespace app {

struct PlanCalendarRequest {
  std::string crew;  // an id; empty: all crews
};

[[nodiscard]] Outcome plan_calendar_command(const Common& common, const PlanCalendarRequest& request);

// The same of some jobs that have a day.
[[nodiscard]] std::string calendar_of(store::Book& book, const Common& common, const std::vector<book::Record>& jobs);

}  // namespace app
