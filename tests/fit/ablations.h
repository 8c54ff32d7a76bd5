// What each mechanism of the uptake model buys on the facts.
#pragma once
#include <filesystem>
#include <string>

#include "units/fault.h"

namespace fit {

// A table in Markdown, a row a mechanism: which facts of the middle tree leave their bars when it does nothing, and which still do, at what
// cost, after everything else was fitted again. Works at the numbers that `directory` ships.
[[nodiscard]] units::Result<std::string> ablation_table(const std::filesystem::path& directory, std::size_t threads);

// `document` with what stands between its two marks for the table replaced; as it is where it has none.
[[nodiscard]] std::string with_ablations(std::string document, const std::string& table);

}  // namespace fit
