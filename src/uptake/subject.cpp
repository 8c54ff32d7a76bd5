#include "uptake/subject.h"

#include <utility>

namespace uptake {

Source make_source(tree::Parameters tree, const PortParameters& ports, const units::Uncertain& flare_factor, const tree::Species& species) {
  if (species.p50_mpa.value > 0.0) tree.hydraulics.p50_mpa = species.p50_mpa;
  if (species.huber_m2_m2 > 0.0) tree.hydraulics.huber_m2_m2 = species.huber_m2_m2;
  return {std::move(tree), ports, flare_factor};
}

}  // namespace uptake
