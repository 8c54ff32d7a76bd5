// Figures as crews say them: short on a phone's line, written out on a page. Nothing is computed here, only spoken.
#pragma once
#include <string>

#include "days/holds.h"
#include "days/quantiles.h"
#include "days/verdict.h"
#include "units/time.h"
#include "units/unit_system.h"

namespace text {

enum class Room { line, page };

[[nodiscard]] std::string verdict(days::Verdict verdict);                     // "GO", "TIGHT", "NO GO"
[[nodiscard]] std::string chance(double chance);                              // "9 in 10" (rounded down), "over 9 in 10", "under 1 in 10"
[[nodiscard]] std::string clock(units::LocalTime wall, Room room);            // "7:30am", "7am", "noon"; "7:30 am", "7:00 am", "noon"
[[nodiscard]] std::string day(units::LocalDay day);                           // "Tue Jul 7"
[[nodiscard]] std::string duration(double hours);                             // "4:10", to five minutes
[[nodiscard]] std::string takes(const days::Quantiles& uptake_h, Room room);  // "takes 3-5h, likely 4:10h"; "may not finish in a day"
[[nodiscard]] std::string amount(double litres, units::UnitSystem units);     // "66 gal", "249 L"
[[nodiscard]] std::string amount_figure(double litres, units::UnitSystem units);  // "66"
[[nodiscard]] std::string amount_unit(units::UnitSystem units);                   // "gal"

// "3-6pm", "11am-2pm", "noon-3:30pm", "3pm-Wed 6am"; a day is named where it is not `date`. On a page "3:00 pm to 6:00 pm".
[[nodiscard]] std::string hours(units::LocalTime from, units::LocalTime until, units::LocalDay date, Room room);

// What a hazard is, with the figure that set it ("gusts to 30 mph"), and what a crew does about it.
[[nodiscard]] std::string hazard(days::HoldCode code, double worst, units::UnitSystem units);
[[nodiscard]] std::string what_to_do(days::HoldCode code, bool short_words);

}  // namespace text
