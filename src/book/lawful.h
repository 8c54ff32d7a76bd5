// Whether a job may lawfully go on its day: the owner's rules, entered as hours and days, against what the book holds. The label, local
// codes and licensed practice stand above; nothing here is legal advice. A moved job is looked at anew: what its date touches may open
// again.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/record.h"
#include "units/time.h"

namespace book {

enum class Lawful {
  met,
  expiring,  // met, but lapses within days of the job
  missing    // not there, too late, or lapsed by then
};

enum class Why {
  nothing,
  not_entered,  // the field is empty
  refused,      // consent was refused
  too_late,     // given later than the rule's lead time before the job
  not_yet,      // holds from a later day only
  lapsed,       // held until an earlier day
  nobody,       // no member of the crew holds it, or no crew is set
};

struct Finding {
  Record rule;
  Lawful state = Lawful::met;
  Why why = Why::nothing;
  std::optional<units::LocalDay> until;  // last day on which it holds, where it has one
  std::optional<units::UtcTime> before;  // too_late: the latest instant at which it had to be given
  std::optional<units::LocalDay> from;   // not_yet: the first day
  std::string who;                       // licence: the member whose licence counts (id)
};

// What a job rests on. `begins`: its day and start, in UTC. Absent records: not known.
struct JobFacts {
  units::LocalDay day;
  units::UtcTime begins;
  units::ZoneOffsets zone;  // of the site
  std::optional<Record> client;
  Record site;
  std::vector<Record> licences;     // of the crew's members who work that day
  std::size_t members_at_work = 0;  // of the crew that day
  bool has_crew = false;
};

// A finding for every rule, in their order; `warn_days` as in book/due.h. Working days are Monday to Friday.
[[nodiscard]] std::vector<Finding> lawful(const std::vector<Record>& rules, const JobFacts& job, int warn_days);

// No rule is missing.
[[nodiscard]] bool may_go(const std::vector<Finding>& findings);

}  // namespace book
