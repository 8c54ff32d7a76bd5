#include "support/property.h"

#include <doctest/doctest.h>

#include "support/within.h"

namespace {

using enum property::Field::Spread;

const property::Fields fields{property::Field::choice("colour", {"red", "green", "blue"}, "green"),
                              {"length", 10.0, even, 0.0, 100.0},
                              {"width", 1.0, even_in_log, 0.01, 100.0},
                              {"luck", 0.0}};

// Breaks where length exceeds 40, whatever the rest.
std::vector<double> too_long(std::span<const property::Case> cases) {
  std::vector<double> figures;
  for (const property::Case& c : cases) figures.push_back(c[1] - 40.0);
  return figures;
}

}  // namespace

TEST_SUITE("units") {
  TEST_CASE("a property's cases keep to their fields and come back by their number") {
    for (std::uint64_t number = 1; number <= 500; ++number) {
      const property::Case c = property::draw(fields, number);
      CHECK(c == property::draw(fields, number));
      CHECK(c != property::draw(fields, number + 1));
      CHECK((c[0] == 0.0 || c[0] == 1.0 || c[0] == 2.0));
      CHECK((c[1] >= 0.0 && c[1] <= 100.0 && c[2] >= 0.01 && c[2] <= 100.0));
    }
  }

  TEST_CASE("a broken property is walked back to its bound, with all that does not matter plain") {
    const property::Outcome o = property::ask(fields, 300, too_long, 0.0);
    CHECK(o.asked == 300);
    CHECK(o.broken > 150);
    CHECK(o.broken < 210);
    const property::Case plainest = property::shrink(fields, property::draw(fields, o.number), too_long, 0.0);
    CHECK(plainest[0] == 1.0);
    CHECK(plainest[1] > 40.0);
    CHECK(plainest[1] < 41.0);
    CHECK(plainest[2] == 1.0);
    CHECK(plainest[3] == 0.0);
    CHECK(o.plainest.find("length: 40") != std::string::npos);
    CHECK(o.plainest.find("colour") == std::string::npos);
  }

  TEST_CASE("a property that holds shrinks nothing") {
    const property::Outcome o = property::ask(fields, 300, too_long, 60.0);
    CHECK(o.broken == 0);
    CHECK(o.plainest.empty());
  }
}
