#include "weather/daily_record.h"

#include <doctest/doctest.h>

#include "support/within.h"
#include "weather/at.h"

using namespace weather;
using units::LocalDay;

namespace {

// Chicago's clock around 8 March 2026, when 02:00 became 03:00.
units::ZoneOffsets chicago() {
  using std::chrono::hours, std::chrono::sys_days;
  const auto change = sys_days{std::chrono::year{2026} / 3 / 8} + hours{8};
  return {"America/Chicago", {{change - hours{24 * 300}, -hours{6}}, {change, -hours{5}}}};
}

LocalDay march(unsigned day) { return LocalDay{std::chrono::year{2026} / 3 / day}; }

double total(const Series& series) {
  double sum = 0.0;
  for (std::size_t hour = 0; hour < series.hours(); ++hour) sum += series.at(Variable::rain, hour).value_or(0.0);
  return sum;
}

}  // namespace

TEST_SUITE("weather") {
  TEST_CASE("a day's rain falls on the hours of that local day, 23 of them when clocks go forward") {
    const DayRecord days[] = {{march(7), 24.0, {}, {}}, {march(8), 23.0, {}, {}}};
    const Series series = hours_of(days, chicago());
    CHECK(series.hours() == 47);
    CHECK(total(series) == within(47.0, 1e-9));
    for (std::size_t hour = 0; hour < 47; ++hour) CHECK(series.at(Variable::rain, hour) == within(1.0, 1e-12));
    CHECK(series.first_label() == std::chrono::sys_days{std::chrono::year{2026} / 3 / 7} + std::chrono::hours{7});
    CHECK(series[Variable::rain].provenance(0) == Provenance::derived);
    CHECK(series[Variable::temperature].empty());
  }

  TEST_CASE("hours of a day of extremes stay within them, warmest at three, with the night's air") {
    const DayRecord days[] = {{march(9), {}, 16.0, 4.0}, {march(11), {}, 10.0, 0.0}};
    const Series series = hours_of(days, chicago());
    CHECK(series.hours() == 72);
    CHECK(series.at(Variable::temperature, 14) == within(16.0, 1e-9));  // the label 15:00
    CHECK(series.at(Variable::temperature, 2) == within(4.0, 1e-9));
    CHECK(series.at(Variable::dew_point, 14) == 4.0);
    CHECK_FALSE(series.at(Variable::temperature, 30).has_value());
    CHECK_FALSE(series.at(Variable::rain, 14).has_value());
  }

  TEST_CASE("a zone half an hour off has days of 24 hours too") {
    const units::ZoneOffsets adelaide{"Australia/Adelaide", {{units::UtcTime{}, std::chrono::minutes{570}}}};
    const DayRecord days[] = {{march(7), 24.0, {}, {}}, {march(8), 0.0, {}, {}}};
    const Series series = hours_of(days, adelaide);
    CHECK(series.hours() == 48);
    CHECK(total(series) == within(24.0, 1e-9));
  }

  TEST_CASE("a gauge has the last word on a day's rain and leaves its timing to the model") {
    const DayRecord model[] = {{march(9), 0.0, {}, {}}, {march(10), 0.0, {}, {}}};
    Series series = hours_of(model, chicago());
    series[Variable::rain].set(5, 2.0, Provenance::analysed);
    series[Variable::rain].set(6, 6.0, Provenance::analysed);
    const DayRecord gauge[] = {{march(9), 12.0, {}, {}}, {march(10), 24.0, {}, {}}, {march(20), 99.0, {}, {}}, {march(10), {}, {}, {}}};
    lay_gauge_over(series, gauge, chicago());
    CHECK(series.at(Variable::rain, 5) == within(3.0, 1e-12));
    CHECK(series.at(Variable::rain, 6) == within(9.0, 1e-12));
    CHECK(series.at(Variable::rain, 7) == 0.0);
    CHECK(series[Variable::rain].provenance(6) == Provenance::observed);
    // The model saw a dry day: the gauge's amount spreads evenly.
    CHECK(series.at(Variable::rain, 30) == within(1.0, 1e-12));
    CHECK(total(series) == within(36.0, 1e-9));
  }
}
