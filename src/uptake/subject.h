// From the numbers of models/ to what one tree is drawn from: a species' own figures laid over the general ones.
#pragma once
#include "tree/parameters.h"
#include "uptake/draw.h"

namespace uptake {

// `tree` with the species' P50 and Huber ratio in place of the general ones where the species has them (value above 0);
// `flare_factor` is flare circumference over trunk circumference.
[[nodiscard]] Source make_source(tree::Parameters tree, const PortParameters& ports, const units::Uncertain& flare_factor,
                                 const tree::Species& species);

}  // namespace uptake
