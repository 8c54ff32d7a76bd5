#include "feeds/ports_csv.h"

#include <doctest/doctest.h>

#include "feeds/outside_replies.h"
#include "support/within.h"

namespace {

std::string line_of(const std::string& content) {
  const auto read = feeds::read_ports("old.csv", content);
  return read ? "" : read.error().line();
}

}  // namespace

TEST_SUITE("feeds") {
  TEST_CASE("old ports, bad stretches and the flare of now are read from one list") {
    const auto record = feeds::read_ports("x",
                                          "kind,year,clockwise_cm,to_cm,height_cm,flare_cm,leaked\n"
                                          "flare,,,,,530,\nbad,2023,205,238,,524,\nport,2020,12.5,,8,518,\n"
                                          ",2020,26,,9,518,yes\nport,2023,6,,14,524,no\n");
    REQUIRE(record.has_value());
    CHECK(record->flare_cm == 530.0);
    REQUIRE(record->old_ports.size() == 3);
    CHECK(record->old_ports[0].clockwise_cm == 12.5);
    CHECK(record->old_ports[0].flare_cm == 518.0);
    CHECK(record->old_ports[0].year == 2020);
    CHECK_FALSE(record->old_ports[0].leaked);
    CHECK(record->old_ports[1].leaked);
    CHECK_FALSE(record->old_ports[2].leaked);
    REQUIRE(record->bad.size() == 1);
    CHECK(record->bad[0].to_cm == 238.0);
    CHECK(record->ridges.empty());
  }

  TEST_CASE("the sample's flare is read: three treatments, a cavity and a crack") {
    const auto record = feeds::read_ports("old-ports.csv", sample_bytes("old-ports.csv"));
    REQUIRE(record.has_value());
    CHECK(record->old_ports.size() == 117);
    CHECK(record->bad.size() == 2);
  }

  TEST_CASE("a list of clockwise distances alone is enough") {
    const auto record = feeds::read_ports("x", "clockwise_cm\n12\n40.5\n");
    REQUIRE(record.has_value());
    REQUIRE(record->old_ports.size() == 2);
    CHECK_FALSE(record->old_ports[1].height_cm.has_value());
    CHECK_FALSE(record->old_ports[1].flare_cm.has_value());
    CHECK_FALSE(record->old_ports[1].year.has_value());
  }

  TEST_CASE("a ridge is read by its ends, over the tag too") {
    const auto record = feeds::read_ports("x", "kind,clockwise_cm,to_cm,flare_cm\nridge,20,50,\nridge,290,20,300\n");
    REQUIRE(record.has_value());
    CHECK(record->ridges[0].crest_cm == 35.0);
    CHECK(record->ridges[0].half_width_cm == 15.0);
    CHECK(record->ridges[1].crest_cm == 305.0);
    CHECK(record->ridges[1].half_width_cm == 15.0);
  }

  TEST_CASE("one bad line refuses the whole list, for a port left out would be drilled beside") {
    const std::string head = "kind,clockwise_cm,to_cm,height_cm,year,flare_cm,leaked\n";
    CHECK(line_of(head + "port,,,,,,\n") == "old.csv:2: clockwise_cm: expected a number from 0 to 3000");
    CHECK(line_of(head + "port,600,,,,518,\n") == "old.csv:2: clockwise_cm: '600': expected a number from 0 to 518");
    CHECK(line_of(head + "port,12,,500,,,\n") == "old.csv:2: height_cm: '500': expected a number from -100 to 300");
    CHECK(line_of(head + "port,12,,,2020.5,,\n") == "old.csv:2: year: '2020.5': expected a whole number");
    CHECK(line_of(head + "port,12,,,,2,\n") == "old.csv:2: flare_cm: '2': expected a number from 5 to 3000");
    CHECK(line_of(head + "port,12,,,,,maybe\n") == "old.csv:2: leaked: 'maybe': expected yes or no");
    CHECK(line_of(head + "port,12,15,,,,\n") == "old.csv:2: to_cm: '15': expected nothing on a line of this kind");
    CHECK(line_of(head + "hole,12,,,,,\n") == "old.csv:2: kind: 'hole': expected port, bad, ridge or flare");
    CHECK(line_of(head + "bad,12,,,,,\n") == "old.csv:2: to_cm: expected a number from 0 to 3000");
    CHECK(line_of(head + "bad,12,20,8,,,\n") == "old.csv:2: height_cm: '8': expected nothing on a line of this kind");
    CHECK(line_of(head + "ridge,40,20,,,,\n") == "old.csv:2: flare_cm: expected the flare's circumference for a ridge over the tag");
    CHECK(line_of(head + "flare,1,,,,500,\n") == "old.csv:2: clockwise_cm: '1': expected nothing on a line of this kind");
    CHECK(line_of(head + "flare,,,,,500,\nflare,,,,,501,\n") == "old.csv:3: kind: 'flare': expected one line of the flare as measured now");
    CHECK(line_of("clockwise_cm,hieght_cm\n1,2\n") ==
          "old.csv:1: expected only the columns kind,clockwise_cm,to_cm,height_cm,year,flare_cm,leaked");
    CHECK(line_of("year\n2020\n").find("clockwise_cm") != std::string::npos);
  }
}
