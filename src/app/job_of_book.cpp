#include "app/job_of_book.h"

#include <algorithm>
#include <cmath>

#include "app/open_book.h"
#include "app/record_faults.h"
#include "units/text.h"

namespace app {

std::optional<book::Record> find_job(store::Book& book, const std::string& id, Outcome& outcome) {
  auto job = book.find("job", id);
  if (job && !job->removed) return job;
  outcome.refuse({"--job", units::for_message(id), "expected the id of a job in the book"});
  return std::nullopt;
}

bool is_the_same(const TankReading& a, const TankReading& b) { return a.at == b.at && std::abs(a.taken.value - b.taken.value) < 0.01; }

std::vector<TankReading> readings_of(store::Book& book, const std::string& job) {
  std::vector<TankReading> all;
  for (const book::Record& reading : book.list("reading", {.equal = {{"job", job}}}))
    if (const auto at = reading.instant("at"))
      all.push_back({*at, units::Litres{reading.number("taken_l").value_or(0.0)},
                     "reading " + reading.id + " of the book (sapdraw booking reading change " + reading.id + ")",
                     reading.text("taken_l") + " L"});
  std::ranges::stable_sort(all, {}, &TankReading::at);
  return all;
}

void keep_readings(store::Book& book, const Common& common, const book::Record& job, units::UtcTime opened,
                   const std::vector<TankReading>& fresh, Outcome& outcome) {
  std::vector<book::Edit> edits;
  book::Fields state{{"opened_at", units::to_text(opened)}};
  if (job.text("state") == "wanted" || job.text("state") == "confirmed") state["state"] = "under_way";
  // What a dispatcher did to the job meanwhile stands; the readings are kept all the same.
  const bool open = job.text("state") == "wanted" || job.text("state") == "confirmed" || job.text("state") == "under_way";
  if (open) edits.push_back({book::Edit::What::change, "job", job.id, state, job.version, 1});
  const auto known = readings_of(book, job.id);
  for (const TankReading& reading : fresh)
    // What was typed twice is one reading.
    if (std::ranges::none_of(known, [&](const TankReading& one) { return is_the_same(one, reading); }))
      edits.push_back({book::Edit::What::add,
                       "reading",
                       "",
                       {{"job", job.id}, {"at", units::to_text(reading.at)}, {"taken_l", book::shortest(reading.taken.value)}},
                       {},
                       2});
  const auto applied = book.apply(edits, author(common), store::Mode::take_good);
  for (const store::Refusal& refusal : applied.refusals)
    if (refusal.conflict)
      outcome.warn("job " + job.id + " was changed meanwhile by " + refusal.conflict->by + ": look at it; the readings are kept");
  tell_refusals(
      applied, [&](std::size_t) { return "job " + job.id + ": "; }, outcome);
}

}  // namespace app
