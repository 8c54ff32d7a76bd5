// The root zone of one tree: layers, root shares and water marks worked out once from parameters and texture.
#pragma once
#include <vector>

#include "soil/parameters.h"
#include "soil/retention.h"
#include "soil/texture.h"
#include "units/fault.h"

namespace soil {

class RootZone {
 public:
  // Refuses parameters or a texture outside the ranges of their headers, naming the field.
  [[nodiscard]] static units::Result<RootZone> make(Parameters parameters, const Texture& texture);

  [[nodiscard]] const Parameters& parameters() const { return parameters_; }
  [[nodiscard]] const Texture& texture() const { return curve_.texture(); }
  [[nodiscard]] const RewCurve& curve() const { return curve_; }
  [[nodiscard]] std::size_t layers() const { return thickness_mm_.size(); }
  [[nodiscard]] double thickness_mm(std::size_t layer) const { return thickness_mm_[layer]; }
  [[nodiscard]] double top_cm(std::size_t layer) const { return layer == 0 ? 0.0 : parameters_.layer_bottoms_cm[layer - 1]; }
  [[nodiscard]] double bottom_cm(std::size_t layer) const { return parameters_.layer_bottoms_cm[layer]; }
  // Shares of roots by layer, 1 - beta^d (Jackson et al. 1996, Oecologia 108:389-411, eq. 1), scaled so that they sum to 1 over the root
  // zone.
  [[nodiscard]] const std::vector<double>& root_share() const { return root_share_; }
  // Shares by layer over which breathing room is judged: thickness within Parameters::breathing_depth_cm.
  [[nodiscard]] const std::vector<double>& breathing_weight() const { return breathing_weight_; }

  // Evaporation of the surface layer (FAO-56 eq. 73, 74): depletions (mm below field capacity) at which it falls and at which it stops. The
  // table's marks are kept, but the layer can never give more than lies above half the wilting content and above the residual content.
  [[nodiscard]] double readily_evaporable_mm() const { return readily_evaporable_mm_; }
  [[nodiscard]] double total_evaporable_mm() const { return total_evaporable_mm_; }

  // The driest a layer can become (m3/m3): wilting; in the surface layer, which evaporates, half of that, never below residual.
  [[nodiscard]] double driest_theta(std::size_t layer) const;
  // Shares of the root zone's water-holding depth by layer.
  [[nodiscard]] const std::vector<double>& water_share() const { return water_share_; }
  // REW of a profile as Granier et al. (1999) define it, the water of the whole root zone against what it can hold for roots: trees draw
  // on the deep layers once the top is dry. Each layer counts within 0..1.
  [[nodiscard]] double rew(const std::vector<double>& theta) const;

 private:
  RootZone(Parameters parameters, const Texture& texture);

  Parameters parameters_;
  RewCurve curve_;
  std::vector<double> thickness_mm_, root_share_, water_share_, breathing_weight_;
  double readily_evaporable_mm_ = 0.0, total_evaporable_mm_ = 0.0;
};

}  // namespace soil
