// A record as JSON: numbers as numbers, yes and no as true and false. SI, like the book.
#pragma once
#include <nlohmann/json_fwd.hpp>

#include "book/kind.h"
#include "book/record.h"

namespace app {

[[nodiscard]] nlohmann::ordered_json record_json(const book::Kind& kind, const book::Record& record);
[[nodiscard]] nlohmann::ordered_json history_json(const book::HistoryEntry& entry);

}  // namespace app
