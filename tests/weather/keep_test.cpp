#include "weather/keep.h"

#include <doctest/doctest.h>

#include "weather/at.h"

using namespace weather;

namespace {

Series of(int from, int until, double temp_c, Provenance provenance) {
  Series series{at(from), static_cast<std::size_t>(until - from)};
  for (std::size_t hour = 0; hour < series.hours(); ++hour) {
    series[Variable::temperature].set(hour, temp_c, provenance);
    series[Variable::dew_point].set(hour, temp_c - 5.0, provenance);
  }
  return series;
}

double temp(const Series& series, int label) { return series.at(Variable::temperature, *series.index_of(at(label))).value_or(-99.0); }

}  // namespace

TEST_SUITE("weather") {
  TEST_CASE("a past hour is told by its best witness, and by the later of equals") {
    const Series observed = of(0, 10, 10.0, Provenance::observed), analysed = of(5, 20, 20.0, Provenance::analysed);
    CHECK(temp(keep(observed, analysed, at(30)), 7) == 10.0);
    CHECK(temp(keep(analysed, observed, at(30)), 7) == 10.0);
    CHECK(temp(keep(observed, analysed, at(30)), 15) == 20.0);
    CHECK(temp(keep(observed, of(5, 10, 30.0, Provenance::observed), at(30)), 7) == 30.0);
    // A forecast that nobody came back to is better than nothing.
    CHECK(temp(keep(of(0, 20, 10.0, Provenance::forecast), of(12, 20, 20.0, Provenance::analysed), at(30)), 3) == 10.0);
    CHECK(temp(keep(of(0, 20, 10.0, Provenance::forecast), of(0, 20, 20.0, Provenance::analysed), at(30)), 3) == 20.0);
    CHECK(temp(keep(of(0, 20, 10.0, Provenance::derived), of(0, 20, 20.0, Provenance::forecast), at(30)), 3) == 10.0);
  }

  TEST_CASE("an hour's humidity is its temperature's witness's, and never another's") {
    Series dry = of(0, 4, 10.0, Provenance::observed);
    dry[Variable::dew_point] = Column{4};
    const Series kept = keep(dry, of(0, 4, 20.0, Provenance::analysed), at(10));
    CHECK(temp(kept, 2) == 10.0);
    CHECK_FALSE(kept.at(Variable::dew_point, 2).has_value());
  }

  TEST_CASE("hours ahead are the fresh series' alone, and kept hours ahead are forgotten") {
    const Series kept = keep(of(0, 40, 10.0, Provenance::observed), of(5, 15, 20.0, Provenance::forecast), at(8));
    CHECK(temp(kept, 8) == 10.0);
    CHECK(temp(kept, 9) == 20.0);
    CHECK(kept.hours() == 15);
    CHECK(keep(of(0, 40, 10.0, Provenance::forecast), {}, at(8)).hours() == 9);
    CHECK(keep({}, {}, at(8)).hours() == 0);
  }

  TEST_CASE("what is older than we ever ask for goes") {
    const int later = static_cast<int>(longest_kept.count()) + 10;
    const Series kept = keep(of(0, 20, 10.0, Provenance::observed), of(later - 5, later, 20.0, Provenance::analysed), at(later));
    CHECK(kept.first_label() == at(10));
    CHECK(keep(of(0, 5, 10.0, Provenance::observed), {}, at(later)).hours() == 0);
  }

  TEST_CASE("soil layers go on where they are the same and begin anew where a service has changed") {
    const auto with_soil = [](Series series, double bottom_m, double moisture) {
      series.soil.push_back({units::Metres{0.0}, units::Metres{bottom_m}, Column{series.hours()}, Column{series.hours()}});
      for (std::size_t hour = 0; hour < series.hours(); ++hour) series.soil[0].moisture_m3_m3.set(hour, moisture, Provenance::analysed);
      return series;
    };
    const Series old = with_soil(of(0, 10, 10.0, Provenance::analysed), 0.1, 0.2);
    const Series same = keep(old, with_soil(of(8, 20, 20.0, Provenance::analysed), 0.1, 0.3), at(30));
    REQUIRE(same.soil.size() == 1);
    CHECK(same.soil[0].moisture_m3_m3.at(3) == 0.2);
    CHECK(same.soil[0].moisture_m3_m3.at(9) == 0.3);
    const Series changed = keep(old, with_soil(of(8, 20, 20.0, Provenance::analysed), 0.07, 0.3), at(30));
    CHECK_FALSE(changed.soil[0].moisture_m3_m3.has(3));
    CHECK(keep(old, of(8, 20, 20.0, Provenance::analysed), at(30)).soil[0].moisture_m3_m3.at(3) == 0.2);
  }
}
