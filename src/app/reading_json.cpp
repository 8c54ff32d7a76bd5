#include <nlohmann/json.hpp>

#include "app/reading_command.h"
#include "app/json_parts.h"
#include "app/words.h"
#include "days/clock.h"

namespace app {
namespace {

using Json = nlohmann::ordered_json;

Json warning(const ReadingReport& report) {
  if (!report.now.odd) return nullptr;
  const auto& odd = *report.now.odd;
  const auto at = report.tree.tree.zone.to_local(report.readings[odd.index].at);
  return {{"code", odd.above ? "above" : "below"},
          {"beyond_any_tree", odd.never},
          {"at_local", units::to_text(at)},
          {"text", odd_reading_text(report, UnitSystem::si)}};
}

}  // namespace

std::string tank_advice_key(days::TankAdvice advice) {
  switch (advice) {
    case days::TankAdvice::nothing_left:
      return "nothing_left";
    case days::TankAdvice::mix:
      return "mix";
    case days::TankAdvice::mix_part:
      return "mix_part";
    case days::TankAdvice::do_not_mix:
      break;
  }
  return "do_not_mix";
}

std::string reading_json(const ReadingReport& report) {
  const days::TreeNow& now = report.now;
  const auto local = [&](units::UtcTime t) { return units::to_text(report.tree.tree.zone.to_local(t)); };
  const auto clocks = [&](const days::Quantiles& hours) {
    const auto clock = [&](const std::optional<double>& h) { return h ? Json(local(days::later_by(report.opened, *h))) : Json(nullptr); };
    return Json{{"p10", clock(hours.p10)}, {"p50", clock(hours.p50)}, {"p90", clock(hours.p90)}};
  };
  Json readings = Json::array();
  for (const TankReading& reading : report.readings)
    readings.push_back({{"at_local", local(reading.at)}, {"taken_l", reading.taken.value}});

  Json json;
  json["tree"] = report.tree.row.tree;
  json["name"] = report.tree.row.name;
  json["at_local"] = report.at() ? Json(local(*report.at())) : Json(nullptr);
  json["opened_local"] = local(report.opened);
  json["dose_l"] = report.tree.tree.subject.dose.value;
  json["dose_from"] = report.tree.dose_from;
  json["taken_l"] = report.taken().value;
  json["readings"] = std::move(readings);
  json["finish_local"] = clocks(now.finish_h);
  json["finish_h"] = quantiles_json(now.finish_h);
  json["before"] = quantiles_json(now.before_h);
  json["before_local"] = clocks(now.before_h);
  json["normal_now_l"] = quantiles_json(now.normal_l);
  json["normal_rate_l_h"] = quantiles_json(now.normal_l_h);
  json["rate_l_h"] = number_or_null(now.rate_l_h);
  json["valves_shut_by_local"] = local(report.shut_by);
  json["chance_to_finish"] = now.chance_to_finish;
  json["chance_before"] = now.chance_before;
  json["mc_error"] = now.mc_error;
  json["effective_draws"] = now.effective_draws;
  json["trust"] = now.trust;
  json["sure_l_before_shut"] = now.sure_l;
  json["tank"] = {{"advice", tank_advice_key(now.tank)}, {"mix_l", now.mix_l}, {"mixed_l", now.mixed_l}};
  json["hold"] = report.hold ? Json{{"code", words::hold_key(report.hold->code)},
                                    {"from_local", local(report.hold->from)},
                                    {"until_local", local(report.hold->until)},
                                    {"text", words::hold(*report.hold, UnitSystem::si)}}
                             : Json(nullptr);
  json["warning"] = warning(report);
  json["weather"] = {{"source", report.source},
                     {"credit", report.credit},
                     {"issued_at", report.issued_at ? Json(units::to_text(*report.issued_at)) : Json(nullptr)}};
  json["notes"] = report.notes;
  json["cautions"] = words::cautions();
  return json.dump(2) + "\n";
}

}  // namespace app
