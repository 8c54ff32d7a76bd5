// Booking problems and plans as JSON files: the shapes that sapdraw-plan-bench and its referee read.
#pragma once
#include <string>
#include <string_view>

#include "plan/instance.h"
#include "units/fault.h"

namespace app {

// `name` begins the faults: the file. A fault says where a member is missing or of another kind; whether the problem makes sense,
// plan::unsound says.
[[nodiscard]] units::Result<plan::Instance> read_instance(const std::string& content, std::string_view name);

// {"plan":[[day,crew], ...]}, one entry a job, [-1,-1] for one that is not booked.
[[nodiscard]] std::string plan_file(const plan::Plan& plan);
[[nodiscard]] units::Result<plan::Plan> read_plan(const std::string& content, std::string_view name);

}  // namespace app
