#include "app/reading_report.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/words.h"
#include "days/clock.h"
#include "days/crew_day.h"
#include "days/crown_water.h"
#include "days/job_draws.h"

namespace app {
namespace {

constexpr std::size_t hours_behind_the_forecast = 48;

std::string clock(const TreeInFull& tree, units::UtcTime t) { return words::clock(tree.tree.zone.to_local(t)); }

units::Fault refused(const Common& common, const TreeInFull& tree, const JobUnderWay& job, const uptake::RefusedReading& refused) {
  const TankReading& reading = job.readings[refused.index];
  const auto expected = [&]() -> std::string {
    switch (refused.why) {
      case uptake::ReadingFault::before_opening:
        return fmt::format("expected a time after the valves opened at {}", clock(tree, job.opened));
      case uptake::ReadingFault::too_late:
        return fmt::format("expected a time within a day of {}, when the valves opened", clock(tree, job.opened));
      case uptake::ReadingFault::below_zero:
        return "expected a volume of 0 or more";
      case uptake::ReadingFault::above_dose:
        return fmt::format("expected at most the dose, {}: is there a leak, or water that is not mix?",
                           words::amount(tree.tree.subject.dose.value, common.units));
      case uptake::ReadingFault::falls:
        break;
    }
    return "expected no less than was taken at an earlier reading";
  };
  return {reading.where, reading.found, expected()};
}

// Whether it shuts the valves when it begins; other holds are of the day, and known before the valves open.
bool shuts_valves(const days::Hold& hold) {
  using days::HoldCode;
  return hold.code == HoldCode::thunder || hold.code == HoldCode::gusts || hold.code == HoldCode::heat || hold.code == HoldCode::flood ||
         hold.code == HoldCode::freeze;
}

std::optional<days::Hold> next_hold(const days::TreeCase& tree, const days::Outlook& outlook, const days::Practice& practice,
                                    units::UtcTime from, units::UtcTime until) {
  if (until <= from) return std::nullopt;
  const auto wet_share = days::crown_water(tree, outlook.courses.front()).wet_share;
  for (const days::Hold& hold : days::holds(outlook, practice.holds, wet_share, from, until))
    if (shuts_valves(hold)) return hold;
  return std::nullopt;
}

std::optional<units::Fault> not_covered(const days::Outlook& outlook, const TreeInFull& tree, units::UtcTime opened) {
  const auto hour = outlook.hour_at(opened);
  if (hour && static_cast<double>(*hour) >= days::least_rest_h && *hour < outlook.known) return std::nullopt;
  const auto text = [&](units::UtcTime t) { return units::to_text(tree.tree.zone.to_local(t)); };
  return units::Fault{"--opened", text(opened),
                      fmt::format("expected a time from {} to {}, which the weather covers",
                                  text(days::later_by(outlook.begins(0), days::least_rest_h)), text(outlook.begins(outlook.known)))};
}

// The readings by time, as uptake takes them.
units::Result<std::vector<uptake::Reading>> ordered(const Common& common, const TreeInFull& tree, const JobUnderWay& job) {
  std::vector<uptake::Reading> readings;
  for (const TankReading& reading : job.readings) readings.push_back({days::hours_between(job.opened, reading.at), reading.taken.value});
  auto sorted = uptake::in_order(readings, days::horizon_h, tree.tree.subject.dose.value + common.models.practice.readings.error.mark_l);
  if (!sorted) return tl::make_unexpected(refused(common, tree, job, sorted.error()));
  return std::move(*sorted);
}

}  // namespace

std::optional<units::UtcTime> ReadingReport::at() const { return readings.empty() ? std::nullopt : std::optional{readings.back().at}; }

units::Litres ReadingReport::taken() const { return readings.empty() ? units::Litres{0.0} : readings.back().taken; }

units::Result<void> check_readings(const Common& common, const TreeInFull& tree, const JobUnderWay& job) {
  if (const auto sorted = ordered(common, tree, job); !sorted) return tl::make_unexpected(sorted.error());
  return {};
}

units::Result<ReadingReport> reading_report(const Common& common, const TreeInFull& tree, const SiteWeather& weather,
                                            std::optional<double> wind_height_m, const JobUnderWay& job) {
  const days::Practice& practice = common.models.practice;
  const auto sorted = ordered(common, tree, job);
  if (!sorted) return tl::make_unexpected(sorted.error());

  const auto hours = site_hours(weather, {tree.row.site, true}, tree.tree.zone, tree.ground, tree.leaves, common.now, wind_height_m,
                                hours_behind_the_forecast);
  if (!hours) return tl::make_unexpected(hours.error());
  const days::Outlook& outlook = hours->outlook;
  if (auto fault = not_covered(outlook, tree, job.opened)) return tl::make_unexpected(std::move(*fault));

  ReadingReport report{
      tree,         job.opened, job.readings, {}, {}, {}, weather.forecast->source, weather.forecast->credit, weather.forecast->issued_at,
      weather.notes};
  std::stable_sort(report.readings.begin(), report.readings.end(),
                   [](const TankReading& a, const TankReading& b) { return a.at != b.at ? a.at < b.at : a.taken.value < b.taken.value; });
  for (const auto& note : outlook.notes) report.notes.push_back(note);
  const units::UtcTime latest = report.at().value_or(job.opened);
  if (latest > common.now) report.notes.push_back(fmt::format("{} lies ahead of now, {}", clock(tree, latest), clock(tree, common.now)));

  report.shut_by = job.shut_by.value_or(days::valves_shut_by(tree.tree, practice, tree.tree.zone.day_of(job.opened)));
  report.hold = next_hold(tree.tree, outlook, practice, latest, report.shut_by);
  const units::UtcTime stop = report.hold ? std::min(report.hold->from, report.shut_by) : report.shut_by;
  days::JobSoFar so_far{*sorted, days::hours_between(job.opened, report.shut_by), days::hours_between(job.opened, stop), std::nullopt};
  if (job.mixed) so_far.mixed_l = job.mixed->value;
  const auto drawn = days::follow_job(tree.tree, outlook, practice.weather_error, {job.opened, job.draws, common.seed}, so_far.times_h());
  report.now = days::tree_now(tree.tree, practice, so_far, drawn);
  return report;
}

}  // namespace app
