#include "app/json_parts.h"

#include <nlohmann/json.hpp>

namespace app {

using Json = nlohmann::ordered_json;

Json number_or_null(std::optional<double> number) { return number ? Json(*number) : Json(nullptr); }

Json quantiles_json(const days::Quantiles& quantiles) {
  return {{"p10", number_or_null(quantiles.p10)}, {"p50", number_or_null(quantiles.p50)}, {"p90", number_or_null(quantiles.p90)}};
}

}  // namespace app
