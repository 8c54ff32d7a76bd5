// fit-to-facts MODELS_FOLDER [DOCUMENT]: fits the defaults of a models folder to its facts and writes them there; with a document, writes
// into that what each mechanism buys and leaves the folder alone.
#include <cstdio>
#include <fstream>
#include <iostream>
#include <sstream>
#include <thread>

#include "fit/ablations.h"
#include "fit/defaults.h"

namespace {

int refuse(const units::Fault& fault) {
  std::cerr << fault.line() << '\n';
  return 3;
}

int write_ablations(const std::filesystem::path& directory, const std::filesystem::path& file) {
  const auto table = fit::ablation_table(directory, std::thread::hardware_concurrency());
  if (!table) return refuse(table.error());
  std::ostringstream document;
  document << std::ifstream{file}.rdbuf();
  std::ofstream{file} << fit::with_ablations(document.str(), *table);
  std::cout << *table;
  return 0;
}

int write_defaults(const std::filesystem::path& directory) {
  const auto defaults = fit::fit_defaults(directory, std::thread::hardware_concurrency(), fit::shipped_plan());
  if (!defaults) return refuse(defaults.error());
  for (const auto& [name, text] : defaults->files) std::ofstream{directory / name, std::ios::binary} << text;
  std::printf("most probable after %d rounds; chains agree to R-hat %.3f, %.0f %% of proposals taken\n", defaults->rounds,
              defaults->disagreement, 100.0 * defaults->accepted);
  return 0;
}

}  // namespace

int main(int count, char** arguments) {
  if (count == 2) return write_defaults(arguments[1]);
  if (count == 3) return write_ablations(arguments[1], arguments[2]);
  std::cerr << "usage: fit-to-facts MODELS_FOLDER [DOCUMENT]\n";
  return 2;
}
