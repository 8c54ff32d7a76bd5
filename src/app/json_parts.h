// Pieces of JSON that several commands print alike.
#pragma once
#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "days/quantiles.h"

namespace app {

[[nodiscard]] nlohmann::ordered_json number_or_null(std::optional<double> number);
// {"p10","p50","p90"}, null where a quantile is not reached.
[[nodiscard]] nlohmann::ordered_json quantiles_json(const days::Quantiles& quantiles);

}  // namespace app
