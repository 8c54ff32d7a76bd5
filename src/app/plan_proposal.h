// What a plan asks of people: moves, waits, new bookings, what stays, what free crews could prepare, who is called.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/plan_book.h"
#include "plan/refusal.h"

namespace app {

// A job's day, crew and hour.
struct Slot {
  units::LocalDay day;
  int crew = 0;
  std::optional<double> arrive_h;
};

struct Move {
  enum class What { day, crew, hour, booked, dropped };  // booked: had no day; dropped: loses its day without a new one
  std::string id;                                        // in the book; empty where nothing was kept
  What what = What::day;
  int task = 0;
  std::optional<Slot> from, to;
  std::string why;                         // in the words of days
  std::string frees;                       // "Crew B on Wed Jul 8"; empty
  std::vector<std::string> breaks;         // rules that the new day is close to breaking, promises
  std::optional<double> refusing_costs_h;  // empty: it cannot stay (or was not booked)
  units::UtcTime decide_by;
  std::optional<double> saved_chance;  // that a later forecast saves the day as booked
  bool may_wait = false;               // ...and that is worth waiting for
  std::vector<int> needs;              // tasks that must move with it
  std::string call;                    // one plain sentence for the client; empty: nobody need be called

  [[nodiscard]] bool other_hour() const;  // of the day that was promised
};

struct Preparation {
  int crew = 0, task = 0;
  units::LocalDay day;      // on which the crew is free
  units::LocalDay for_day;  // of the job
  double hours = 0.0;
};

struct Proposal {
  plan::Schedule schedule;
  std::vector<Move> moves;       // what must move first, then what can wait, then new bookings
  std::vector<int> stays;        // tasks, by day
  std::vector<int> stays_badly;  // the same on a day that is NO GO: nothing better is to be had
  std::vector<int> unplaced;     // wanted tasks without a place
  std::vector<Preparation> prepare;
  std::string id;  // in the book; empty where it was not kept

  // No plan saves more than this over the one proposed, crew hours.
  [[nodiscard]] double at_most_h() const { return std::max(0.0, schedule.bound - schedule.objective); }
};

// Searches, and tells all of the above. Empty where the search refuses the problem, with the line in `outcome`.
[[nodiscard]] std::optional<Proposal> proposal(const Common& common, const PlanRequest& request, const PlanBook& book, Outcome& outcome);

}  // namespace app
