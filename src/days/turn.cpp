#include "days/turn.h"

#include <array>

#include "days/clock.h"
#include "days/resolvable.h"

namespace days {

std::optional<Turn> may_turn(const std::vector<DayAnswer>& answers, std::size_t day, double at_least, const Practice& practice,
                             const Decider& decider) {
  const DayAnswer& answer = answers[day];
  Turn turn{at_wall_clock(decider.zone, answer.date - std::chrono::days{1}, practice.decision.decide_h)};
  const units::UtcTime fresh = later_by(turn.decide_by, -practice.decision.fresh_forecast_h);
  if (turn.decide_by <= decider.now || fresh <= decider.issued) return std::nullopt;

  const Eigen::VectorXd clear =
      Eigen::Map<const Eigen::VectorXd>(answer.clear_by_draw.data(), static_cast<Eigen::Index>(answer.clear_by_draw.size()));
  Resolvable figure = answer.departures.empty() ? by_member(clear, decider.members) : by_weather(clear, answers, std::array{day});
  for (auto& column : figure.columns) column.day = 0;
  const units::UtcTime middle = answer.arrive + (answer.off_site_by - answer.arrive) / 2;
  const std::array<Resolved, 1> shares{resolved(practice.weather_error, days_between(decider.issued, middle), days_between(fresh, middle))};
  const auto rows = static_cast<Eigen::Index>(answer.departures.empty() ? decider.members : answer.clear_by_draw.size());
  const Eigen::VectorXd then = once_resolved(figure, shares, rows);
  turn.chance = static_cast<double>((then.array() >= at_least).count()) / static_cast<double>(rows);
  return turn;
}

}  // namespace days
