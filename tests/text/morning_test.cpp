#include <doctest/doctest.h>

#include "text/composer.h"
#include "text/correction.h"
#include "text/orders.h"

using namespace text;
using orders::at;

namespace {

Message morning(const CrewOrder& today) { return morning_text(orders::two_stops(), today, standard_templates()); }

Message correction(const CrewOrder& today, units::LocalTime now) {
  return correction_text(orders::two_stops(), today, now, standard_templates());
}

CrewOrder with_thunder(int from, int until) {
  CrewOrder order = orders::two_stops();
  for (Stop& stop : order.stops) stop.holds = {{days::HoldCode::thunder, at(from), at(until), 60.0}};
  return order;
}

}  // namespace

TEST_SUITE("text") {
  TEST_CASE("a morning without change is no news") {
    const Message same = morning(orders::two_stops());
    CHECK_FALSE(same.news);
    CHECK(same.text == "Crew B Tue Jul 7: no change.");
    CrewOrder slightly = orders::two_stops();
    slightly.stops[0].chance = 0.88;
    slightly.stops[0].takes_h = {3.0, 4.9, 7.4};
    slightly.weather_age_h = 2.0;
    CHECK_FALSE(morning(slightly).news);
  }

  TEST_CASE("only what changed is sent, with what it was") {
    CrewOrder today = orders::two_stops();
    today.stops[0].verdict = days::Verdict::no_go;
    today.stops[0].chance = 0.3;
    today.stops[0].arrive = at(8);
    today.stops[0].valves->open = at(9, 30);
    today.stops.pop_back();
    const Message m = morning(today);
    CHECK(m.news);
    CHECK(m.text ==
          "Crew B Tue Jul 7, changed:\n"
          "1) Oak Court elm: NO GO (was GO), 3 in 10, arrive 8am (was 7:30am), open no valves.\n"
          "Not today: Hollis yard.\n"
          "Call 555-0100");
  }

  TEST_CASE("every figure that a crew acts on is news when it changes") {
    const auto changed = [](auto change) {
      CrewOrder today = orders::two_stops();
      change(today.stops[0]);
      return morning(today).text;
    };
    const auto says = [](const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; };
    CHECK(says(changed([](Stop& s) { s.mix_l = 302.8; }), "80 gal mix + 5 gal flush"));
    CHECK(says(changed([](Stop& s) { s.flush_l = 37.9; }), "66 gal mix + 10 gal flush"));
    CHECK(says(changed([](Stop& s) { s.haul_l = 302.8; }), "haul 80 gal"));
    CHECK(says(changed([](Stop& s) { s.valves->shut_by = at(15); }), "valves shut by 3pm"));
    CHECK(says(changed([](Stop& s) { s.off_site_by = at(16, 45); }), "off site by 4:45pm"));
    CHECK(says(changed([](Stop& s) { s.takes_h = {4.0, 6.0, 9.0}; }), "takes 4-9h, likely 6:00h"));
    CHECK(says(changed([](Stop& s) { s.gate = "9999"; }), "Gate 9999"));
    CHECK(says(changed([](Stop& s) { s.gate = ""; }), "no gate"));
    CHECK(says(changed([](Stop& s) { s.water = "pond"; }), "pond"));
    CHECK(says(changed([](Stop& s) { s.name = "Oak Court east"; }), "1) Oak Court east: was Oak Court elm."));
    CHECK(says(changed([](Stop& s) { s.valves.reset(); }), "1) Oak Court elm: prep only (was GO)."));
    CHECK(says(changed([](Stop& s) { s.safety = {"wire in the crown"}; }), "New: Safety at 1: wire in the crown"));
    CHECK(says(changed([](Stop& s) { s.holds = {{days::HoldCode::heat, at(14), at(17), 38.0}}; }), "New HOLD at 1 2-5pm heat to 100 F"));
  }

  TEST_CASE("a new stop is said whole, a hold that is gone by its hours") {
    CrewOrder today = orders::two_stops();
    today.stops[1].code = "new";
    const Message m = morning(today);
    CHECK(m.text.find("New: 2) 10am Hollis yard") != std::string::npos);
    CHECK(m.text.find("Not today: Hollis yard.") != std::string::npos);
    const Message over = morning_text(with_thunder(15, 18), orders::two_stops(), standard_templates());
    CHECK(over.text.find("No more HOLD 3-6pm thunder.") != std::string::npos);
  }

  TEST_CASE("where weather has become too old the whole day is said again, as preparation") {
    CrewOrder today = orders::two_stops();
    today.weather_too_old = true;
    today.weather_age_h = 31.0;
    const Message m = morning(today);
    CHECK(m.news);
    CHECK(m.text.find("Prep only, weather 31h old") != std::string::npos);
    CHECK(m.text.find("GO 9 in 10") == std::string::npos);
    CHECK(m.text.find("2) 10am Hollis yard") != std::string::npos);
  }

  TEST_CASE("a correction begins with what to do") {
    const CrewOrder storm = with_thunder(15, 18);
    CHECK(correction(storm, at(12)).text ==
          "Shut valves by 3pm, into truck, leave lines on. 30 min after last thunder: back.\nNew HOLD 3-6pm thunder.\nCall 555-0100");
    CHECK(correction(storm, at(14, 45)).text.starts_with("Shut valves, into truck now, leave lines on. 30 min after last thunder: back."));
    CHECK(correction(storm, at(12)).size.parts == 1);
  }

  TEST_CASE("a verdict that turns says what that means at the tree") {
    CrewOrder today = orders::two_stops();
    today.stops[0].verdict = days::Verdict::no_go;
    today.stops[0].chance = 0.3;
    CHECK(correction(today, at(8)).text.starts_with("Do not open valves at Oak Court elm: NO GO, 3 in 10."));
    CHECK(correction(today, at(11)).text.starts_with("Mix no more at Oak Court elm: 3 in 10 to finish."));
    today.stops[0].verdict = days::Verdict::tight;
    CHECK(correction(today, at(11)).text.starts_with("Mix only what is sure to go in at Oak Court elm: 3 in 10 to finish."));
    today = orders::two_stops();
    today.stops[1].verdict = days::Verdict::go;
    CHECK(correction(today, at(8)).text.starts_with("Go ahead at Hollis yard: GO, 7 in 10."));
    today.stops.pop_back();
    CHECK(correction(today, at(8)).text.starts_with("Do not go to Hollis yard."));
    today = orders::two_stops();
    today.weather_too_old = true;
    today.weather_age_h = 31.0;
    CHECK(correction(today, at(8)).text.starts_with("Open no valves, prep only: weather 31h old."));
  }

  TEST_CASE("what a crew must no longer do at a stop is said, preparation or not") {
    CrewOrder before = orders::two_stops(), today = before;
    for (CrewOrder* order : {&before, &today}) order->weather_too_old = true;
    today.stops[0].safety.emplace_back("Do not dig: utility ticket ended Fri Jul 3");
    const std::string text = correction_text(before, today, at(8), standard_templates()).text;
    CHECK_MESSAGE(text.starts_with("At Oak Court elm: Do not dig: utility ticket ended Fri Jul 3."), text);
    CHECK_MESSAGE(text.find("Do not dig", 30) == std::string::npos, text);
    CHECK_FALSE(correction_text(before, today, at(20), standard_templates()).news);  // the crew is gone
    CHECK_FALSE(correction_text(today, today, at(8), standard_templates()).news);
  }

  TEST_CASE("a crew that must leave earlier is told, one that may stay longer is not") {
    CrewOrder today = orders::two_stops();
    today.stops[0].off_site_by = at(15);
    today.stops[0].valves->shut_by = at(14, 30);
    CHECK(correction(today, at(8)).text.starts_with("Be off site at Oak Court elm by 3pm, valves shut by 2:30pm."));
    today.stops[0].off_site_by = at(20);
    CHECK_FALSE(correction(today, at(8)).news);
  }

  TEST_CASE("a stop that came in the course of the day is told in whole") {
    CrewOrder before = orders::two_stops();
    before.stops.pop_back();
    const std::string text = correction_text(before, orders::two_stops(), at(8), standard_templates()).text;
    CHECK_MESSAGE(text.starts_with("New stop at "), text);
    CHECK_MESSAGE(text.find("Hollis yard") != std::string::npos, text);
    CHECK_MESSAGE(text.find("\nNew: 2) ") != std::string::npos, text);
  }

  TEST_CASE("any other hazard stops work by its hour") {
    CrewOrder today = orders::two_stops();
    today.stops[0].holds = {{days::HoldCode::gusts, at(14), at(17), 20.0}};
    CHECK(correction(today, at(10)).text.starts_with("Stop work by 2pm: gusts to 45 mph."));
    CHECK(correction(today, at(13, 45)).text.starts_with("Stop work now: gusts to 45 mph."));
  }

  TEST_CASE("nothing that calls for action is no correction") {
    CrewOrder today = orders::two_stops();
    CHECK_FALSE(correction(today, at(8)).news);
    CHECK(correction(today, at(8)).text.empty());
    today.stops[0].gate = "9999";
    CHECK_FALSE(correction(today, at(8)).news);
    CHECK_FALSE(correction(with_thunder(15, 18), at(19)).news);  // over, and the crew gone
    CHECK_FALSE(correction_text(with_thunder(15, 18), with_thunder(15, 18), at(12), standard_templates()).news);
    // Who was told to be in the truck at three need not be told that it lasts longer, comes at four, or is likelier than it was.
    for (const auto& [from, until] : {std::pair{15, 20}, {16, 19}, {15, 17}})
      CHECK_FALSE(correction_text(with_thunder(15, 18), with_thunder(from, until), at(12), standard_templates()).news);
    CrewOrder likelier = with_thunder(15, 18);
    for (Stop& stop : likelier.stops) stop.holds.front().worst = 80.0;
    CHECK_FALSE(correction_text(with_thunder(15, 18), likelier, at(12), standard_templates()).news);
    // Earlier, or a second storm, is.
    CHECK(correction_text(with_thunder(15, 18), with_thunder(14, 18), at(12), standard_templates()).text.starts_with("Shut valves by 2pm"));
    CHECK(correction_text(with_thunder(10, 11), with_thunder(14, 15), at(12), standard_templates()).news);
  }
}
