// The dispatcher's problem as it is: jobs that may begin at certain hours of certain days, crews with working hours, overtime, water on the
// truck and pumps to work trees side by side. plan/office_instance.h makes the booking problem of it that is solved. Hours of a day are
// local clock; all worth and cost is in crew hours.
#pragma once
#include <optional>
#include <vector>

#include "plan/instance.h"

namespace plan {

// One way to begin a job on a day.
struct Begin {
  double arrive_h = 0.0;             // on the clock
  double on_site_h = 0.0;            // kept free for it, above 0
  double spent_h = 0.0;              // crew hours that it is expected to take
  double chance = 0.0;               // to be done and clear, 0..1
  std::vector<double> takes_h = {};  // equally likely hours on site, rising; none: they are on_site_h
  double toll_h = 0.0;               // what else it costs to begin then, however early the crew leaves; 0 or more
};

struct Task {
  Point at;
  int in_sight = -1;     // tasks of one number stand in sight of each other; -1: of none
  double worth_h = 0.0;  // of having it done, crew hours
  int earliest = 0;      // days within which it may be done
  int latest = 0;
  double least_chance = 0.0;               // on a day that was not promised
  std::vector<std::vector<Begin>> begins;  // by day, by rising arrival; none: it may not be done that day
  std::vector<CrewDay> barred;             // where a rule forbids it
  std::vector<int> teams;                  // who may do it
  double before_h = 0.0;                   // work before the valves open: until then nobody of the crew can begin another tree
  double after_h = 0.0;                    // work after they are shut
  double hauled_l = 0.0;                   // water that the truck must bring; 0 where there is water on site
  std::optional<CrewDay> promised;
  std::optional<double> promised_at_h;  // arrival that was promised
  bool locked = false;                  // stays on its promised day and crew
  double keep = 1.0;                    // as in Job
};

struct Team {
  Point depot;
  std::vector<double> from_h;  // by day: not on site before, and off the last site until; equal: off
  std::vector<double> until_h;
  double overtime_h = 0.0;       // at most, behind until_h
  std::optional<double> tank_l;  // water that the truck holds; not known: no limit
  std::vector<int> people;       // by day: at work
  std::vector<int> pumps;  // by day: trees that may be under pressure at once, in sight of each other with a licensed person; 1 or more
};

struct OfficeTerms {
  double overtime_per_h = 0.0;  // what an hour of overtime costs
  double refill_h = 0.0;        // to fill the truck's tank again on the way
  double new_hour = 0.0;        // what it costs to change a promised arrival on its day
};

struct Office {
  int days = 0;
  std::vector<int> rigs_per_day;
  Weights worth;
  Travel travel;
  OfficeTerms terms;
  std::vector<Team> teams;
  std::vector<Task> tasks;
};

}  // namespace plan
