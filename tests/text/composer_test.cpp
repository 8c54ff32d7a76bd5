#include "text/composer.h"

#include <doctest/doctest.h>

#include "text/orders.h"

using namespace text;
using orders::at;

namespace {

const Templates& standard() { return standard_templates(); }

bool says(const Message& message, const std::string& words) { return message.text.find(words) != std::string::npos; }

OrderHold thunder(int from, int until) { return {days::HoldCode::thunder, at(from), at(until), 60.0}; }

}  // namespace

TEST_SUITE("text") {
  TEST_CASE("a day with room says everything in a crew's words") {
    const Message m = evening_text(orders::one_stop(), standard());
    CHECK(m.text ==
          "Crew B Tue Jul 7\n"
          "1) 7:30am Oak Court elm, 12 Oak Ct: GO 9 in 10, takes 3-7h, likely 4:30h. 66 gal mix + 5 gal flush, 14 ports, 3 tanks, hydrant. "
          "Valves open 9am, valves shut by 4pm, off site by 5pm. Gate 4412. Dog in yard. Home: Ann till 10.\n"
          "Call 555-0100\n"
          "Weather 5h old");
    CHECK(m.size.parts == 2);
    CHECK(m.left_out.empty());
    CHECK(m.shortened.empty());
  }

  TEST_CASE("litres are said where the crew reads litres") {
    CrewOrder order = orders::one_stop();
    order.units = units::UnitSystem::si;
    CHECK(says(evening_text(order, standard()), "250 L mix + 19 L flush"));
  }

  TEST_CASE("a day that nearly fits one part goes in one, without what matters least") {
    CrewOrder order = orders::one_stop();
    Stop& stop = order.stops[0];
    stop.gate = stop.dog = "";
    stop.address = "";
    const Message m = evening_text(order, standard());
    CHECK(m.text ==
          "Crew B Tue Jul 7\n"
          "1) 7:30am Oak Court elm: GO 9 in 10, takes 3-7h, likely 4:30h. 66 gal+5 flush, hydrant. Valves open 9am, shut by 4pm, off site "
          "by 5pm.");
    CHECK(m.size.parts == 1);
    CHECK(m.left_out == std::vector<std::string>{"weather_age", "ports", "tanks", "home", "long words", "call"});
  }

  TEST_CASE("two stops go in two parts, and what is left out is told, least important first") {
    const Message m = evening_text(orders::two_stops(), standard());
    CHECK(m.size.parts == 2);
    CHECK(says(m, "1) 7:30am Oak Court elm, 12 Oak Ct: GO, takes 3-7h, likely 4:30h. 66 gal+5 flush."));
    CHECK(says(m, "2) 10am Hollis yard, 3 Mill Rd: TIGHT, takes 3-7h, likely 4:30h. 40 gal+5 flush."));
    CHECK(m.left_out == std::vector<std::string>{"weather_age", "ports", "tanks", "home", "long words", "call", "water", "odds", "haul"});
  }

  TEST_CASE("a hold that all stops share is said once, one of a single stop names it") {
    CrewOrder order = orders::two_stops();
    for (Stop& stop : order.stops) stop.holds = {thunder(15, 18)};
    order.stops[1].holds.push_back({days::HoldCode::gusts, at(11), at(13, 30), 18.0});
    const Message m = evening_text(order, standard());
    CHECK(says(m, "HOLD at 2 11am-1:30pm gusts to 40 mph: "));
    CHECK(says(m, "HOLD 3-6pm thunder: valves shut, into truck, lines "));
    CHECK(m.size.parts == 2);
  }

  TEST_CASE("weather beyond the owner's limit gives no GO and no valve, and says what can be done") {
    CrewOrder order = orders::two_stops();
    order.weather_too_old = true;
    order.weather_age_h = 31.0;
    const Message m = evening_text(order, standard());
    CHECK(m.text ==
          "Crew B Tue Jul 7\n"
          "Prep only, weather 31h old: dig, brush clean, measure flare, lay out. Drill nothing, open no valves till we call.\n"
          "1) 7:30am Oak Court elm, 12 Oak Ct: prep only. Off site by 5pm. Gate 4412. Dog in yard.\n"
          "2) 10am Hollis yard, 3 Mill Rd: prep only. Off site by 6pm.\n"
          "Call 555-0100");
    order.weather_age_h.reset();
    CHECK(says(evening_text(order, standard()), "Prep only, weather of unknown age"));
  }

  TEST_CASE("a stop for preparation has no mix and no valves") {
    CrewOrder order = orders::one_stop();
    order.stops[0].valves.reset();
    order.stops[0].prep = {"dig the flare", "lay out"};
    CHECK(says(evening_text(order, standard()), "1) 7:30am Oak Court elm, 12 Oak Ct: prep only: dig the flare, lay out. Off site by 5pm."));
  }

  TEST_CASE("a name in another script is said in UCS-2 where that fits, else its code stands in") {
    CrewOrder order = orders::one_stop();
    Stop& stop = order.stops[0];
    stop.name = "Старый вяз";
    stop.takes_h = {};
    const Message alone = evening_text(order, standard());
    CHECK(alone.size.alphabet == Alphabet::ucs2);
    CHECK(alone.size.parts == 2);
    CHECK(says(alone, "Старый вяз"));
    order.stops.push_back(orders::two_stops().stops[1]);
    CHECK(says(evening_text(order, standard()), "1 7:30am OC-1 GO 66gal+5flush valves 9am-4pm off 5pm"));
    order.stops.push_back(orders::two_stops().stops[1]);
    const Message three = evening_text(order, standard());
    CHECK(three.size.alphabet == Alphabet::gsm7);
    CHECK(three.size.parts <= 2);
    REQUIRE(three.shortened.size() == 1);
    CHECK(three.shortened[0] == Message::Shortened{"Старый вяз", "OC-1"});
  }

  TEST_CASE("letters of another script in what may be left out do not make a message UCS-2") {
    CrewOrder order = orders::one_stop();
    order.stops[0].address = "ул. Садовая 5";
    const Message m = evening_text(order, standard());
    CHECK(m.size.alphabet == Alphabet::gsm7);
    CHECK_FALSE(says(m, "?"));
  }

  TEST_CASE("names are shortened at a word's end, as a last resort, and the message says so") {
    CrewOrder order = orders::two_stops();
    order.stops[0].name = "The long elm avenue behind the old water works, third tree from the gate " + std::string(130, 'x') + " end";
    const Message m = evening_text(order, standard());
    CHECK(m.size.parts == 2);
    REQUIRE(m.shortened.size() == 1);
    CHECK(m.shortened[0].to == "The long elm avenue behind the old water");
    order.stops[0].name = std::string(400, 'x');
    CHECK(evening_text(order, standard()).shortened[0].to == "OC-1");
    order.stops[0].code = "";
    CHECK(evening_text(order, standard()).shortened[0].to == "stop 1");
  }

  TEST_CASE("what even so needs more than two parts is sent whole, and says how many") {
    CrewOrder order = orders::one_stop();
    for (int i = 0; i < 9; ++i) order.stops.push_back(orders::oak_court());
    const Message m = evening_text(order, standard());
    CHECK(m.size.parts > 2);
    CHECK(says(m, "10 7:30am OC-1 GO 66+5gal 9am-4pm off 5pm"));
  }

  TEST_CASE("a day without stops says so") {
    CrewOrder order = orders::one_stop();
    order.stops.clear();
    CHECK(says(evening_text(order, standard()), "Crew B Tue Jul 7\nNo stops.\n"));
  }
}
