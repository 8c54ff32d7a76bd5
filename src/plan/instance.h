// The booking problem: which day and which crew each job gets, or none. What it maximises, and the rules that a plan keeps, are in
// docs/model/plan.md. Hours are hours, places are flat kilometres, days count from 0 (tomorrow).
#pragma once
#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace plan {

// The most stops a crew may have on one day: tours are found by trying every order.
inline constexpr int most_stops = 4;

struct Point {
  double x_km = 0.0;
  double y_km = 0.0;
};

// A day of a crew. Both count from 0.
struct CrewDay {
  int day = 0;
  int crew = 0;
  friend bool operator==(const CrewDay&, const CrewDay&) = default;
};

// What a plan is worth, all in the unit of a job's weight; none negative.
struct Weights {
  double late_per_day = 0.0;   // share of a job's weight lost for each day after its earliest
  double travel_per_h = 0.0;   // an hour of driving
  double move_day = 0.0;       // a promised job on another day
  double move_tomorrow = 0.0;  // the same where day 0 was promised
  double move_crew = 0.0;      // a promised job on its day with another crew
  double drop = 0.0;           // a promised job left out, on top of its moved day
};

// Hours between two points: distance x detour / speed + stop_h, charged once a leg.
struct Travel {
  double detour = 1.0;       // above 0
  double speed_km_h = 45.0;  // above 0
  double stop_h = 0.0;       // 0 or more
};

struct Job {
  Point at;
  double weight = 0.0;  // 0 or more
  int earliest = 0;     // days within which it may be done; an empty window: never
  int latest = 0;
  bool rig = false;     // needs a pump rig
  bool locked = false;  // stays on its promised day and crew
  std::optional<CrewDay> promised;
  std::vector<int> crews;      // who may do it
  std::vector<double> hours;   // on site, one for each day, above 0
  std::vector<double> chance;  // to finish, 0..1, one for each day
  std::vector<double> spent;   // what the work itself takes off the worth, one for each day, 0 or more; empty: nothing
  std::vector<CrewDay> barred;  // where it may not be done though day and crew fit, unless it is locked there
  double keep = 1.0;            // how many times the usual cost it takes to break its promise, 0 or more
};

struct Crew {
  Point depot;
  std::vector<double> hours;  // from leaving the depot to being back, one for each day; 0: off
};

// What a crew's day with these jobs costs beyond gains and driving: 0 or more, infinite where it cannot be worked. It never falls when a job
// is added, and is finite for the locked jobs of a day by themselves.
using DayRule = std::function<double(CrewDay, std::span<const int> jobs)>;

struct Instance {
  int days = 0;
  int max_stops = most_stops;     // a crew and day, 1..most_stops
  std::vector<int> rigs_per_day;  // so many crews may have rig jobs, one for each day
  Weights worth;
  Travel travel;
  std::vector<Crew> crews;
  std::vector<Job> jobs;
  DayRule rule = {};  // empty: hours and driving are all there is
};

// One entry a job; none: not booked.
using Plan = std::vector<std::optional<CrewDay>>;

}  // namespace plan
