// A crew's day by the clock: in which order and from when its jobs are done, at least cost.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "plan/office.h"

namespace plan {

// Arrivals that differ by no more are the same to people.
inline constexpr double same_hour_h = 1.0 / 60.0;

struct Visit {
  int task = 0;
  double arrive_h = 0.0;
  double leave_h = 0.0;  // torn down
  double chance = 0.0;
  bool beside = false;  // begins while another tree in sight is still drinking
};

struct Timetable {
  std::vector<Visit> visits;  // by arrival
  double overtime_h = 0.0;
  int refills = 0;
  double cost = 0.0;  // hours lost against every task at its best hour of that day, overtime, refills and changed hours
};

// What a task is worth on a day begun like this, before moving and driving.
[[nodiscard]] double worth_of(const Task& task, const Begin& begin);
// The same begin by a crew that must leave at `last_h`: kept time and chance as far as its hours go.
[[nodiscard]] Begin until(const Begin& begin, double last_h);
// The least chance that a task is booked with on a day.
[[nodiscard]] double least_chance(const Task& task, int day);
// The begin worth most; nullptr: there is none.
[[nodiscard]] const Begin* best_begin(const Task& task, int day);

// The cheapest of all orders (at most most_stops tasks) and begins. Empty: these cannot be worked on one day. A single locked task always
// has one: at its first begin, whatever the hours.
[[nodiscard]] std::optional<Timetable> timetable(const Office& office, CrewDay when, std::span<const int> tasks);

// Hours from one task to another.
[[nodiscard]] double drive_h(const Travel& travel, Point from, Point to);

}  // namespace plan
