// Hazards that bar work by the hour, whatever the tree takes: each with the hours it lasts, never the whole day for one bad hour.
#pragma once
#include <string>
#include <vector>

#include "days/outlook.h"
#include "days/practice.h"
#include "units/time.h"

namespace days {

enum class HoldCode { thunder, gusts, heat, flood, freeze, cold_soil, standing_water, leaves_not_out, wet_crown };

struct Hold {
  HoldCode code;
  units::UtcTime from, until;
  double worst;  // the figure that set it: thunder %, gust m/s, air C, soil C, hours saturated, leaf share, wet hours; 0 where a warning
                 // names none
  std::string warning = {};  // the weather service's, where that set it: "Severe Thunderstorm Warning"
};

// Holds between two instants (a working day), in the order of their beginning. `wet_share` of the crown, by hour of the outlook, says
// when leaves are wet. Hours whose gusts or thunder the source does not give raise no hold. A warning or advisory of the weather service
// holds for as long as its event lasts; one of heat in the hours that are as warm as HoldLimits::heat_warned_c says, for it runs through
// nights and cool mornings. A watch holds nothing.
[[nodiscard]] std::vector<Hold> holds(const Outlook& outlook, const HoldLimits& limits, const std::vector<double>& wet_share,
                                      units::UtcTime from, units::UtcTime until);

// The watches that the weather service keeps between two instants for what would hold the work: they hold nothing, and are told.
[[nodiscard]] std::vector<weather::Alert> watches(const Outlook& outlook, units::UtcTime from, units::UtcTime until);

}  // namespace days
