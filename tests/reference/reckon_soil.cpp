#include "reckon_soil.h"

#include <string_view>

#include "soil/fao56_soil_water.h"
#include "soil/pedotransfer.h"
#include "soil/retention.h"
#include "support/soil_fixture.h"

namespace reference {
namespace {

using namespace soil;
using units::Metres;
using units::Millimetres;

SoilReckoned class_means() {
  SoilReckoned r;
  for (const Texture& t : soil_fixture::textures()) {
    r["theta_r"].push_back(t.theta_r);
    r["theta_s"].push_back(t.theta_s);
    r["alpha"].push_back(t.alpha_per_cm);
    r["n"].push_back(t.n);
    r["Ks"].push_back(t.ks_cm_per_day);
    r["Ks_cm_h"].push_back(0.1 * conductivity_mm_per_h(t, t.theta_s));
  }
  return r;
}

SoilReckoned marks() {
  SoilReckoned r;
  for (const Texture& t : soil_fixture::textures()) {
    r["theta_33kPa"].push_back(theta_at_suction(t, 33.0 / kpa_per_cm));
    r["theta_1500kPa"].push_back(theta_at_suction(t, 1500.0 / kpa_per_cm));
  }
  return r;
}

SoilReckoned curve(const Check& check) {
  SoilReckoned r;
  const Texture t = soil_fixture::texture(check.text_input("texture"));
  for (double h_m : check.inputs("h_m")) r["theta"].push_back(theta_at_suction(t, 100.0 * h_m));
  return r;
}

SoilReckoned composition(const Check& check) {
  SoilReckoned r;
  const auto sand = check.inputs("sand_pct"), clay = check.inputs("clay_pct");
  for (std::size_t i = 0; i < sand.size(); ++i) {
    const SaxtonRawls s = saxton_rawls({sand[i] / 100.0, clay[i] / 100.0, check.input("OM_pct_w")}).value();
    r["theta_1500"].push_back(s.theta_1500);
    r["theta_33"].push_back(s.theta_33);
    r["theta_s"].push_back(s.theta_s);
    r["Ks"].push_back(s.ks_mm_per_h);
  }
  return r;
}

// The evaporable waters in use, kept inside the printed range: what is returned is the range's end, or the value that left it.
SoilReckoned table_19(const Check& check) {
  SoilReckoned r;
  for (const std::string& key : check.text_inputs("texture")) {
    const Texture t = soil_fixture::texture(key);
    const std::size_t row = r["REW_low"].size();
    const auto put = [&](const char* low, const char* high, double value) {
      r[low].push_back(std::min(value, check.expected_list(low)[row]));
      r[high].push_back(std::max(value, check.expected_list(high)[row]));
    };
    put("REW_low", "REW_high", t.readily_evaporable_mm);
    put("TEW_low", "TEW_high", t.total_evaporable_mm);
  }
  return r;
}

SoilReckoned depletion_share(const Check& check) {
  SoilReckoned r;
  const auto p = check.inputs("p_table"), etc = check.inputs("ETc_mm_day");
  for (std::size_t i = 0; i < p.size(); ++i) r["p"].push_back(fao56::adjusted_depletion_share(p[i], Millimetres{etc[i]}));
  return r;
}

SoilReckoned example_36(const Check& check) {
  const double fc = check.input("theta_FC"), wp = check.input("theta_WP");
  const double taw = fao56::total_available_water(fc, wp, Metres{check.input("Zr_m")}).value;
  return {{"avail_mm_per_m", {fao56::total_available_water(fc, wp, Metres{1.0}).value}}, {"TAW", {taw}}, {"RAW", {check.input("p") * taw}}};
}

SoilReckoned example_37(const Check& check) {
  SoilReckoned r;
  const double p = check.input("p");
  const Millimetres total = fao56::total_available_water(check.input("theta_FC"), check.input("theta_WP"), Metres{check.input("Zr_m")});
  const double etc = check.input("Kc") * check.input("ETo_mm_day");
  r["TAW"] = {total.value};
  r["RAW"] = {p * total.value};
  Millimetres depletion{check.input("Dr_start_mm")};
  for (std::size_t day = 0; day < check.expected_list("Ks").size(); ++day) {
    const double ks = fao56::stress_coefficient(total, depletion, p);
    depletion = fao56::daily_balance(depletion, Millimetres{0.0}, Millimetres{ks * etc}, total).end;
    r["ETc"].push_back(etc);
    r["Ks"].push_back(ks);
    r["ETc_adj"].push_back(ks * etc);
    r["Dr_end"].push_back(depletion.value);
  }
  return r;
}

SoilReckoned example_31(const Check& check) {
  SoilReckoned r;
  const Millimetres tew{check.input("TEW_mm")}, rew{check.input("REW_mm")};
  const double kcb = check.input("Kcb"), eto = check.input("ETo_mm_day");
  Millimetres depletion{0.0};
  for (std::size_t day = 0; day < check.expected_list("Kr").size(); ++day) {
    const double kr = fao56::evaporation_reduction(depletion, rew, tew);
    const double ke = fao56::evaporation_coefficient(kr, kcb, check.input("Kc_max"), check.input("few"));
    depletion = fao56::water_then_loss(depletion, Millimetres{0.0}, Millimetres{ke * eto}, tew).end;
    r["Kr"].push_back(kr);
    r["Ke"].push_back(ke);
    r["E"].push_back(ke * eto);
    r["De_end"].push_back(depletion.value);
    r["ETc"].push_back((kcb + ke) * eto);
  }
  return r;
}

SoilReckoned examples_32_to_34(const Check& check) {
  const double kcb = check.input("Kcb");
  const Metres height{check.input("h_m")};
  const double most = fao56::kc_max(kcb, {units::MetresPerSecond{check.input("u2_m_s")}, check.input("RHmin_pct"), height});
  const double covered = fao56::covered_share(kcb, check.input("Kc_min"), most, height);
  // Drip emitters lie under the canopy: the wetted share is reduced by 1 - 2/3 fc (text below eq. 75).
  const double wetted = check.input("fw") * (check.has_input("drip_factor") ? 1.0 - 2.0 / 3.0 * covered : 1.0);
  const double few = fao56::exposed_wet_share(covered, wetted);
  const double ke = fao56::evaporation_coefficient(check.input("Kr"), kcb, most, few);
  return {{"Kc_max", {most}}, {"fc", {covered}}, {"few", {few}}, {"Ke", {ke}}, {"few_Kcmax", {few * most}}, {"Kc", {kcb + ke}}};
}

SoilReckoned example_35(const Check& check) {
  SoilReckoned r;
  const Millimetres tew{check.input("TEW_mm")}, rew{check.input("REW_mm")};
  const auto eto = check.inputs("ETo"), rain = check.inputs("P_minus_RO"), irrigation = check.inputs("I_over_fw");
  const auto few = check.inputs("few"), kcb = check.inputs("Kcb");
  Millimetres depletion{check.input("De_initial_mm")};
  for (std::size_t day = 0; day < eto.size(); ++day) {
    // Water comes early in the day: evaporation is reckoned from the wetted surface.
    const Millimetres water{rain[day] + irrigation[day]};
    const auto wetted = fao56::water_then_loss(depletion, water, Millimetres{0.0}, tew);
    const double kr = fao56::evaporation_reduction(wetted.end, rew, tew);
    const double ke = fao56::evaporation_coefficient(kr, kcb[day], check.input("Kc_max"), few[day]);
    const double evaporated = ke * eto[day];
    depletion = fao56::water_then_loss(wetted.end, Millimetres{0.0}, Millimetres{evaporated / few[day]}, tew).end;
    r["De_start"].push_back(wetted.end.value);
    r["Kr"].push_back(kr);
    r["Ke"].push_back(ke);
    r["E_few"].push_back(evaporated / few[day]);
    r["DPe"].push_back(wetted.percolation.value);
    r["De_end"].push_back(depletion.value);
    r["E"].push_back(evaporated);
    r["Kc"].push_back(kcb[day] + ke);
    r["ETc"].push_back((kcb[day] + ke) * eto[day]);
  }
  return r;
}

SoilReckoned example_38(const Check& check) {
  SoilReckoned r;
  const auto zr = check.inputs("Zr_m"), rain = check.inputs("P_minus_RO"), irrigation = check.inputs("I_mm"), etc = check.inputs("ETc");
  const auto kcb = check.inputs("Kcb"), ke = check.inputs("Ke");
  Millimetres depletion{check.input("Dr_initial_mm")};
  for (std::size_t day = 0; day < zr.size(); ++day) {
    const Millimetres total = fao56::total_available_water(check.input("theta_FC"), check.input("theta_WP"), Metres{zr[day]});
    const auto wetted = fao56::water_then_loss(depletion, Millimetres{rain[day] + irrigation[day]}, Millimetres{0.0}, total);
    const double ks = fao56::stress_coefficient(total, wetted.end, check.input("p"));
    depletion = fao56::water_then_loss(wetted.end, Millimetres{0.0}, Millimetres{etc[day]}, total).end;
    r["RAW"].push_back(check.input("p") * total.value);
    r["Dr_start"].push_back(wetted.end.value);
    r["Ks"].push_back(ks);
    r["Kc"].push_back(ks * kcb[day] + ke[day]);
    r["DP"].push_back(wetted.percolation.value);
    r["Dr_end"].push_back(depletion.value);
  }
  return r;
}

}  // namespace

SoilReckoned soil_hydraulics(const Check& check) {
  const std::string_view id = check.id();
  if (id == "vg.carsel_parrish_1988") return class_means();
  if (id == "vg.theta_at_fc_wp_derived") return marks();
  if (id.starts_with("vg.theta_h.")) return curve(check);
  if (id == "sr2006.texture_table") return composition(check);
  return {};
}

SoilReckoned fao56_soil_water(const Check& check) {
  const std::string_view id = check.id();
  if (id == "t19.typical_soil_water") return table_19(check);
  if (id == "p_adjust") return depletion_share(check);
  if (id.starts_with("ex36.")) return example_36(check);
  if (id == "ex37.water_stress_tomato") return example_37(check);
  if (id == "ex31.bare_soil_evaporation") return example_31(check);
  if (id == "ex35.dual_kc") return example_35(check);
  if (id == "ex38.irrigation_schedule") return example_38(check);
  return examples_32_to_34(check);
}

}  // namespace reference
