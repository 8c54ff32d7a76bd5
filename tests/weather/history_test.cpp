#include "weather/history.h"

#include <doctest/doctest.h>

#include "weather/at.h"

using namespace weather;

namespace {

// Hours [from, until) of the tests' day with temperature and humidity, the temperature being `value`.
Series hours_of(int from, int until, double value, Provenance provenance) {
  Series series{at(from), static_cast<std::size_t>(until - from)};
  for (std::size_t hour = 0; hour < series.hours(); ++hour) {
    series[Variable::temperature].set(hour, value, provenance);
    series[Variable::relative_humidity].set(hour, 50.0, provenance);
  }
  return series;
}

Forecast of(Series series) {
  Forecast forecast;
  forecast.control = std::move(series);
  return forecast;
}

}  // namespace

TEST_SUITE("weather") {
  TEST_CASE("a file whose last hour with enough weather is past is a record") {
    CHECK(is_record(of(hours_of(0, 12, 20.0, Provenance::observed)), at(12)));
    CHECK(!is_record(of(hours_of(0, 14, 20.0, Provenance::observed)), at(12)));
    Series rain_ahead = hours_of(0, 14, 20.0, Provenance::observed);
    rain_ahead[Variable::temperature] = Column{14};
    CHECK(is_record(of(rain_ahead), at(0)));
    CHECK(is_record(of(Series{}), at(0)));
  }

  TEST_CASE("a measured dew point is not overruled by the model's humidity of the same hour") {
    Series record = hours_of(0, 8, 30.0, Provenance::observed);
    record[Variable::relative_humidity] = Column{8};
    for (std::size_t hour = 0; hour < 8; ++hour) record[Variable::dew_point].set(hour, 10.0, Provenance::observed);
    const Series joined = with_record(hours_of(4, 12, 15.0, Provenance::analysed), record);
    CHECK(joined.at(Variable::dew_point, 5) == 10.0);
    CHECK_FALSE(joined.at(Variable::relative_humidity, 5).has_value());
    CHECK(joined.at(Variable::relative_humidity, 9) == 50.0);
  }

  TEST_CASE("a record lies in front of a forecast and over it, and gives way where it has no value") {
    Series record = hours_of(0, 8, 15.0, Provenance::observed);
    record[Variable::relative_humidity] = Column{8};
    const Series forecast = hours_of(6, 12, 20.0, Provenance::forecast);
    const Series joined = with_record(forecast, record);
    CHECK(joined.first_label() == at(0));
    CHECK(joined.hours() == 12);
    CHECK(joined.at(Variable::temperature, 7) == 15.0);
    CHECK(joined[Variable::temperature].provenance(7) == Provenance::observed);
    CHECK(joined.at(Variable::temperature, 8) == 20.0);
    CHECK(joined.at(Variable::relative_humidity, 7) == 50.0);
    CHECK(!joined.at(Variable::relative_humidity, 5));
  }

  TEST_CASE("the hours between a record and a forecast stay missing, and soil layers stay at their hours") {
    Series forecast = hours_of(6, 8, 20.0, Provenance::forecast);
    forecast.soil.push_back({units::Metres{0.0}, units::Metres{0.1}, Column{2}, Column{2}});
    forecast.soil[0].moisture_m3_m3.set(1, 0.3, Provenance::forecast);
    const Series joined = with_record(forecast, hours_of(0, 3, 15.0, Provenance::observed));
    CHECK(!joined.any(3));
    CHECK(!joined.any(5));
    REQUIRE(joined.soil.size() == 1);
    CHECK(joined.soil[0].moisture_m3_m3.at(7) == 0.3);
    CHECK(!joined.soil[0].moisture_m3_m3.at(1));
    CHECK(with_record(forecast, Series{}).hours() == 2);
  }
}
