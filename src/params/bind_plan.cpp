#include <cmath>

#include "params/bind.h"

namespace params {

void bind_plan(Section& file, plan::Planning& to) {
  to.finished_worth = file.number("finished_worth", "1");
  to.hour_value = file.number("hour_value", "1/h");
  to.late_per_day = file.number("late_per_day", "1/d");
  file.section("travel", [&](Section& s) {
    to.travel_per_h = s.number("per_h", "1");
    to.detour = s.number("detour", "1");
    to.speed_km_h = s.number("speed", "km/h");
    to.stop_h = s.number("stop", "h");
  });
  file.section("promises", [&](Section& s) {
    to.move_day = s.number("move_day", "h");
    to.soon = s.number("soon", "1");
    to.tomorrow = s.number("tomorrow", "1");
    to.move_crew = s.number("move_crew", "h");
    to.drop = s.number("drop", "h");
    to.to_tomorrow = s.number("to_tomorrow", "h");
    to.new_hour = s.number("new_hour", "h");
    to.settled_d = s.number("settled_for", "d");
    to.far_d = s.number("far", "d");
    to.refused_h = s.number("refused_for", "h");
  });
  file.section("day", [&](Section& s) {
    to.overtime_per_h = s.number("overtime_per_h", "1");
    to.refill_h = s.number("refill", "h");
    to.in_sight_m = s.number("in_sight", "m");
    to.hope = s.number("hope", "1");
    to.lapse_d = static_cast<int>(std::lround(s.number("lapse", "d")));
    to.rain_told_mm = s.number("rain_told", "mm");
    to.prepare_most = static_cast<int>(std::lround(s.number("prepare_most", "1")));
    to.prepare_ahead_d = static_cast<int>(std::lround(s.number("prepare_ahead", "d")));
  });
  file.section("search", [&](Section& s) {
    to.search.least_s = s.number("least", "s");
    to.search.most_s = s.number("most", "s");
    to.search.per_job_s = s.number("per_job", "s");
    to.search.refusals_s = s.number("refusals", "s");
  });
}

}  // namespace params
