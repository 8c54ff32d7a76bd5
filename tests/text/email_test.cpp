#include "text/email.h"

#include <doctest/doctest.h>

#include "text/orders.h"
#include "text/say.h"

using namespace text;
using orders::at;

TEST_SUITE("text") {
  TEST_CASE("the mail says everything, written out") {
    CrewOrder order = orders::two_stops();
    order.stops[1].holds = {{days::HoldCode::thunder, at(15), at(18), 60.0}};
    order.stops[0].prep = {"dig the day before"};
    order.changed = {"Elm St moved to Thu"};
    const Email mail = evening_email(order);
    CHECK(mail.subject == "Crew B Tue Jul 7: 2 stops");
    for (const std::string words :
         {"Crew B, Tue Jul 7 2026\n", "Changed: Elm St moved to Thu\n", "1) 7:30 am: Oak Court elm (OC-1)\n   12 Oak Ct\n",
          "GO, 9 in 10, takes 3-7 h, likely 4:30\n", "Mix: 66 gal, flush 5 gal, 14 ports, 3 tanks\n", "Water: hydrant\n",
          "Water: haul 45 gal\n", "valves open 9:00 am, valves shut by 4:00 pm, off site by 5:00 pm\n", "Gate: 4412\n", "Dog: in yard\n",
          "Home: Ann till 10\n", "Prep: dig the day before\n",
          "HOLD: 3:00 pm to 6:00 pm, thunder: valves shut, into truck, lines stay on, back 30 min after last thunder\n", "Call 555-0100\n",
          "Weather 5 h old", "The label is the law"})
      CHECK_MESSAGE(mail.body.find(words) != std::string::npos, words);
  }

  TEST_CASE("on old weather the mail opens no valve either") {
    CrewOrder order = orders::one_stop();
    order.weather_too_old = true;
    const Email mail = evening_email(order);
    CHECK(mail.subject == "Crew B Tue Jul 7: 1 stop, prep only");
    CHECK(mail.body.find("prep only, off site by 5:00 pm") != std::string::npos);
    CHECK(mail.body.find("valves open 9") == std::string::npos);
    CHECK(mail.body.find("GO,") == std::string::npos);
  }

  TEST_CASE("no name breaks the subject or fakes a line") {
    for (std::uint64_t number = 0; number < 200; ++number) {
      CrewOrder order = orders::one_stop();
      order.crew = orders::nasty_text(number);
      CHECK(evening_email(order).subject.find_first_of("\r\n") == std::string::npos);
      order = orders::one_stop();
      const auto lines = [](const std::string& s) { return std::count(s.begin(), s.end(), '\n'); };
      const auto before = lines(evening_email(order).body);
      order.stops[0].name = orders::nasty_text(number);
      CHECK(lines(evening_email(order).body) == before);
    }
  }

  TEST_CASE("clock times, spans and hours are said as crews say them") {
    CHECK(clock(at(0), Room::line) == "midnight");
    CHECK(clock(at(12), Room::line) == "noon");
    CHECK(clock(at(12, 5), Room::line) == "12:05pm");
    CHECK(clock(at(0, 30), Room::line) == "12:30am");
    CHECK(clock(at(7), Room::page) == "7:00 am");
    const units::LocalDay tuesday = std::chrono::floor<std::chrono::days>(at(0));
    CHECK(hours(at(15), at(18), tuesday, Room::line) == "3-6pm");
    CHECK(hours(at(9), at(12), tuesday, Room::line) == "9am-noon");
    CHECK(hours(at(11), at(13, 30), tuesday, Room::line) == "11am-1:30pm");
    CHECK(hours(at(15), at(24), tuesday, Room::line) == "3pm-midnight");
    CHECK(hours(at(15), at(30), tuesday, Room::line) == "3pm-Wed 6am");
    CHECK(takes({3.1, 4.5, 6.9}, Room::line) == "takes 3-7h, likely 4:30h");
    CHECK(takes({3.1, 4.5, 6.9}, Room::page) == "takes 3-7 h, likely 4:30");
    CHECK(takes({3.1, 4.5, {}}, Room::line) == "takes 3-24+h, likely 4:30h");
    CHECK(takes({}, Room::line) == "may not finish in a day");
    CHECK(chance(0.999) == "over 9 in 10");
    CHECK(chance(0.699) == "6 in 10");
    CHECK(chance(0.01) == "under 1 in 10");
  }
}
