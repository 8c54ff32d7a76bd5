#include "soil/pedotransfer.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "soil/fao56_soil_water.h"
#include "soil/retention.h"

namespace soil {
namespace {

constexpr int bisections = 60;

// ln of (alpha h)^n = Se^(-1/m) - 1.
double log_scaled_suction(double saturation, double n) { return std::log(std::expm1(-std::log(saturation) * n / (n - 1.0))); }

struct Curve {
  double theta_r, n, alpha_per_cm;
};

// The curve through saturation, 33 and 1500 kPa for one residual content; empty when no n of 1.01..10 joins them.
std::optional<Curve> joined(const SaxtonRawls& soil, double theta_r) {
  const double pores = soil.theta_s - theta_r;
  const double saturation_33 = (soil.theta_33 - theta_r) / pores, saturation_1500 = (soil.theta_1500 - theta_r) / pores;
  const auto excess = [&](double n) {
    return log_scaled_suction(saturation_1500, n) - log_scaled_suction(saturation_33, n) - n * std::log(1500.0 / 33.0);
  };
  double low = 1.01, high = 10.0;
  if (!(excess(low) > 0.0 && excess(high) < 0.0)) return std::nullopt;
  for (int i = 0; i < bisections; ++i) {
    const double middle = 0.5 * (low + high);
    (excess(middle) > 0.0 ? low : high) = middle;
  }
  return Curve{theta_r, low, std::exp(log_scaled_suction(saturation_33, low) / low) / (33.0 / kpa_per_cm)};
}

// The least residual content whose curve has an alpha that soils have: at most that of sand in Carsel & Parrish (1988).
std::optional<Curve> fitted(const SaxtonRawls& soil) {
  constexpr double greatest_alpha_per_cm = 0.145;
  const auto plain = joined(soil, 0.0);
  if (!plain || plain->alpha_per_cm <= greatest_alpha_per_cm) return plain;
  double low = 0.0, high = 0.999 * soil.theta_1500;
  auto best = joined(soil, high);
  if (!best || best->alpha_per_cm > greatest_alpha_per_cm) return std::nullopt;
  for (int i = 0; i < bisections; ++i) {
    const double middle = 0.5 * (low + high);
    const auto curve = joined(soil, middle);
    if (curve && curve->alpha_per_cm <= greatest_alpha_per_cm) {
      best = curve;
      high = middle;
    } else {
      low = middle;
    }
  }
  return best;
}

// Readily evaporable water by composition, mm: Ritchie et al. (1989) as given by Allen et al. (2005), J. Irrig. Drain. Eng. 131:2-13 (from
// memory).
double readily_evaporable(const Composition& c) {
  if (c.sand > 0.80) return 20.0 - 15.0 * c.sand;
  if (c.clay > 0.50) return 11.0 - 6.0 * c.clay;
  return 8.0 + 8.0 * c.clay;
}

}  // namespace

units::Result<SaxtonRawls> saxton_rawls(const Composition& composition) {
  const double sand = composition.sand, clay = composition.clay, om = composition.organic_matter_pct;
  if (!(sand >= 0.0 && sand <= 1.0)) return units::fault("sand", std::to_string(sand), "expected a fraction from 0 to 1");
  if (!(clay >= 0.0 && clay <= 0.6)) return units::fault("clay", std::to_string(clay), "expected a fraction from 0 to 0.6");
  if (!(sand + clay <= 1.0)) return units::fault("sand + clay", std::to_string(sand + clay), "expected at most 1");
  if (!(om >= 0.0 && om <= 8.0)) return units::fault("organic_matter_pct", std::to_string(om), "expected a percentage from 0 to 8");

  const double t1500 =
      -0.024 * sand + 0.487 * clay + 0.006 * om + 0.005 * sand * om - 0.013 * clay * om + 0.068 * sand * clay + 0.031;  // eq. 1
  const double t33 =
      -0.251 * sand + 0.195 * clay + 0.011 * om + 0.006 * sand * om - 0.027 * clay * om + 0.452 * sand * clay + 0.299;  // eq. 2
  const double ts33 =
      0.278 * sand + 0.034 * clay + 0.022 * om - 0.018 * sand * om - 0.027 * clay * om - 0.584 * sand * clay + 0.078;  // eq. 3
  SaxtonRawls soil;
  soil.theta_1500 = t1500 + (0.14 * t1500 - 0.02);
  soil.theta_33 = t33 + (1.283 * t33 * t33 - 0.374 * t33 - 0.015);
  soil.theta_s = soil.theta_33 + (ts33 + (0.636 * ts33 - 0.107)) - 0.097 * sand + 0.043;  // eq. 5
  if (!(soil.theta_1500 > 0.0 && soil.theta_33 > soil.theta_1500 && soil.theta_s > soil.theta_33))
    return units::fault("sand, clay", std::to_string(sand) + ", " + std::to_string(clay),
                        "expected a soil for which the regressions give wilting < field capacity < saturation");
  const double lambda = std::log(soil.theta_33 / soil.theta_1500) / std::log(1500.0 / 33.0);  // eq. 15, 18
  soil.ks_mm_per_h = 1930.0 * std::pow(soil.theta_s - soil.theta_33, 3.0 - lambda);           // eq. 16
  return soil;
}

units::Result<Texture> texture_of(const Composition& composition) {
  const auto soil = saxton_rawls(composition);
  if (!soil) return tl::make_unexpected(soil.error());
  const auto curve = fitted(*soil);
  if (!curve) return units::fault("sand, clay", "", "expected a soil whose three water contents a van Genuchten curve can join");

  Texture texture;
  texture.key = "own";
  texture.name = "own analysis";
  texture.theta_s = soil->theta_s;
  texture.theta_r = curve->theta_r;
  texture.n = curve->n;
  texture.alpha_per_cm = curve->alpha_per_cm;
  texture.ks_cm_per_day = soil->ks_mm_per_h * 2.4;
  texture.field_capacity_kpa = 33.0;
  texture.wilting_kpa = 1500.0;
  texture.total_evaporable_mm = fao56::total_evaporable_water(soil->theta_33, soil->theta_1500, units::Metres{0.1}).value;
  texture.readily_evaporable_mm = std::min(readily_evaporable(composition), 0.8 * texture.total_evaporable_mm);
  return texture;
}

}  // namespace soil
