#include "app/reading_command.h"

#include <fmt/format.h>

#include "app/office_of_list.h"
#include "app/one_tree.h"
#include "app/typed.h"
#include "app/words.h"

namespace app {
namespace {

constexpr const char* a_time = "expected a local time such as 9:05, 2:30 pm or 2026-07-06 9:05, or an instant";
constexpr const char* an_amount = "expected gallons or litres such as 12gal or 45L";
constexpr const char* a_reading = "expected a local time and gallons or litres such as \"10:00 12gal\" or \"2 pm 45L\"";

// Readings as typed, on the day that they are of.
class Typed {
 public:
  Typed(const Common& common, const TreeInFull& tree) : common_(common), tree_(tree) {}

  units::Result<JobUnderWay> job(const ReadingRequest& request) const {
    const auto opened = time("--opened", request.opened, tree_.tree.zone.day_of(common_.now));
    if (!opened) return tl::make_unexpected(opened.error());
    JobUnderWay job;
    job.opened = *opened;
    job.draws = request.draws;
    const units::LocalDay day = tree_.tree.zone.day_of(*opened);
    if (request.filled) {
      job.mixed = typed_amount(*request.filled, common_.units);
      if (!job.mixed) return units::fault("--filled", *request.filled, an_amount);
    }
    if (request.shut_by) {
      const auto shut = time("--shut-by", *request.shut_by, day);
      if (!shut) return tl::make_unexpected(shut.error());
      if (*shut <= *opened) return units::fault("--shut-by", *request.shut_by, "expected a time after the valves opened");
      job.shut_by = *shut;
    }
    for (const std::string& text : request.taken)
      if (const auto ok = add("--taken", text, day, job); !ok) return tl::make_unexpected(ok.error());
    for (const std::string& text : request.left)
      if (const auto ok = add("--left", text, day, job); !ok) return tl::make_unexpected(ok.error());
    for (const TankReading& reading : job.readings)
      if (job.mixed && reading.taken > *job.mixed)
        return units::fault(
            "--filled", *request.filled,
            fmt::format("expected at least what the tree has taken, {}", words::amount(reading.taken.value, common_.units)));
    return job;
  }

 private:
  units::Result<units::UtcTime> time(const char* option, const std::string& text, units::LocalDay day) const {
    const auto typed = typed_time(text);
    if (!typed) return units::fault(option, text, a_time);
    return typed->in(tree_.tree.zone, day);
  }

  units::Result<void> add(const std::string& option, const std::string& text, units::LocalDay day, JobUnderWay& job) const {
    const auto typed = typed_reading(text, common_.units);
    if (!typed) return units::fault(option, text, a_reading);
    units::Litres taken = typed->amount;
    if (option == "--left") {
      if (!job.mixed) return units::fault(option, text, "expected --filled beside it: what was put into the tank so far");
      if (taken > *job.mixed)
        return units::fault(option, text, "expected at most what was put into the tank, " + words::amount(job.mixed->value, common_.units));
      taken = *job.mixed - taken;
    }
    job.readings.push_back({typed->time.in(tree_.tree.zone, day), taken, option, text});
    return {};
  }

  const Common& common_;
  const TreeInFull& tree_;
};

}  // namespace

Outcome reading_command(const Common& common, const ReadingRequest& request) {
  Outcome outcome;
  const bool from_files = !request.weather.files.empty();
  const WeatherFiles files = read_weather_files(request.weather, common.now, outcome);
  if (from_files && files.forecasts.empty() && files.records.empty()) return outcome;
  const auto tree = one_tree(common, request.trees, request.tree, outcome);
  if (!tree) return outcome;
  const auto job = Typed{common, *tree}.job(request);
  if (!job) {
    outcome.refuse(job.error());
    return outcome;
  }
  std::optional<OfficeSites> office;
  if (!from_files) {
    office = office_of_list(common, request.office, request.trees, {tree->row.site}, outcome);
    if (!office) return outcome;
  }
  const auto weather = office ? office->at(tree->row.site) : weather_for(files, tree->row.site);
  if (!weather) {
    outcome.refuse(weather.error());
    if (office) outcome.exit = Exit::service_failed;
    return outcome;
  }
  const auto report = reading_report(common, *tree, *weather, request.weather.wind_height_m, *job);
  if (!report) {
    outcome.refuse(report.error());
    return outcome;
  }
  for (const std::string& note : report->notes) outcome.warn(tree->row.tree + ": " + note);
  outcome.out = common.format == Format::json ? reading_json(*report) : reading_text(*report, common);
  return outcome;
}

}  // namespace app
