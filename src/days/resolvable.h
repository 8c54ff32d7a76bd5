// The part of a figure, known by draw, that a fresher forecast will tell: its regression on how each draw's weather departs from the
// forecast, or the means of an ensemble's members. docs/model/days.md (21)-(23) has sources and equations.
#pragma once
#include <Eigen/Dense>
#include <array>
#include <span>
#include <vector>

#include "days/day_answer.h"

namespace days {

inline constexpr Eigen::Index departure_variables = 4;  // of a Departure

// mean + effects * 1, one row a draw (or a member); a column's effect grows with the share of its variable's error that is resolved as
// share^power.
struct Resolvable {
  double mean = 0.0;
  struct Column {
    std::size_t day;  // index into the answers
    Eigen::Index variable;
    double power;
    Eigen::VectorXd effect;
  };
  std::vector<Column> columns;
};

// Shares of each variable's error, of one day, that are resolved.
using Resolved = std::array<double, departure_variables>;

// Share of the variance of today's error in each variable that a forecast of lead `then_d` resolves against one of `now_d`, days.
[[nodiscard]] Resolved resolved(const WeatherError& error, double now_d, double then_d);

// `by_draw` on the weather of the days at these indices of `answers`, which all have departures, as many as `by_draw`.
[[nodiscard]] Resolvable by_weather(const Eigen::VectorXd& by_draw, const std::vector<DayAnswer>& answers,
                                    std::span<const std::size_t> of_days);

// Of an ensemble of so many members: their means, less the scatter of the draws within one.
[[nodiscard]] Resolvable by_member(const Eigen::VectorXd& by_draw, std::size_t members);

// What each row would come to once so much is resolved; `shares` by day.
[[nodiscard]] Eigen::VectorXd once_resolved(const Resolvable& figure, std::span<const Resolved> shares, Eigen::Index rows);

}  // namespace days
