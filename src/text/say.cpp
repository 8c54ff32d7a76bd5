#include "text/say.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

#include "units/us_customary.h"

namespace text {
namespace {

using units::UnitSystem;

std::string whole(double number) { return std::to_string(std::lround(number)); }

std::string two_digits(long number) { return (number < 10 ? "0" : "") + std::to_string(number); }

units::LocalDay day_of(units::LocalTime wall) { return std::chrono::floor<std::chrono::days>(wall); }

bool ends_with_half(const std::string& clock) { return clock.ends_with("am") || clock.ends_with("pm"); }

}  // namespace

std::string verdict(days::Verdict verdict) {
  switch (verdict) {
    case days::Verdict::go:
      return "GO";
    case days::Verdict::tight:
      return "TIGHT";
    case days::Verdict::no_go:
      break;
  }
  return "NO GO";
}

std::string chance(double chance) {
  if (chance >= 0.95) return "over 9 in 10";
  if (chance < 0.05) return "under 1 in 10";
  return std::to_string(std::max(1L, static_cast<long>(std::floor(10.0 * chance + 1e-9)))) + " in 10";
}

std::string clock(units::LocalTime wall, Room room) {
  const long minutes = std::chrono::floor<std::chrono::minutes>(wall - day_of(wall)).count();
  const long hour = minutes / 60, minute = minutes % 60;
  if (hour == 12 && minute == 0) return "noon";
  if (hour == 0 && minute == 0) return "midnight";
  std::string said = std::to_string(hour % 12 == 0 ? 12 : hour % 12);
  if (minute != 0 || room == Room::page) said += ":" + two_digits(minute);
  return said + (room == Room::page ? " " : "") + (hour < 12 ? "am" : "pm");
}

std::string day(units::LocalDay day) {
  static constexpr std::array weekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  static constexpr std::array months{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const std::chrono::year_month_day ymd{day};
  return std::string{weekdays[std::chrono::weekday{day}.c_encoding()]} + " " + months[static_cast<unsigned>(ymd.month()) - 1] + " " +
         std::to_string(static_cast<unsigned>(ymd.day()));
}

std::string duration(double hours) {
  const long minutes = 5 * std::lround(hours * 12.0);  // more would be a lie
  return std::to_string(minutes / 60) + ":" + two_digits(minutes % 60);
}

std::string takes(const days::Quantiles& h, Room room) {
  const std::string unit = room == Room::page ? " h" : "h";
  if (!h.p10) return "may not finish in a day";
  const long low = std::lround(*h.p10);
  if (!h.p50) return "takes " + std::to_string(low) + unit + " or far more";
  const std::string likely = unit + ", likely " + duration(*h.p50) + (room == Room::line ? "h" : "");  // hours, not a clock
  if (!h.p90) return "takes " + std::to_string(low) + "-24+" + likely;
  return "takes " + std::to_string(low) + "-" + std::to_string(std::max(std::lround(*h.p90), low + 1)) + likely;
}

std::string amount_figure(double litres, UnitSystem units) { return whole(units == UnitSystem::us ? units::us::gallons(litres) : litres); }

std::string amount_unit(UnitSystem units) { return units == UnitSystem::us ? "gal" : "L"; }

std::string amount(double litres, UnitSystem units) { return amount_figure(litres, units) + " " + amount_unit(units); }

std::string hours(units::LocalTime from, units::LocalTime until, units::LocalDay date, Room room) {
  const auto on_day = [&](units::LocalTime wall) {
    return day_of(wall) == date ? clock(wall, room) : day(day_of(wall)).substr(0, 3) + " " + clock(wall, room);
  };
  std::string first = on_day(from);
  const bool until_midnight = until == units::LocalTime{date + std::chrono::days{1}};
  const std::string last = until_midnight ? clock(until, room) : on_day(until);
  if (room == Room::page) return first + " to " + last;
  const bool same_half = day_of(from) == day_of(until) && ends_with_half(first) && ends_with_half(last) &&
                         first.substr(first.size() - 2) == last.substr(last.size() - 2);
  if (same_half) first.resize(first.size() - 2);
  return first + "-" + last;
}

std::string hazard(days::HoldCode code, double worst, UnitSystem units) {
  const bool us = units == UnitSystem::us;
  const auto degrees = [&] { return us ? whole(units::us::fahrenheit(worst)) + " F" : whole(worst) + " C"; };
  switch (code) {
    case days::HoldCode::thunder:
      return "thunder";
    case days::HoldCode::gusts:
      if (worst <= 0.0) return "gusts";
      return "gusts to " + (us ? whole(units::us::miles_per_hour(worst)) + " mph" : whole(worst) + " m/s");
    case days::HoldCode::heat:
      return "heat to " + degrees();
    case days::HoldCode::flood:
      return "flood";
    case days::HoldCode::freeze:
      return "ice or frost";
    case days::HoldCode::cold_soil:
      return "cold soil, " + degrees();
    case days::HoldCode::standing_water:
      return "flare under water";
    case days::HoldCode::leaves_not_out:
      return "leaves not out";
    case days::HoldCode::wet_crown:
      break;
  }
  return "leaves wet";
}

std::string what_to_do(days::HoldCode code, bool short_words) {
  switch (code) {
    case days::HoldCode::thunder:
      return short_words ? "valves shut, into truck, lines on" : "valves shut, into truck, lines stay on, back 30 min after last thunder";
    case days::HoldCode::gusts:
      return short_words ? "out from under limbs" : "valves shut, out from under limbs";
    case days::HoldCode::heat:
      return "no work, heat rules";
    case days::HoldCode::flood:
      return "off low ground";
    case days::HoldCode::freeze:
      return "lines freeze, mind footing";
    case days::HoldCode::cold_soil:
    case days::HoldCode::leaves_not_out:
    case days::HoldCode::wet_crown:
      return "tree will not drink";
    case days::HoldCode::standing_water:
      break;
  }
  return "drill nothing";
}

}  // namespace text
