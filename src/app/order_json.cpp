#include "app/order_json.h"

#include <array>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "app/json_parts.h"
#include "app/words.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::array hold_codes{days::HoldCode::thunder,        days::HoldCode::gusts,          days::HoldCode::heat,
                                days::HoldCode::flood,          days::HoldCode::freeze,         days::HoldCode::cold_soil,
                                days::HoldCode::standing_water, days::HoldCode::leaves_not_out, days::HoldCode::wet_crown};
constexpr std::array verdicts{days::Verdict::go, days::Verdict::tight, days::Verdict::no_go};

Json valves_json(const std::optional<text::Valves>& valves) {
  return valves ? Json{{"open_local", units::to_text(valves->open)}, {"shut_by_local", units::to_text(valves->shut_by)}} : Json(nullptr);
}

Json holds_json(const std::vector<text::OrderHold>& holds) {
  Json all = Json::array();
  for (const text::OrderHold& hold : holds)
    all.push_back({{"code", words::hold_key(hold.code)},
                   {"from_local", units::to_text(hold.from)},
                   {"until_local", units::to_text(hold.until)},
                   {"worst", hold.worst}});
  return all;
}

Json stop_json(const text::Stop& stop) {
  return {{"name", stop.name},
          {"code", stop.code},
          {"address", stop.address},
          {"arrive_local", units::to_text(stop.arrive)},
          {"off_site_by_local", units::to_text(stop.off_site_by)},
          {"valves", valves_json(stop.valves)},
          {"verdict", words::verdict_key(stop.verdict)},
          {"chance", stop.chance},
          {"uptake_h", quantiles_json(stop.takes_h)},
          {"mix_l", stop.mix_l},
          {"flush_l", stop.flush_l},
          {"ports", stop.ports},
          {"tanks", stop.tanks},
          {"water", stop.water},
          {"haul_l", stop.haul_l},
          {"gate", stop.gate},
          {"dog", stop.dog},
          {"home", stop.home},
          {"prep", stop.prep},
          {"holds", holds_json(stop.holds)},
          {"safety", stop.safety}};
}

units::LocalTime wall_clock(const Json& json) {
  const auto instant = units::parse_instant(json.get<std::string>() + "Z");
  if (!instant) throw std::invalid_argument{"expected a wall clock time as YYYY-MM-DDTHH:MM"};
  return units::LocalTime{instant->time_since_epoch()};
}

// The one of `all` whose key `key_of` gives.
template <class Value, std::size_t count, class KeyOf>
Value keyed(const std::array<Value, count>& all, const Json& json, KeyOf key_of) {
  const auto key = json.get<std::string>();
  for (const Value value : all)
    if (key_of(value) == key) return value;
  throw std::invalid_argument{"unknown word '" + key + "'"};
}

std::optional<double> optional_number(const Json& json) { return json.is_null() ? std::nullopt : std::optional{json.get<double>()}; }

text::OrderHold hold_from(const Json& json) {
  return {keyed(hold_codes, json.at("code"), words::hold_key), wall_clock(json.at("from_local")), wall_clock(json.at("until_local")),
          json.at("worst").get<double>()};
}

text::Stop stop_from(const Json& json) {
  text::Stop stop;
  stop.name = json.at("name");
  stop.code = json.at("code");
  stop.address = json.at("address");
  stop.arrive = wall_clock(json.at("arrive_local"));
  stop.off_site_by = wall_clock(json.at("off_site_by_local"));
  if (const Json& valves = json.at("valves"); !valves.is_null())
    stop.valves = text::Valves{wall_clock(valves.at("open_local")), wall_clock(valves.at("shut_by_local"))};
  stop.verdict = keyed(verdicts, json.at("verdict"), words::verdict_key);
  stop.chance = json.at("chance");
  const Json& takes = json.at("uptake_h");
  stop.takes_h = {optional_number(takes.at("p10")), optional_number(takes.at("p50")), optional_number(takes.at("p90"))};
  stop.mix_l = json.at("mix_l");
  stop.flush_l = json.at("flush_l");
  stop.ports = json.at("ports");
  stop.tanks = json.at("tanks");
  stop.water = json.at("water");
  stop.haul_l = json.at("haul_l");
  stop.gate = json.at("gate");
  stop.dog = json.at("dog");
  stop.home = json.at("home");
  stop.prep = json.at("prep").get<std::vector<std::string>>();
  for (const Json& hold : json.at("holds")) stop.holds.push_back(hold_from(hold));
  stop.safety = json.at("safety").get<std::vector<std::string>>();
  return stop;
}

text::CrewOrder order_from(const Json& json) {
  text::CrewOrder order;
  order.crew = json.at("crew");
  const auto date = units::parse_day(json.at("date").get<std::string>());
  if (!date) throw std::invalid_argument{"expected a day as YYYY-MM-DD"};
  order.date = *date;
  order.units = json.at("units") == "si" ? UnitSystem::si : UnitSystem::us;
  for (const Json& stop : json.at("stops")) order.stops.push_back(stop_from(stop));
  order.call = json.at("call");
  order.changed = json.at("changed").get<std::vector<std::string>>();
  order.weather_age_h = optional_number(json.at("weather_age_h"));
  order.weather_too_old = json.at("weather_too_old");
  return order;
}

}  // namespace

std::string order_json(const text::CrewOrder& order) {
  Json stops = Json::array();
  for (const text::Stop& stop : order.stops) stops.push_back(stop_json(stop));
  return Json{{"crew", order.crew},
              {"date", units::to_text(order.date)},
              {"units", order.units == UnitSystem::si ? "si" : "us"},
              {"stops", std::move(stops)},
              {"call", order.call},
              {"changed", order.changed},
              {"weather_age_h", number_or_null(order.weather_age_h)},
              {"weather_too_old", order.weather_too_old}}
      .dump(-1, ' ', false, Json::error_handler_t::replace);
}

units::Result<text::CrewOrder> order_from_json(const std::string& where, const std::string& json) {
  try {
    return order_from(Json::parse(json));
  } catch (const std::exception& failure) {  // the library's, and ours above: all say what does not fit
    return units::fault(where, "", std::string{"expected a crew's order: "} + failure.what());
  }
}

}  // namespace app
