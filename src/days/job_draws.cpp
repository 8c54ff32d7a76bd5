#include "days/job_draws.h"

#include <algorithm>

#include "days/clock.h"
#include "days/crown_water.h"
#include "days/forecast_error.h"

namespace days {
namespace {

constexpr std::size_t rest_h = 48;  // dry soil and much storage: a tree forgets slowly that it began at rest

template <class T>
std::vector<T> slice(const std::vector<T>& hours, std::size_t from, std::size_t until) {
  return {hours.begin() + static_cast<std::ptrdiff_t>(from), hours.begin() + static_cast<std::ptrdiff_t>(until)};
}

// The hours [from, until) of an outlook: errors are drawn for no others.
Outlook part_of(const Outlook& outlook, std::size_t from, std::size_t until) {
  Outlook part;
  part.first_label = outlook.first_label + std::chrono::hours{static_cast<long>(from)};
  for (const auto& course : outlook.courses) part.courses.push_back(slice(course, from, until));
  for (const auto& said : outlook.rain_said) part.rain_said.push_back(slice(said, from, until));
  part.signs = slice(outlook.signs, from, until);
  part.issued = outlook.issued;
  part.shifted = outlook.shifted;
  part.known = std::min(std::max(outlook.known, from), until) - from;
  return part;
}

}  // namespace

uptake::Followed follow_job(const TreeCase& tree, const Outlook& outlook, const WeatherError& error, const JobStart& start,
                            std::span<const double> at_h) {
  const std::size_t open_hour = *outlook.hour_at(start.opened);
  const std::size_t from = std::max(open_hour, rest_h) - rest_h;
  const std::size_t until = std::min(open_hour + 1 + static_cast<std::size_t>(horizon_h), outlook.hours());
  const Outlook hours = part_of(outlook, from, until);
  const std::size_t round = units::Lanes::count * outlook.courses.size();
  const std::size_t draws = (start.draws + round - 1) / round * round;
  uptake::Ensemble ensemble{tree.subject, tree.curve, uptake::sample_draws(tree.subject.source, draws, start.seed), draws};
  const ForecastError errors{hours, error, ensemble.blocks(), start.seed};
  ensemble.set_hours(errors.scenarios(0, hours.hours()), crown_water(tree, outlook.courses.front()).before_mm[from]);
  return ensemble.follow_at(hours_between(hours.begins(0), start.opened), horizon_h, at_h);
}

}  // namespace days
