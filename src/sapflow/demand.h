// A stand's relative sap flow from its weather: the conductance of tree/stomata.h in stirred air or as one big leaf, and the lag of
// stored water. Pure arithmetic. docs/model/sapflow.md eqs. (1)-(5).
#pragma once
#include <cstddef>
#include <cstdint>
#include <vector>

#include "sapflow/hours.h"
#include "sapflow/parameters.h"
#include "tree/parameters.h"

namespace sapflow {

enum class Coupling : std::uint8_t { stirred, big_leaf };

struct Form {
  tree::VpdForm vpd = tree::VpdForm::jarvis;
  Coupling coupling = Coupling::big_leaf;
  bool soil_water = true;  // false: roots never signal
  bool lag = true;         // false: flow follows the leaves at once
};

// Hours [from, until) of a record.
struct Stretch {
  std::size_t from, until;
};

// Writes the flow of every hour of `stretch` to the same places of `flow`, which is as long as `hours`. The stretch begins with flow and
// leaves in step; over unknown hours the flow stands still. `stomata` gives what no record decides.
void relative_flow(const tree::Stomata& stomata, const Stand& stand, const Form& form, const Demand& demand, const Hours& hours,
                   const Stretch& stretch, std::vector<double>& flow);

}  // namespace sapflow
