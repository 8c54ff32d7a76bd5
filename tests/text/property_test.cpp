// Random days and hostile names: what must be said is said, as the order has it, in a message that nothing breaks. What is expected is put
// in words here once more, apart from the composer.
#include <doctest/doctest.h>

#include <cmath>
#include <regex>

#include "text/clean.h"
#include "text/composer.h"
#include "text/correction.h"
#include "text/orders.h"
#include "units/text.h"

using namespace text;

namespace {

constexpr std::uint64_t random_orders = 2000;

std::string wall(units::LocalTime t) {
  const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(t - units::LocalTime{orders::at(0)}).count();
  const long h = minutes / 60 % 24, m = minutes % 60;
  if (m == 0 && h % 12 == 0) return h == 0 ? "midnight" : "noon";
  std::string said = std::to_string((h + 11) % 12 + 1);
  if (m != 0) said += (m < 10 ? ":0" : ":") + std::to_string(m);
  return said + (h < 12 ? "am" : "pm");
}

// "7am-noon", "1:30-4pm"
std::string span(units::LocalTime from, units::LocalTime until) {
  std::string a = wall(from), b = wall(until);
  const auto half = [](const std::string& s) { return s.substr(s.size() - 2); };
  if (half(a) == half(b) && (half(a) == "am" || half(a) == "pm")) a.resize(a.size() - 2);
  return a + "-" + b;
}

std::string figure(double litres, units::UnitSystem system) {
  return std::to_string(std::lround(system == units::UnitSystem::us ? litres / 3.785411784 : litres));
}

std::string line_of(const std::string& text, std::size_t number) {
  const std::regex begins{"(^|\n)" + std::to_string(number) + "\\)? [^\n]*"};
  std::smatch match;
  return std::regex_search(text, match, begins) ? match.str() : std::string{};
}

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

std::string shown_name(const Message& m, const Stop& stop) {
  const std::string whole = for_phone(stop.name);
  for (const auto& shortened : m.shortened)
    if (shortened.from == whole) return shortened.to;
  return whole;
}

// Empty where the line says all that a crew must know of the stop, and nothing else of that kind.
std::string missing(const Message& m, const CrewOrder& order, std::size_t i) {
  const Stop& stop = order.stops[i];
  const std::string line = line_of(m.text, i + 1);
  if (line.empty()) return "stop";
  const bool same_names = m.shortened.size() > 1;  // then a code may stand for either
  if (!has(line, " " + wall(stop.arrive) + " ")) return "arrive";
  if (!has(line, shown_name(m, stop)) && !(same_names && has(line, stop.code))) return "name";
  if (!has(line, "off site by " + wall(stop.off_site_by)) && !has(line, "Off site by " + wall(stop.off_site_by)) &&
      !line.ends_with(" off " + wall(stop.off_site_by)))
    return "off";
  if (!stop.valves || order.weather_too_old) return has(line, "GO ") || has(line, "TIGHT") || has(line, "alves open") ? "prep" : "";
  if (stop.verdict == days::Verdict::no_go)  // nothing that could be read as an order to mix
    return !has(line, "NO GO")                                                                      ? "verdict"
           : has(line, "alves open") || std::regex_search(line, std::regex{"[0-9] ?(gal|L)[ +.,]"}) ? "mix"
                                                                                                    : "";
  const std::string verdicts[]{"GO", "TIGHT"};
  const std::string verdict = verdicts[static_cast<int>(stop.verdict)];
  if (!std::regex_search(line, std::regex{"[^O] " + verdict + "[ .,]"})) return "verdict";
  const std::string unit = order.units == units::UnitSystem::us ? "gal" : "L", mix = figure(stop.mix_l, order.units),
                    flush = figure(stop.flush_l, order.units);
  const bool flushed = stop.flush_l > 0;
  const std::string full = ". " + mix + " " + unit + " mix" + (flushed ? " + " + flush + " " + unit + " flush" : "");
  const std::string shorter = ". " + mix + " " + unit + (flushed ? "+" + flush + " flush" : "");
  const std::string row = " " + mix + unit + (flushed ? "+" + flush + "flush" : "") + " valves ";
  const std::string bare = " " + mix + (flushed ? "+" + flush : "") + unit + " ";
  if (!has(line, full) && !has(line, shorter) && !has(line, row) && !has(line, bare)) return "mix";
  const bool times = has(line, "alves open " + wall(stop.valves->open)) && has(line, "shut by " + wall(stop.valves->shut_by));
  if (!times && !has(line, " " + span(stop.valves->open, stop.valves->shut_by) + " off")) return "valves";
  return "";
}

std::string hold_missing(const Message& m, const CrewOrder& order) {
  for (const Stop& stop : order.stops) {
    for (const OrderHold& hold : stop.holds) {
      std::string what = "thunder: valves shut, into truck, lines ";
      if (hold.code == days::HoldCode::gusts)
        what = order.units == units::UnitSystem::us ? "gusts to " + std::to_string(std::lround(hold.worst * 3600 / 1609.344)) + " mph"
                                                    : "gusts to " + std::to_string(std::lround(hold.worst)) + " m/s";
      if (!has(m.text, span(hold.from, hold.until) + " " + what)) return what;
    }
    for (const std::string& line : stop.safety)
      if (!has(m.text, line)) return line;
  }
  return "";
}

bool one_message(const std::string& text, std::size_t lines) {
  return units::is_utf8(text) && text.find('\r') == std::string::npos &&
         static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')) <= lines;
}

}  // namespace

