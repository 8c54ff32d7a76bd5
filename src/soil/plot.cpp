#include "soil/plot.h"

#include <algorithm>
#include <cmath>

namespace soil {
namespace {

constexpr std::size_t fewest_days = 30;
constexpr double narrowest_m3_m3 = 0.01;

double quantile(const std::vector<double>& sorted, double q) {
  const double at = q * static_cast<double>(sorted.size() - 1);
  const auto low = static_cast<std::size_t>(at);
  return std::lerp(sorted[low], sorted[std::min(low + 1, sorted.size() - 1)], at - static_cast<double>(low));
}

// ln(alpha h) at an effective saturation of 0..1, both excluded.
double ln_relative_suction(double saturation, double n) {
  const double m = 1.0 - 1.0 / n;
  const double x = -std::log(saturation) / m;
  return (x > 30.0 ? x : std::log(std::expm1(x))) / n;
}

// The exponent with which the curve passes two saturations at two suctions: the ratio of suctions falls as n rises.
double exponent_through(double wet, double dry, double ln_suction_ratio) {
  double low = std::log(0.02), high = std::log(9.0);
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high), n = 1.0 + std::exp(middle);
    (ln_relative_suction(dry, n) - ln_relative_suction(wet, n) > ln_suction_ratio ? low : high) = middle;
  }
  return 1.0 + std::exp(low);
}

}  // namespace

std::optional<ShownRange> shown_range(const PlotParameters& parameters, const PlotRecord& record, std::size_t until) {
  std::vector<double> seen;
  for (std::size_t day = 0; day < std::min(until, record.days()); ++day)
    if (record.theta[day]) seen.push_back(*record.theta[day]);
  if (seen.size() < fewest_days) return std::nullopt;
  std::ranges::sort(seen);
  const ShownRange range{quantile(seen, parameters.driest_quantile), quantile(seen, parameters.wettest_quantile), seen.back()};
  if (!(range.wettest - range.driest >= narrowest_m3_m3)) return std::nullopt;
  return range;
}

Texture texture_of(const PlotParameters& parameters, const Texture& like, const ShownRange& range, const Plot& plot) {
  const double span = range.wettest - range.driest;
  const double wilting = plot.wilting_share * range.driest;
  const double capacity = range.driest + plot.capacity_share * span;
  Texture texture = like;
  texture.theta_r = parameters.residual_share * wilting;
  constexpr double drainable_share = 0.05;  // of the range, at the least: ground that never drains is none of ours
  texture.theta_s = std::clamp(std::max(range.highest, capacity + drainable_share * span), 0.2, 0.9);
  const double all = texture.theta_s - texture.theta_r;
  const double wet = (capacity - texture.theta_r) / all, dry = (wilting - texture.theta_r) / all;
  texture.n = exponent_through(wet, dry, std::log(like.wilting_kpa / like.field_capacity_kpa));
  texture.alpha_per_cm = std::clamp(std::exp(ln_relative_suction(wet, texture.n)) / (like.field_capacity_kpa / kpa_per_cm), 0.001, 0.5);
  // The marks stay at their contents where alpha had to give way.
  texture.field_capacity_kpa = std::clamp(suction_at_theta(texture, capacity) * kpa_per_cm, 1.0, 50.0);
  texture.wilting_kpa = std::clamp(suction_at_theta(texture, wilting) * kpa_per_cm, 500.0, 4000.0);
  texture.ks_cm_per_day = std::clamp(0.1 * plot.capacity_flux_mm_d / relative_conductivity(texture, wet), 0.01, 5000.0);
  return texture;
}

units::Result<RootZone> root_zone_of(const Parameters& trees, const PlotParameters& parameters, const Texture& texture, const Plot& plot,
                                     double bottom_cm) {
  Parameters p = trees;
  p.layer_bottoms_cm = {10.0, bottom_cm, bottom_cm + 30.0, bottom_cm + 65.0};
  p.root_beta = parameters.root_beta;
  p.compensation = parameters.compensation;
  p.depletion_share_p = plot.depletion_share_p;
  p.kcb_leafless = p.kcb_full_leaf = plot.kcb;
  p.exposed_leafless = p.exposed_full_leaf = plot.exposed;
  p.crown_share = 0.0;
  p.settled_rew_sd = parameters.settled_rew_sd;
  p.memory_h = parameters.memory_h;
  p.correlation_cm = parameters.correlation_cm;
  return RootZone::make(std::move(p), texture);
}

Plot before_record(const PlotPriors& p) {
  return {p.kcb.value,           p.exposed.value,        p.depletion_share_p.value,
          p.wilting_share.value, p.capacity_share.value, p.capacity_flux_mm_d.value};
}

units::Result<std::vector<std::optional<double>>> follow(const RootZone& zone, const PlotParameters& parameters, const PlotRecord& record,
                                                         const std::vector<bool>& believed, std::size_t from, std::size_t until) {
  std::vector<std::optional<double>> means(record.days());
  while (from < until && !(record.theta[from] && believed[from])) ++from;
  if (from >= until) return means;
  const auto cut = [&](const weather::Column& column) {
    weather::Column part((until - from) * 24);
    if (column.size() == 0) return weather::Column{};
    for (std::size_t h = 0; h < part.size(); ++h)
      if (const auto value = column.at(from * 24 + h)) part.set(h, *value, weather::Provenance::observed);
    return part;
  };
  Forcing forcing{cut(record.forcing.rain_mm), cut(record.forcing.irrigation_mm), cut(record.forcing.et0_mm),
                  cut(record.forcing.temp_c),  cut(record.forcing.soil_temp_c),   std::vector<double>((until - from) * 24, 1.0)};
  std::vector<Observation> observations;
  for (std::size_t day = from; day < until; ++day)
    if (record.theta[day] && believed[day])
      observations.push_back({(day - from) * 24 + 11, 0.0, record.bottom_cm, *record.theta[day], parameters.measured_sd_m3_m3});
  const State start = start_at(zone, std::clamp(zone.curve().rew(*record.theta[from]), 0.0, 1.2), parameters.settled_rew_sd);
  const auto run = soil::run(zone, start, forcing, observations);
  if (!run) return tl::make_unexpected(run.error());
  const auto content = [&](std::size_t hour) {
    double sum = 0.0;
    for (std::size_t layer = 0; layer < zone.layers() && zone.bottom_cm(layer) <= record.bottom_cm; ++layer)
      sum += run->hours.theta[layer][hour] * (zone.bottom_cm(layer) - zone.top_cm(layer));
    return sum / record.bottom_cm;
  };
  // What the correction cannot put into the ground, below its driest or above its fullest, stays an offset of the record.
  double offset = 0.0;
  for (std::size_t day = from; day < until; ++day) {
    const std::size_t first_hour = (day - from) * 24;
    double sum = 0.0;
    for (std::size_t h = first_hour; h < first_hour + 24; ++h) sum += content(h);
    if (record.theta[day] && believed[day]) offset = *record.theta[day] - content(first_hour + 11);
    means[day] = sum / 24.0 + offset;
  }
  return means;
}

}  // namespace soil
