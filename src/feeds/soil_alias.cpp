#include "feeds/soil_alias.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace feeds {
namespace {

using units::Metres;
using weather::Column;
using weather::SoilLayer;

struct Depths {
  double top_m, bottom_m;
};
constexpr std::array<Depths, 3> thin{{{0.0, 0.01}, {0.01, 0.03}, {0.03, 0.09}}};
struct Alias {
  Depths named, meant;
};
constexpr std::array<Alias, 3> aliases{{{{0.03, 0.09}, {0.0, 0.10}}, {{0.09, 0.27}, {0.10, 0.40}}, {{0.27, 0.81}, {0.40, 1.00}}}};

bool has_depths(const SoilLayer& layer, const Depths& depths) {
  constexpr double half_a_millimetre = 0.0005;
  return std::abs(layer.top.value - depths.top_m) < half_a_millimetre && std::abs(layer.bottom.value - depths.bottom_m) < half_a_millimetre;
}

const SoilLayer* layer_of(const weather::Series& series, const Depths& depths) {
  const auto found = std::find_if(series.soil.begin(), series.soil.end(), [&](const SoilLayer& l) { return has_depths(l, depths); });
  return found == series.soil.end() ? nullptr : &*found;
}

bool agree(const Column& a, const Column& b) {
  for (std::size_t hour = 0; hour < a.size(); ++hour)
    if (a.at(hour) != b.at(hour)) return false;
  return true;
}

}  // namespace

bool merge_aliased_layers(weather::Series& series) {
  const SoilLayer* first = layer_of(series, thin[0]);
  const SoilLayer* second = layer_of(series, thin[1]);
  const SoilLayer* third = layer_of(series, thin[2]);
  if (!first || !second || !third || first->moisture_m3_m3.empty()) return false;
  if (!agree(first->moisture_m3_m3, second->moisture_m3_m3) || !agree(first->moisture_m3_m3, third->moisture_m3_m3)) return false;
  std::erase_if(series.soil, [](const SoilLayer& layer) { return has_depths(layer, thin[0]) || has_depths(layer, thin[1]); });
  for (SoilLayer& layer : series.soil)
    for (const Alias& alias : aliases)
      if (has_depths(layer, alias.named)) {
        layer.top = Metres{alias.meant.top_m};
        layer.bottom = Metres{alias.meant.bottom_m};
        break;
      }
  return true;
}

}  // namespace feeds
