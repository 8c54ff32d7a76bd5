// Why a job moves, in the words of `days` for the office and in one plain sentence for the client.
#pragma once
#include <string>

#include "app/plan_proposal.h"

namespace app {

[[nodiscard]] std::string why_moved(const Common& common, const PlanBook& book, const Move& move);
[[nodiscard]] std::string call_sentence(const Common& common, const PlanBook& book, const Move& move);
// "Wed Jul 8, GO: takes 4-6 h, likely 5:00, 9 in 10"
[[nodiscard]] std::string day_in_short(const days::DayAnswer& day);
// "Wed Jul 8 8:00 am, Crew B"
[[nodiscard]] std::string slot_text(const PlanBook& book, const Slot& slot);
[[nodiscard]] std::string hour_text(double hour);  // "8:00 am"
[[nodiscard]] std::string clock24(double hour);    // "08:00"

}  // namespace app