TEST_SUITE("text") {
  TEST_CASE("2000 random days: every stop, hold and number is there and the order's own, in two parts at most") {
    std::size_t over = 0;
    for (std::uint64_t number = 0; number < random_orders; ++number) {
      const CrewOrder order = orders::random_order(number);
      const Message m = evening_text(order, standard_templates());
      CAPTURE(number);
      CAPTURE(m.text);
      for (std::size_t i = 0; i < order.stops.size(); ++i) CHECK(missing(m, order, i) == "");
      CHECK(hold_missing(m, order) == "");
      if (order.weather_too_old) CHECK(has(m.text, "Prep only, weather"));
      CHECK(m.size.alphabet == Alphabet::gsm7);
      if (m.size.parts <= 2) continue;
      // Nothing is left to leave out: three stops or more, in rows without words, and two or more lines of holds and safety.
      ++over;
      CHECK(order.stops.size() >= 3);
      CHECK_FALSE(has(m.text, "alves open"));
      CHECK(std::regex_search(m.text, std::regex{"\n(HOLD|Safety)[^\n]*\n(HOLD|Safety)"}));
      CHECK(m.size.parts == 3);
    }
    MESSAGE("in more than two parts: " << over << " of " << random_orders);
    CHECK(over <= random_orders / 100);
  }

  TEST_CASE("no name, gate or note breaks a message") {
    for (std::uint64_t number = 0; number < 400; ++number) {
      CrewOrder order = orders::two_stops();
      for (std::size_t i = 0; i < 2; ++i) {
        Stop& stop = order.stops[i];
        stop.name = orders::nasty_text(8 * number + i);
        stop.gate = orders::nasty_text(8 * number + 2 + i);
        stop.address = orders::nasty_text(8 * number + 4 + i);
      }
      order.crew = orders::nasty_text(8 * number + 6);
      order.call = orders::nasty_text(8 * number + 7);
      CAPTURE(number);
      const Message m = evening_text(order, standard_templates());
      CAPTURE(m.text);
      CHECK(m.size.parts <= 2);
      CHECK(one_message(m.text, 4));
      for (const std::string words : {"66", "40"}) CHECK(has(m.text, words));
      for (const std::string marks : {"\xE2\x80\xAE", "\xff"}) CHECK_FALSE(has(m.text, marks));
      const CrewOrder sent = orders::two_stops();
      CHECK(one_message(morning_text(sent, order, standard_templates()).text, 8));
      order.stops[0].verdict = days::Verdict::no_go;
      CHECK(one_message(correction_text(sent, order, orders::at(8), standard_templates()).text, 8));
    }
  }
}
