#include "params/bind.h"

namespace params {
namespace {

void bind_set_up(Section& s, days::SetUp& to) {
  to.dose_l_per_cm = s.number("dose", "L/cm");
  to.flush_share = s.number("flush_share", "1");
  to.port_spacing_cm = s.number("port_spacing", "cm");
  to.flare_factor = s.uncertain("flare_factor", "1");
  to.pressure_kpa = s.number("pressure", "kPa");
  to.tank_l = s.number("tank", "L");
  to.tank_sure = s.number("tank_sure", "1");
}

void bind_phases(Section& s, days::Phases& to) {
  to.dig_h = s.number("dig", "h");
  to.dig_h_per_m = s.number("dig_per_m", "h/m");
  to.layout_h = s.number("layout", "h");
  to.drill_h_per_port = s.number("drill_per_port", "h");
  to.leak_check_h = s.number("leak_check", "h");
  to.mix_h_per_tank = s.number("mix_per_tank", "h");
  to.tear_down_h = s.number("tear_down", "h");
  to.tear_down_h_per_port = s.number("tear_down_per_port", "h");
  to.ln_sd = s.number("ln_sd", "1");
}

void bind_day(Section& s, days::WorkDay& to) {
  to.earliest_start_h = s.number("earliest_start", "h");
  to.latest_start_h = s.number("latest_start", "h");
  to.off_site_h = s.number("off_site", "h");
  to.start_step_h = s.number("start_step", "h");
  s.in_order("earliest_start", to.earliest_start_h, "latest_start", to.latest_start_h);
  s.in_order("latest_start", to.latest_start_h, "off_site", to.off_site_h);
}

void bind_decision(Section& s, days::Decision& to) {
  to.go_chance = s.number("go_chance", "1");
  to.tight_chance = s.number("tight_chance", "1");
  to.return_cost_h = s.number("return_cost", "h");
  to.tie_sureness = s.number("tie_sureness", "1");
  to.tie_least_h = s.number("tie_least", "h");
  to.worth_waiting_h = s.number("worth_waiting", "h");
  to.decide_h = s.number("decide", "h");
  to.fresh_forecast_h = s.number("fresh_forecast", "h");
  to.reserve_sureness = s.number("reserve_sureness", "1");
  to.oldest_forecast_h = s.number("oldest_forecast", "h");
  s.in_order("tight_chance", to.tight_chance, "go_chance", to.go_chance);
}

void bind_good_day(Section& s, days::DayKind& to) {
  to.temp_low_c = s.number("temp_low", "degC");
  to.temp_high_c = s.number("temp_high", "degC");
  to.rh_at_high_pct = s.number("rh_at_high", "%");
  to.cloud_pct = s.number("cloud", "%");
  to.rew = s.number("rew", "1");
  to.soil_temp_c = s.number("soil_temp", "degC");
  s.in_order("temp_low", to.temp_low_c, "temp_high", to.temp_high_c);
}

void bind_advice(Section& s, days::AdviceLimits& to) {
  to.worth_h = s.number("worth", "h");
  to.worth_chance = s.number("worth_chance", "1");
  to.wetted_share = s.number("wetted_share", "1");
  to.soak_mm = s.number("soak", "mm");
  to.soak_days_before = s.number("soak_days_before", "d");
  to.window_reach_h = s.number("window_reach", "h");
}

void bind_port_places(Section& s, book::PlaceRules& to) {
  to.beside_cm = s.number("beside", "cm");
  to.in_line_multiple = s.number("in_line_multiple", "1");
  to.leaked_multiple = s.number("leaked_multiple", "1");
  to.floor_share = s.number("floor_share", "1");
  to.least_gap_share = s.number("least_gap_share", "1");
  to.most_gap_share = s.number("most_gap_share", "1");
  to.bad_margin_cm = s.number("bad_margin", "cm");
  to.height_low_cm = s.number("height_low", "cm");
  to.height_high_cm = s.number("height_high", "cm");
  s.in_order("height_low", to.height_low_cm, "height_high", to.height_high_cm);
}

void bind_readings(Section& s, days::TankReadings& to) {
  to.error.mark_l = s.number("tank_mark", "L");
  to.error.tail = s.number("tail", "1");
  to.error.least_draws = s.number("least_draws", "1");
  to.error.odd_chance = s.number("odd_chance", "1");
  to.rate_over_h = s.number("rate_over", "h");
}

days::ByLead by_lead(Section& file, std::string_view name, std::string_view unit) {
  days::ByLead result;
  for (const auto& [lead, value] : file.series(name, "d", unit)) {
    result.lead_d.push_back(lead);
    result.value.push_back(value);
  }
  return result;
}

void bind_rain(Section& s, days::WeatherError& error) {
  error.rain_hit = by_lead(s, "hit", "1");
  error.rain_missed = by_lead(s, "missed", "1");
  error.rain_usual = s.number("usual", "1");
  error.rain_least_chance = s.number("least_chance", "1");
  error.rain_hour_mm = s.number("hour", "mm");
  error.rain_ln_sd = s.number("ln_sd", "1");
  error.rain_with_cloud = s.number("with_cloud", "1");
  error.rain_unresolved = by_lead(s, "unresolved", "1");
}

}  // namespace

void bind_practice(Section& file, days::Practice& practice, book::PlaceRules& port_places) {
  file.section("set_up", [&](Section& s) { bind_set_up(s, practice.set_up); });
  file.section("phases", [&](Section& s) { bind_phases(s, practice.phases); });
  file.section("day", [&](Section& s) { bind_day(s, practice.day); });
  file.section("decision", [&](Section& s) { bind_decision(s, practice.decision); });
  file.section("good_day", [&](Section& s) { bind_good_day(s, practice.good_day); });
  file.section("advice", [&](Section& s) { bind_advice(s, practice.advice); });
  file.section("port_places", [&](Section& s) { bind_port_places(s, port_places); });
  file.section("readings", [&](Section& s) { bind_readings(s, practice.readings); });
}

void bind_holds(Section& file, days::HoldLimits& holds) {
  holds.gust_m_s = file.number("gust", "m/s");
  holds.heat_c = file.number("heat", "degC");
  holds.heat_warned_c = file.number("heat_warned", "degC");
  holds.soil_cold_c = file.number("soil_cold", "degC");
  holds.thunder_pct = file.number("thunder", "%");
  holds.thunder_clear_h = file.number("thunder_clear", "h");
  holds.standing_water_h = file.number("standing_water", "h");
  holds.leaf_share = file.number("leaf_share", "1");
  holds.wet_crown_share = file.number("wet_crown_share", "1");
  holds.wet_day_h = file.number("wet_day", "h");
}

void bind_weather_error(Section& file, days::WeatherError& error) {
  error.temperature_sd_c = by_lead(file, "temperature", "degC");
  error.dew_point_correlation = file.number("dew_point_correlation", "1");
  error.cloud_sd_pct = by_lead(file, "cloud", "%");
  error.cloud_usual_pct = file.number("cloud_usual", "%");
  error.cloud_usual_by_d = file.number("cloud_usual_by", "d");
  error.day_to_day = file.number("day_to_day", "1");
  file.section("rain", [&](Section& s) { bind_rain(s, error); });
}

}  // namespace params
