#include "app/reading_command.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/job_of_book.h"
#include "app/office_of_list.h"
#include "app/one_tree.h"
#include "app/open_book.h"
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

  // `booked`: the book's record of the job, where there is one.
  units::Result<JobUnderWay> job(const ReadingRequest& request, const std::optional<book::Record>& booked) const {
    JobUnderWay job;
    job.draws = request.draws;
    if (booked) job.shut_by = booked->instant("shut_by");
    if (!request.opened.empty()) {
      const auto opened = time("--opened", request.opened, tree_.tree.zone.day_of(common_.now));
      if (!opened) return tl::make_unexpected(opened.error());
      job.opened = *opened;
    } else if (const auto known = booked ? booked->instant("opened_at") : std::nullopt) {
      job.opened = *known;
    } else {
      return units::fault("--opened", "", a_time);
    }
    const units::LocalDay day = tree_.tree.zone.day_of(job.opened);
    if (request.filled) {
      job.mixed = typed_amount(*request.filled, common_.units);
      if (!job.mixed) return units::fault("--filled", *request.filled, an_amount);
    }
    if (request.shut_by) {
      const auto shut = time("--shut-by", *request.shut_by, day);
      if (!shut) return tl::make_unexpected(shut.error());
      if (*shut <= job.opened) return units::fault("--shut-by", *request.shut_by, "expected a time after the valves opened");
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

namespace {

// The weather at a tree, with what it points into.
class WeatherAtTree {
 public:
  // Fault: none to be had; with nothing in it where `outcome` tells why already.
  units::Result<SiteWeather> of(const Common& common, const ReadingRequest& request, const TreeInFull& tree, Outcome& outcome) {
    if (!request.weather.files.empty()) {
      files_ = read_weather_files(request.weather, common.now, outcome);
      if (files_.forecasts.empty() && files_.records.empty()) return units::fault("", "", "");
      return weather_for(files_, tree.row.site);
    }
    const auto list = read_tree_list(common, request.trees, tree.row.tree, outcome);
    if (!list) return units::fault("", "", "");
    office_ = office_of_list(common, request.office, *list, {tree.row.site}, outcome);
    if (!office_) return units::fault("", "", "");
    auto weather = office_->at(tree.row.site);
    if (!weather) outcome.exit = Exit::service_failed;
    return weather;
  }

 private:
  WeatherFiles files_;
  std::optional<OfficeSites> office_;
};

}  // namespace

Outcome reading_command(const Common& common, const ReadingRequest& request) {
  Outcome outcome;
  std::optional<store::Book> book;
  std::optional<book::Record> booked;
  if (!request.job.empty()) {
    book = open_book(common, NoBook::refuse, outcome);
    if (book) booked = find_job(*book, request.job, outcome);
    if (!booked) return outcome;
  }
  const auto tree = one_tree(common, request.trees, booked ? booked->text("tree") : request.tree, outcome);
  if (!tree) return outcome;
  auto job = Typed{common, *tree}.job(request, booked);
  if (!job) {
    outcome.refuse(job.error());
    return outcome;
  }
  const std::vector<TankReading> fresh = job->readings;
  if (booked) {
    const auto known = readings_of(*book, booked->id);
    for (const TankReading& one : known)
      if (std::ranges::none_of(fresh, [&](const TankReading& again) { return is_the_same(one, again); })) job->readings.push_back(one);
  }
  if (const auto fits = check_readings(common, *tree, *job); !fits) return refused(fits.error());
  WeatherAtTree held;
  const auto weather = held.of(common, request, *tree, outcome);
  const auto report = weather ? reading_report(common, *tree, *weather, request.weather.wind_height_m, *job)
                              : units::Result<ReadingReport>{tl::make_unexpected(weather.error())};
  const bool no_weather = !weather || (!report && report.error().where == "--opened");
  const bool kept = booked && (report || no_weather);
  if (kept) keep_readings(*book, common, *booked, job->opened, fresh, outcome);
  if (!report) {
    const Exit exit = outcome.exit;
    if (!report.error().expected.empty()) outcome.refuse(report.error());
    if (exit == Exit::service_failed) outcome.exit = exit;
    if (kept) outcome.warn("the readings were kept in the book all the same");
    return outcome;
  }
  for (const std::string& note : report->notes) outcome.warn(tree->row.tree + ": " + note);
  outcome.out = common.format == Format::json ? reading_json(*report) : reading_text(*report, common);
  return outcome;
}

}  // namespace app
