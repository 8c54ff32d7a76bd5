#include <nlohmann/json.hpp>

#include "app/sheet.h"
#include "app/words.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;

Json quantiles(const days::Quantiles& q) {
  const auto or_null = [](const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); };
  return {{"p10", or_null(q.p10)}, {"p50", or_null(q.p50)}, {"p90", or_null(q.p90)}};
}

Json day(const Sheet& sheet) {
  if (!sheet.answer) return sheet.day ? Json{{"date", units::to_text(*sheet.day)}} : Json(nullptr);
  const days::DayAnswer& answer = *sheet.answer;
  const auto local = [&](units::UtcTime t) { return units::to_text(sheet.tree.tree.zone.to_local(t)); };
  Json holds = Json::array();
  for (const days::Hold& hold : answer.holds)
    holds.push_back({{"code", words::hold_key(hold.code)},
                     {"from_local", local(hold.from)},
                     {"until_local", local(hold.until)},
                     {"text", words::hold(hold, UnitSystem::si)}});
  return {{"date", units::to_text(answer.date)},
          {"verdict", words::verdict_key(answer.verdict)},
          {"chance_to_finish", answer.chance_to_finish},
          {"uptake_h", quantiles(answer.uptake_h)},
          {"start_local", local(answer.arrive)},
          {"valves_open_local", local(answer.valves_open)},
          {"valves_shut_by_local", local(answer.valves_shut_by)},
          {"off_site_by_local", local(answer.off_site_by)},
          {"sure_tanks", answer.sure_tanks},
          {"holds", std::move(holds)}};
}

Json places(const book::PortPlaces& plan) {
  Json list = Json::array();
  for (const book::Place& place : plan.places)
    list.push_back({{"n", list.size() + 1}, {"clockwise_cm", place.clockwise_cm}, {"height_cm", place.height_cm}});
  return list;
}

}  // namespace

std::string sheet_json(const Sheet& sheet) {
  const days::JobTime& t = sheet.time;
  Json json;
  json["tree"] = sheet.tree.row.tree;
  json["name"] = sheet.tree.row.name;
  json["species"] = sheet.tree.species.latin;
  json["dbh_cm"] = sheet.tree.row.dbh.value;
  json["trunk_circumference_m"] = sheet.trunk_circumference_m;
  json["flare_circumference_m"] = sheet.flare_circumference_m;
  if (!sheet.place.empty()) json["place"] = sheet.place;
  json["draft"] = sheet.draft;
  json["dose_l"] = sheet.dose_l;
  json["dose_from"] = sheet.tree.dose_from;
  json["flush_l"] = sheet.flush_l;
  json["tanks"] = {{"count", sheet.tanks}, {"each_l", sheet.tank_l}, {"last_l", sheet.last_tank_l}};
  json["ports"] = {{"count", sheet.ports},
                   {"spacing_cm", sheet.port_spacing_cm},
                   {"hole_diameter_mm", sheet.hole_diameter_mm},
                   {"hole_depth_mm", sheet.hole_depth_mm},
                   {"pressure_kpa", sheet.pressure_kpa}};
  json["where"] = where_ports_go();
  json["port_places"] = places(sheet.plan.places);
  json["port_places_complete"] = sheet.plan.places.complete;
  json["port_places_say"] = port_plan_says(sheet.plan, UnitSystem::si);
  json["phases_h"] = {{"dig", t.dig.value}, {"layout", t.layout.value},      {"drill", t.drill.value}, {"leak_check", t.leak_check.value},
                      {"mix", t.mix.value}, {"tear_down", t.tear_down.value}};
  json["day"] = day(sheet);
  json["order"] = order_of_work(sheet, UnitSystem::si);
  json["bring"] = things_to_bring(sheet, UnitSystem::si);
  json["cautions"] = words::cautions();
  return json.dump(2) + "\n";
}

}  // namespace app
