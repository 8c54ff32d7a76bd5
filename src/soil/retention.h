// How strongly a soil holds its water and how easily it lets it pass: van Genuchten (1980) retention with Mualem (1976) conductivity.
// Soil Sci. Soc. Am. J. 44:892-898, eq. 21 (theta of h, m = 1 - 1/n) and eq. 8 (K of Se). Kernels are inline: they run over arrays of
// draws. Suction h and -potential are >= 0; potentials are <= 0, in MPa. 1 cm of water is 98.0665 Pa.
// Templates: R is double for one soil, units::Lanes for eight draws at once.
#pragma once
#include <cmath>

#include "soil/texture.h"
#include "units/lanes.h"

namespace soil {

inline constexpr double kpa_per_cm = 0.0980665;
// Beyond this suction (100 MPa: air-dry soil) the retention curve has no meaning; inverses stop here.
inline constexpr double driest_suction_cm = 1.0e5 / kpa_per_cm;

// (theta - theta_r) / (theta_s - theta_r), kept in 0..1.
template <class R>
[[nodiscard]] R effective_saturation(const Texture& texture, R theta) {
  using units::max;
  using units::min;
  return min(R(1.0), max(R(0.0), (theta - texture.theta_r) / (texture.theta_s - texture.theta_r)));
}

// Water content (m3/m3) at a suction of h cm; h <= 0 is saturated.
[[nodiscard]] inline double theta_at_suction(const Texture& texture, double suction_cm) {
  if (suction_cm <= 0.0) return texture.theta_s;
  const double m = 1.0 - 1.0 / texture.n;
  const double saturation = std::pow(1.0 + std::pow(texture.alpha_per_cm * suction_cm, texture.n), -m);
  return texture.theta_r + (texture.theta_s - texture.theta_r) * saturation;
}

// Suction (cm) at a water content: the exact inverse of theta_at_suction. 0 at or above saturation, driest_suction_cm at or below residual.
template <class R>
[[nodiscard]] R suction_at_theta(const Texture& texture, R theta) {
  using std::exp;
  using std::log;
  using units::exp;
  using units::log;
  using units::min;
  using units::select;
  const double m = 1.0 - 1.0 / texture.n;
  const R x = -log(effective_saturation(texture, theta)) / m;
  // Se^(-1/m) - 1 = e^x - 1; the series keeps the digits where the soil is nearly saturated.
  const R beyond_one = select(x < R(1e-5), x * (1.0 + 0.5 * x), exp(x) - 1.0);
  return min(exp(log(beyond_one) / texture.n) / texture.alpha_per_cm, R(driest_suction_cm));
}

// K / Ks at an effective saturation of 0..1.
template <class R>
[[nodiscard]] R relative_conductivity(const Texture& texture, R saturation) {
  using std::exp;
  using std::log;
  using std::sqrt;
  using units::exp;
  using units::log;
  using units::select;
  using units::sqrt;
  const double m = 1.0 - 1.0 / texture.n;
  // 1 - (1 - s)^m with s = Se^(1/m): in dry fine soil s drops below the last digit of 1, where the series keeps its own.
  const R s = exp(log(saturation) / m);
  const R pores = select(s < R(1e-5), m * s * (1.0 + 0.5 * (1.0 - m) * s), 1.0 - exp(m * log(1.0 - s)));
  return sqrt(saturation) * pores * pores;
}

// Hydraulic conductivity, mm/h.
template <class R>
[[nodiscard]] R conductivity_mm_per_h(const Texture& texture, R theta) {
  return texture.ks_cm_per_day * (10.0 / 24.0) * relative_conductivity(texture, effective_saturation(texture, theta));
}

// The two water contents between which water is available to roots, m3/m3.
[[nodiscard]] inline double theta_field_capacity(const Texture& texture) {
  return theta_at_suction(texture, texture.field_capacity_kpa / kpa_per_cm);
}
[[nodiscard]] inline double theta_wilting(const Texture& texture) { return theta_at_suction(texture, texture.wilting_kpa / kpa_per_cm); }

// Relative extractable water (REW, Granier et al. 1999, Ecol. Model. 116:269-283) and what follows from it, with the marks of one texture
// worked out once. REW is 0 at wilting and 1 at field capacity; it is not clamped: wetter soil is above 1, air-dry soil below 0.
class RewCurve {
 public:
  explicit RewCurve(const Texture& texture)
      : texture_(texture), wilting_(theta_wilting(texture)), available_(theta_field_capacity(texture) - wilting_) {}

  [[nodiscard]] const Texture& texture() const { return texture_; }
  [[nodiscard]] double wilting() const { return wilting_; }      // m3/m3
  [[nodiscard]] double available() const { return available_; }  // m3/m3 between wilting and field capacity, > 0
  [[nodiscard]] double rew(double theta) const { return (theta - wilting_) / available_; }
  template <class R>
  [[nodiscard]] R theta(R rew) const {
    return wilting_ + rew * available_;
  }
  // Soil water potential, MPa, <= 0; 0 at saturation, never below -100 MPa.
  template <class R>
  [[nodiscard]] R psi_mpa(R rew) const {
    return suction_at_theta(texture_, theta(rew)) * (-1e-3 * kpa_per_cm);
  }
  // K(REW) / K(REW of half root resistance): the soil's share in the root resistance (uptake, eq. 9). Above 1 in wet soil.
  template <class R>
  [[nodiscard]] R conductivity_ratio(R rew, R rew_half) const {
    return soil::conductivity_mm_per_h(texture_, theta(rew)) / soil::conductivity_mm_per_h(texture_, theta(rew_half));
  }

 private:
  Texture texture_;
  double wilting_, available_;
};

// The inverse of RewCurve::psi_mpa.
[[nodiscard]] inline double rew_at_psi(const RewCurve& curve, double psi_mpa) {
  return curve.rew(theta_at_suction(curve.texture(), -psi_mpa * (1e3 / kpa_per_cm)));
}

}  // namespace soil
