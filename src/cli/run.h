// One run of the program: understand, load the models, run the command, print, and say how it went.
#pragma once
#include <filesystem>
#include <functional>
#include <iosfwd>
#include <optional>
#include <string>

#include "units/time.h"

namespace cli {

// What only the machine knows; main fills it in.
struct Machine {
  std::filesystem::path program_directory;
  units::UtcTime now{};
  std::size_t cores = 1;
  bool colour = false;  // stdout is a terminal that wants it
  std::function<std::optional<std::string>(const std::string&)> environment = [](const std::string&) { return std::nullopt; };
  std::string version;
  bool err_is_terminal = false;  // where progress is drawn in place
};

// Returns the exit code. `out` gets the whole result in one piece or nothing; what cannot be written is a fault of its own, except
// where the reader of a pipe has gone.
int run(int count, const char* const* arguments, const Machine& machine, std::ostream& out, std::ostream& err);

}  // namespace cli
