// The sentences of a sheet that text and printed page share, in the order in which they stand there.
#pragma once
#include <string>
#include <vector>

#include "app/sheet.h"

namespace app {

struct TimeLine {
  std::string when;  // a clock time, or hours where no day is known
  std::string what;
};

// Capitals on top: DRAFT, NO GO. Often empty.
[[nodiscard]] std::vector<std::string> sheet_banners(const Sheet& sheet);
// "Mill Street elm (mill-street-elm)".
[[nodiscard]] std::string sheet_name(const Sheet& sheet);
[[nodiscard]] std::string sheet_heading(const Sheet& sheet);
[[nodiscard]] std::string sheet_tree(const Sheet& sheet, UnitSystem units);
// Where a day was asked for without weather; else empty.
[[nodiscard]] std::string sheet_day(const Sheet& sheet);
[[nodiscard]] std::string sheet_dose(const Sheet& sheet, UnitSystem units);
[[nodiscard]] std::string sheet_ports(const Sheet& sheet, UnitSystem units);
[[nodiscard]] std::string sheet_water(const Sheet& sheet, UnitSystem units);
// "TIME on Wed Jul 8: GO, 9 in 10 to finish; ..." and its lines: phases with the clock, or with their hours.
[[nodiscard]] std::string sheet_time(const Sheet& sheet);
[[nodiscard]] std::vector<TimeLine> sheet_time_lines(const Sheet& sheet);
// Tanks that are sure, holds; empty without a day's answer.
[[nodiscard]] std::string sheet_sure_tanks(const Sheet& sheet);
[[nodiscard]] std::vector<std::string> sheet_holds(const Sheet& sheet, UnitSystem units);

}  // namespace app
