#include "app/plan_calendar.h"

#include <algorithm>

#include "app/edit_plan.h"
#include "app/open_book.h"
#include "app/words.h"
#include "calendar/ics.h"
#include "days/clock.h"
#include "units/text.h"

namespace app {
namespace {

using book::Record;

// From the promised arrival until the crew must be off site; without an hour the day alone.
calendar::Event event_of(store::Book& book, const Common& common, const Record& job) {
  const auto tree = book.find("tree", job.text("tree"));
  const auto site = tree ? book.find("site", tree->text("site")) : std::nullopt;
  const auto crew = book.find("crew", job.text("crew"));
  calendar::Event event;
  // Two offices have a job J1 each: the moment at which it was entered tells them apart, and never changes.
  const auto entered = book.history({.kind = "job", .id = job.id});
  event.uid = job.id + "-" + (entered.empty() ? std::string{"0"} : std::to_string(entered.front().author.when.time_since_epoch().count())) +
              "@sapdraw";
  event.sequence = static_cast<int>(job.version);
  event.day = *job.day("day");
  event.summary = tree && !tree->text("name").empty() ? tree->text("name") : job.text("tree");
  if (crew) event.summary = crew->text("name") + ": " + event.summary;
  if (site) event.location = site->text("address").empty() ? site->text("name") : site->text("address");
  event.description = "Job " + job.id + ". " + words::cautions();
  std::ranges::replace(event.description, '\n', ' ');
  const auto zone = zone_of_record(book, common, job);
  const auto start = job.clock("start");
  if (!zone || !start) return event;
  event.begins = zone->to_utc(units::LocalTime{event.day} + *start);
  event.ends = days::at_wall_clock(*zone, event.day, common.models.practice.day.off_site_h);
  if (const auto leave = tree ? tree->clock("leave_by") : std::nullopt) event.ends = zone->to_utc(units::LocalTime{event.day} + *leave);
  if (const auto until = crew ? crew->clock("works_until") : std::nullopt)
    event.ends = std::min(*event.ends, zone->to_utc(units::LocalTime{event.day} + *until));
  if (*event.ends <= *event.begins) event.ends.reset();
  return event;
}

}  // namespace

Outcome plan_calendar_command(const Common& common, const PlanCalendarRequest& request) {
  Outcome outcome;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return outcome;
  if (!request.crew.empty() && !book->find("crew", request.crew))
    return refused({"--crew", units::for_message(request.crew), "expected the id of a crew in the book"});
  book->at_one_moment([&] {
    std::vector<Record> jobs;
    for (const char* state : {"confirmed", "under_way"})
      for (Record& job : book->list("job", {.equal = {{"state", state}}}))
        if (job.day("day") && (request.crew.empty() || job.text("crew") == request.crew)) jobs.push_back(std::move(job));
    if (jobs.empty())
      outcome.warn("no confirmed job has a day: there is nothing to write");  // the standard knows no calendar without events
    else
      outcome.out = calendar_of(*book, common, jobs);
  });
  return outcome;
}

std::string calendar_of(store::Book& book, const Common& common, const std::vector<Record>& jobs) {
  std::vector<calendar::Event> events;
  for (const Record& job : jobs) events.push_back(event_of(book, common, job));
  return calendar::ics(events, common.now);
}

}  // namespace app
