// How figures are said to people: a crew's words, never the model's. No value here is computed, only spoken.
#pragma once
#include <optional>
#include <string>

#include "app/request.h"
#include "days/day_answer.h"
#include "days/wait.h"

namespace app::words {

[[nodiscard]] std::string verdict(days::Verdict verdict);                     // "GO", "TIGHT", "NO GO"
[[nodiscard]] std::string verdict_key(days::Verdict verdict);                 // "go", "tight", "no_go"
[[nodiscard]] std::string chance(double chance);                              // "9 in 10" (rounded down), "over 9 in 10", "under 1 in 10"
[[nodiscard]] std::string clock(units::LocalTime wall);                       // "7:30 am", "noon"
[[nodiscard]] std::string day(units::LocalDay day);                           // "Tue Jul 7"
[[nodiscard]] std::string dated(units::LocalDay day);                         // "Tue Jul 7 2026"
[[nodiscard]] std::string moment(units::LocalTime wall);                      // "2026-07-07 7:30 am"
[[nodiscard]] std::string duration(double hours);                             // "4:10"
[[nodiscard]] std::string takes(const days::Quantiles& uptake_h);             // "takes 3-5 h, likely 4:10"; "may not finish in a day"
[[nodiscard]] std::string amount(double litres, UnitSystem units);            // "66 gal", "249 L"
[[nodiscard]] std::string pressure(double kpa, UnitSystem units);             // "12 psi"
[[nodiscard]] std::string diameter(double cm, UnitSystem units);              // "55 in"
[[nodiscard]] std::string length(double metres, UnitSystem units);            // "14 ft"
[[nodiscard]] std::string temperature(double celsius, UnitSystem units);      // "91 F"
[[nodiscard]] std::string speed(double metres_per_second, UnitSystem units);  // "25 mph"
[[nodiscard]] std::string depth(double millimetres, UnitSystem units);        // "0.4 in"
[[nodiscard]] std::string bit(double millimetres, UnitSystem units);          // "5/16 in", the nearest of a set of bits

[[nodiscard]] std::string hold_key(days::HoldCode code);  // "thunder"
// "thunder: valves shut, people in the truck", with the figure that set it.
[[nodiscard]] std::string hold(const days::Hold& hold, UnitSystem units);

[[nodiscard]] std::string factor_key(days::Factor factor);  // "soil_water"
// "dry soil costs 2:10", "moist soil saves 0:20": which way the factor went needs the day itself.
[[nodiscard]] std::string reason(const days::Reason& reason, const days::DayAnswer& day, const days::DayKind& good_day);

[[nodiscard]] std::string advice_key(days::AdviceCode code);  // "dig_before"
// "Dig the flare the day before and arrive at 9:15 am: saves 0:45 on site." Hours below those worth saying are left out.
[[nodiscard]] std::string advice(const days::Advice& advice, const days::AdviceLimits& limits, const units::ZoneOffsets& zone,
                                 UnitSystem units);

// "Thu Jul 9 and Sat Jul 11 are close: decide by Wed Jul 8 5:00 pm, a fresher forecast is worth about 1:10 of crew time."
[[nodiscard]] std::string wait(const days::Wait& wait, const units::ZoneOffsets& zone);

// "Flood Watch of the weather service: it may come, look again before you leave".
[[nodiscard]] std::string watch(const weather::Alert& alert);

// One line that every face shows.
[[nodiscard]] std::string cautions();

}  // namespace app::words
