#include "app/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "air/humidity.h"
#include "text/email.h"
#include "text/say.h"
#include "units/us_customary.h"

namespace app::words {
namespace {

bool us(UnitSystem units) { return units == UnitSystem::us; }

}  // namespace

std::string verdict(days::Verdict verdict) { return text::verdict(verdict); }

std::string verdict_key(days::Verdict verdict) {
  switch (verdict) {
    case days::Verdict::go:
      return "go";
    case days::Verdict::tight:
      return "tight";
    case days::Verdict::no_go:
      break;
  }
  return "no_go";
}

std::string chance(double chance) { return text::chance(chance); }

std::string clock(units::LocalTime wall) { return text::clock(wall, text::Room::page); }

std::string day(units::LocalDay day) { return text::day(day); }

std::string dated(units::LocalDay day) {
  return words::day(day) + fmt::format(" {}", static_cast<int>(std::chrono::year_month_day{day}.year()));
}

std::string moment(units::LocalTime wall) { return units::to_text(std::chrono::floor<std::chrono::days>(wall)) + " " + clock(wall); }

std::string duration(double hours) { return text::duration(hours); }

std::string takes(const days::Quantiles& h) { return text::takes(h, text::Room::page); }

std::string amount(double litres, UnitSystem units) { return text::amount(litres, units); }
std::string pressure(double kpa, UnitSystem units) {
  return us(units) ? fmt::format("{:.0f} psi", units::us::psi(kpa)) : fmt::format("{:.0f} kPa", kpa);
}
std::string diameter(double cm, UnitSystem units) {
  return us(units) ? fmt::format("{:.0f} in", units::us::inches(cm)) : fmt::format("{:.0f} cm", cm);
}
std::string length(double metres, UnitSystem units) {
  return us(units) ? fmt::format("{:.0f} ft", units::us::feet(metres)) : fmt::format("{:.1f} m", metres);
}
std::string temperature(double celsius, UnitSystem units) {
  return us(units) ? fmt::format("{:.0f} F", units::us::fahrenheit(celsius)) : fmt::format("{:.0f} C", celsius);
}
std::string speed(double metres_per_second, UnitSystem units) {
  return us(units) ? fmt::format("{:.0f} mph", units::us::miles_per_hour(metres_per_second)) : fmt::format("{:.0f} m/s", metres_per_second);
}
std::string depth(double millimetres, UnitSystem units) {
  return us(units) ? fmt::format("{:.1f} in", units::us::inches(millimetres / 10.0)) : fmt::format("{:.0f} mm", millimetres);
}

std::string bit(double millimetres, UnitSystem units) {
  if (!us(units)) return fmt::format("{:.0f} mm", millimetres);
  long over = std::lround(32.0 * units::us::inches(millimetres / 10.0)), under = 32;
  while (under > 1 && over % 2 == 0) {
    over /= 2;
    under /= 2;
  }
  return under == 1 ? fmt::format("{} in", over) : fmt::format("{}/{} in", over, under);
}

std::string hold_key(days::HoldCode code) {
  switch (code) {
    case days::HoldCode::thunder:
      return "thunder";
    case days::HoldCode::gusts:
      return "gusts";
    case days::HoldCode::heat:
      return "heat";
    case days::HoldCode::flood:
      return "flood";
    case days::HoldCode::freeze:
      return "freeze";
    case days::HoldCode::cold_soil:
      return "cold_soil";
    case days::HoldCode::standing_water:
      return "standing_water";
    case days::HoldCode::leaves_not_out:
      return "leaves_not_out";
    case days::HoldCode::wet_crown:
      break;
  }
  return "wet_crown";
}

namespace {

std::string hazard(const days::Hold& hold, UnitSystem units) {
  switch (hold.code) {
    case days::HoldCode::thunder:
      return "thunder: valves shut, people into the truck, lines stay on";
    case days::HoldCode::gusts:
      return fmt::format("{}: dead limbs over people", hold.worst > 0.0 ? "gusts to " + speed(hold.worst, units) : "gusts");
    case days::HoldCode::heat:
      return fmt::format("heat to {}", temperature(hold.worst, units));
    case days::HoldCode::flood:
      return "flood: off low ground, ways in and out may close";
    case days::HoldCode::freeze:
      return "ice or frost: lines and footing";
    case days::HoldCode::cold_soil:
      return fmt::format("cold soil, {}", temperature(hold.worst, units));
    case days::HoldCode::standing_water:
      return "flare holes would stand in water";
    case days::HoldCode::leaves_not_out:
      return "leaves not out";
    case days::HoldCode::wet_crown:
      break;
  }
  return "leaves wet all day";
}

}  // namespace

std::string hold(const days::Hold& hold, UnitSystem units) {
  const std::string text = hazard(hold, units);
  return hold.warning.empty() ? text : fmt::format("{} (weather service: {})", text, hold.warning);
}

std::string watch(const weather::Alert& alert) { return alert.event + " of the weather service: it may come, look again before you leave"; }

std::string factor_key(days::Factor factor) {
  switch (factor) {
    case days::Factor::soil_water:
      return "soil_water";
    case days::Factor::dryness:
      return "dryness";
    case days::Factor::sky:
      return "sky";
    case days::Factor::wet_leaves:
      return "wet_leaves";
    case days::Factor::temperature:
      return "temperature";
    case days::Factor::leaf_state:
      break;
  }
  return "leaf_state";
}

std::string reason(const days::Reason& reason, const days::DayAnswer& day, const days::DayKind& good_day) {
  const bool costs = reason.hours > 0.0;
  const auto name = [&]() -> std::string {
    switch (reason.factor) {
      case days::Factor::soil_water:
        if (!costs) return "moist soil";
        return day.conditions.rew < good_day.rew ? "dry soil" : "soaked soil";
      case days::Factor::dryness: {
        // A good day's deficit, from its own temperature and humidity, stands between damp and parched.
        const double good_kpa =
            air::vapour_pressure_deficit(units::Celsius{good_day.temp_high_c}, units::Fraction{good_day.rh_at_high_pct / 100.0}).value;
        return day.conditions.vpd_kpa_max < good_kpa ? (costs ? "damp air" : "milder air") : (costs ? "parched air" : "dry air");
      }
      case days::Factor::sky:
        return costs ? "cloud" : "strong sun";
      case days::Factor::wet_leaves:
        return "wet leaves";
      case days::Factor::temperature:
        return day.conditions.temp_max_c > good_day.temp_high_c ? (costs ? "heat" : "warmth") : (costs ? "cool weather" : "mild weather");
      case days::Factor::leaf_state:
        break;
    }
    return costs ? "few leaves" : "a full crown";
  }();
  const bool several = name.ends_with("leaves");
  return fmt::format("{} {}{} {}", name, costs ? "cost" : "save", several ? "" : "s", duration(std::abs(reason.hours)));
}

std::string advice_key(days::AdviceCode code) {
  switch (code) {
    case days::AdviceCode::dig_before:
      return "dig_before";
    case days::AdviceCode::sprinklers_off:
      return "sprinklers_off";
    case days::AdviceCode::soak:
      return "soak";
    case days::AdviceCode::start_hour:
      return "start_hour";
    case days::AdviceCode::wider_window:
      break;
  }
  return "wider_window";
}

std::string advice(const days::Advice& advice, const days::AdviceLimits& limits, const units::ZoneOffsets& zone, UnitSystem units) {
  const auto at = [&](units::UtcTime t) { return clock(zone.to_local(t)); };
  const std::string hours = duration(advice.hours);
  std::string what, gain;
  bool warns = false;  // tells of the loss, not of the gain
  switch (advice.code) {
    case days::AdviceCode::dig_before:
      what = "Dig the flare the day before and " +
             (advice.arrive > advice.arrive_otherwise ? "arrive at " + at(advice.arrive) : "open the valves at " + at(advice.valves_open));
      gain = "saves " + hours + " on site";
      break;
    case days::AdviceCode::sprinklers_off:
      what = "If there are sprinklers, keep them off that morning";
      gain = "wet leaves would cost " + hours;
      warns = true;
      break;
    case days::AdviceCode::soak:
      what = fmt::format("Soak the root zone on {} with {} of water", day(*advice.soak_on), depth(limits.soak_mm, units));
      gain = "saves " + hours;
      break;
    case days::AdviceCode::start_hour:
      what = "Arrive at " + at(advice.arrive) + ", not at " + at(advice.arrive_otherwise);
      gain = "the tree drinks " + hours + " faster";
      warns = true;
      break;
    case days::AdviceCode::wider_window:
      what = "Arrive at " + at(advice.arrive) + ", outside your hours";
      gain = "the tree drinks " + hours + " faster";
  }
  std::string said = advice.hours >= limits.worth_h ? gain : "";
  if (advice.betters)
    said += (said.empty() ? "" : "; ") + (warns ? "else " + verdict(advice.verdict_otherwise) + ", " + chance(advice.chance_otherwise)
                                                : "then " + verdict(advice.verdict) + ", " + chance(advice.chance));
  return what + ": " + said + ".";
}

std::string wait(const days::Wait& wait, const units::ZoneOffsets& zone) {
  std::string names;
  for (std::size_t i = 0; i < wait.contenders.size(); ++i)
    names += (i == 0 ? "" : i + 1 == wait.contenders.size() ? " and " : ", ") + day(wait.contenders[i]);
  const units::LocalTime decide = zone.to_local(wait.decide_by);
  return fmt::format("{} are close: decide by {} {}, a fresher forecast is worth about {} of crew time.", names,
                     day(std::chrono::floor<std::chrono::days>(decide)), clock(decide), duration(wait.gain_h));
}

std::string cautions() { return text::cautions(); }

}  // namespace app::words
