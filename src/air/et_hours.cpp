#include "air/et_hours.h"

#include <algorithm>
#include <array>

#include "air/longwave.h"
#include "air/net_radiation.h"
#include "air/pressure.h"
#include "air/reference_et.h"
#include "air/saturation.h"
#include "air/shortwave.h"
#include "units/lanes_array.h"
#include "units/wide.h"

namespace air {
namespace {

using units::Lanes;

// The share of net radiation that warms no soil, and the wind's weight, by day and by night.
struct Surface {
  double cn, cd_day_s_m, cd_night_s_m, available_day, available_night;
};

double available(double soil_share) { return millimetres_per_megajoule * (1.0 - soil_share); }

Surface asce(const ReferenceSurface& day, const ReferenceSurface& night) {
  return {day.cn, day.cd_s_m, night.cd_s_m, available(day.soil_share), available(night.soil_share)};
}

// Numbers that are the same in every hour.
struct Constants {
  double kept_mj_per_w_m2, sigma_mj_k4_h, gamma_per_kpa;
  Surface fao56, asce_short, asce_tall;
};

Constants constants() {
  using units::MegajoulesPerSquareMetre;
  const double soil_day = soil_heat_hourly(MegajoulesPerSquareMetre{1.0}).value;
  const double soil_night = -soil_heat_hourly(MegajoulesPerSquareMetre{-1.0}).value;
  const ReferenceSurface& fao56 = fao56_hourly_grass;
  return {net_shortwave(MegajoulesPerSquareMetre{megajoules_per_watt_hour}).value,
          stefan_boltzmann_fao56.mj_k4_m2_d / 24.0,
          psychrometric_constant(units::Kilopascals{1.0}).value,
          {fao56.cn, fao56.cd_s_m, fao56.cd_s_m, available(soil_day), available(soil_night)},
          asce(short_reference(Step::hourly_day), short_reference(Step::hourly_night)),
          asce(tall_reference(Step::hourly_day), tall_reference(Step::hourly_night))};
}

// What the surfaces share in an hour.
struct Air {
  Lanes gamma, gamma_wind, net_radiation, drying;
  Lanes::Mask night;
};

// The Penman-Monteith fraction of one surface.
struct Sum {
  Lanes above, below;
};

SAPDRAW_INLINE Sum sum(const Air& air, const Surface& surface, Lanes slope) {
  const Lanes available_mm = air.net_radiation * select(air.night, surface.available_night, surface.available_day);
  const Lanes cd = select(air.night, surface.cd_night_s_m, surface.cd_day_s_m);
  return {slope * available_mm + surface.cn * air.drying, slope + (air.gamma + cd * air.gamma_wind)};
}

// Hours that are taken through one loop after the other. Each loop is short enough for the machine to work on several blocks at a
// time, which hides that every number waits for the one before.
constexpr std::size_t stretch = 256;
struct Stretch {
  std::array<double, stretch> growth, per_from_pole, per_kelvin;
};

SAPDRAW_INLINE void saturate(const double* temp_c, std::size_t hours, Stretch& s) {
  units::for_blocks(
      0, hours, [&](std::size_t at, auto count) __attribute__((always_inline)) {
        const Lanes t = units::load(temp_c + at, count), from_pole = t + saturation_pole_c, kelvin = t + 273.0;
        const Lanes per_both = 1.0 / (from_pole * kelvin);  // one division for two
        const SaturationTerms<Lanes> terms = saturation_terms<Lanes>(t, kelvin * per_both);
        units::store(terms.growth, s.growth.data() + at, count);
        units::store(terms.per_from_pole, s.per_from_pole.data() + at, count);
        units::store(from_pole * per_both, s.per_kelvin.data() + at, count);
      });
}

SAPDRAW_INLINE void evaporate(const EtInputs& in, const EtOutputs& out, const Constants& k, std::size_t from, std::size_t hours,
                              const Stretch& s) {
  units::for_blocks(
      0, hours, [&](std::size_t at, auto count) __attribute__((always_inline)) {
        const auto read = [&](std::span<const double> column) { return units::load(column.data() + from + at, count); };
        const auto write = [&](std::span<double> column, Lanes values) { units::store(values, column.data() + from + at, count); };
        const Lanes temp_c = read(in.temp_c);
        const SaturationTerms<Lanes> terms{units::load(s.growth.data() + at, count), units::load(s.per_from_pole.data() + at, count)};
        const Lanes saturation = saturation_kpa(terms), vapour = saturation * (read(in.rh_pct) * 0.01);
        Air air;
        air.net_radiation = read(in.shortwave_w_m2) * k.kept_mj_per_w_m2 -
                            k.sigma_mj_k4_h * kelvin_to_the_fourth(temp_c) * (sky_emissivity(vapour) * cloud_opening(read(in.sky_ratio)));
        air.night = air.net_radiation < 0.0;
        air.gamma = k.gamma_per_kpa * read(in.pressure_kpa);
        air.gamma_wind = air.gamma * read(in.wind_2m_m_s);
        air.drying = air.gamma_wind * max(saturation - vapour, 0.0) * units::load(s.per_kelvin.data() + at, count);
        const Lanes asce_slope = asce_saturation_slope_kpa_c(terms);
        const Sum fao56 = sum(air, k.fao56, saturation_slope_kpa_c(terms)), asce_short = sum(air, k.asce_short, asce_slope);
        const Lanes per_both = 1.0 / (fao56.below * asce_short.below);
        if (!out.net_radiation_mj_m2_h.empty()) write(out.net_radiation_mj_m2_h, air.net_radiation);
        if (!out.fao56_mm_h.empty()) write(out.fao56_mm_h, fao56.above * (asce_short.below * per_both));
        if (!out.asce_short_mm_h.empty()) write(out.asce_short_mm_h, asce_short.above * (fao56.below * per_both));
        if (!out.asce_tall_mm_h.empty()) {
          const Sum tall = sum(air, k.asce_tall, asce_slope);
          write(out.asce_tall_mm_h, tall.above / tall.below);
        }
      });
}

SAPDRAW_WIDE void fill(const EtInputs& in, const EtOutputs& out, const Constants& k) {
  Stretch s;
  for (std::size_t from = 0; from < in.temp_c.size(); from += stretch) {
    const std::size_t hours = std::min(stretch, in.temp_c.size() - from);
    saturate(in.temp_c.data() + from, hours, s);
    evaporate(in, out, k, from, hours, s);
  }
}

}  // namespace

void et_hours(const EtInputs& in, const EtOutputs& out) { fill(in, out, constants()); }

}  // namespace air
