// `sapdraw models`: every number the answers rest on, with its range, source and confidence; and the facts they must reproduce.
#pragma once
#include <filesystem>

#include "app/outcome.h"
#include "app/request.h"

namespace app {

struct ModelsRequest {
  std::filesystem::path directory;  // that the models were loaded from
  bool facts = false;               // the fact table instead of the parameters; takes seconds
};

// As text, JSON or CSV, in SI whatever `common.units` says. A parameter that the owner's file sets is marked, with the shipped value.
[[nodiscard]] Outcome models_command(const Common& common, const ModelsRequest& request);

}  // namespace app
