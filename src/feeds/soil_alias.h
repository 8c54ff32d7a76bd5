// Thin soil layers that are one thick layer of a coarser model, printed under several names.
#pragma once
#include "weather/series.h"

namespace feeds {

// Where 0-1, 1-3 and 3-9 cm agree to the last digit at every hour that has them, replaces them by the layer 0-10 cm, and 9-27 cm by 10-40
// cm, 27-81 cm by 40-100 cm: the layers of the model behind them (GFS, which Open-Meteo serves in the US; read out of its source code).
// Returns whether it did.
bool merge_aliased_layers(weather::Series& series);

}  // namespace feeds
