// What an owner thinks of plans: what finished work, promises, driving and overtime are worth to him. Filled from models/plan.json.
#pragma once

namespace plan {

// How long a plan is searched for, seconds of the wall clock.
struct SearchTime {
  double least_s = 0.0, most_s = 0.0, per_job_s = 0.0;  // least, and a job more, up to most
  double refusals_s = 0.0;                              // for what refusing each move costs, all together
};

struct Planning {
  SearchTime search;
  double finished_worth = 0.0;  // of a job without a value: so many times its hours on its best day
  double hour_value = 0.0;      // what a crew hour must bring, in the money that jobs are valued in
  double late_per_day = 0.0;    // share of a job's worth lost a day, as in Weights
  double travel_per_h = 0.0;
  double move_day = 0.0;  // crew hours that a broken promise costs, four days ahead or more...
  double soon = 0.0;      // ...times this, two or three days ahead...
  double tomorrow = 0.0;  // ...times this, tomorrow
  double move_crew = 0.0;
  double drop = 0.0;
  double new_hour = 0.0;
  double to_tomorrow = 0.0;                             // what it costs to move somebody to tomorrow
  double settled_d = 0.0;                               // for so long a moved job stays where it is if any plan can keep it there
  double far_d = 0.0;                                   // a job booked further ahead than this stays for now: later forecasts decide
  double refused_h = 0.0;                               // for so long a refused move is not proposed again
  double detour = 0.0, speed_km_h = 0.0, stop_h = 0.0;  // as in Travel
  double overtime_per_h = 0.0;
  double refill_h = 0.0;
  double in_sight_m = 0.0;    // trees of one site this near stand in sight of each other
  double rain_told_mm = 0.0;  // from so much rain in a day on a client is told of rain
  double hope = 0.0;          // least chance of a better forecast for which a job is left to wait
  int lapse_d = 0;            // a ticket or consent that lapses within so many days behind a new day is told
  int prepare_most = 0;       // trees that a free crew prepares in a day
  int prepare_ahead_d = 0;    // trees booked within so many days are prepared by crews that are free
};

}  // namespace plan
