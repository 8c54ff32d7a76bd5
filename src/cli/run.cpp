#include "cli/run.h"

#include <cerrno>
#include <ostream>

#include "app/files.h"
#include "cli/call.h"
#include "params/directory.h"

namespace cli {
namespace {

app::Outcome carry_out(const Call& call, const Machine& machine) {
  const auto directory = params::find_models_directory({call.globals.models, machine.program_directory});
  if (!directory) return app::refused(directory.error());
  auto models = params::load_models(*directory, call.globals.owner_file);
  if (!models) return app::refused(models.error());
  const app::Common common{.models = std::move(*models),
                           .now = call.globals.now.value_or(machine.now),
                           .units = call.globals.units,
                           .format = call.globals.format,
                           .seed = call.globals.seed,
                           .threads = call.globals.threads.value_or(machine.cores),
                           .colour = machine.colour && !call.globals.out};
  return call.command(common, *directory);
}

void print(app::Outcome& outcome, const std::optional<std::filesystem::path>& file, std::ostream& out) {
  if (file && !outcome.out.empty()) {
    if (const auto written = app::write_file(*file, outcome.out); !written) outcome.refuse(written.error());
    return;
  }
  errno = 0;
  out << outcome.out << std::flush;
  if (!out && errno != EPIPE) outcome.refuse({"stdout", "", "expected a place that can be written"});
}

}  // namespace

int run(int count, const char* const* arguments, const Machine& machine, std::ostream& out, std::ostream& err) {
  const auto understood = read_call(count, arguments);
  const auto* call = std::get_if<Call>(&understood);
  app::Outcome outcome = call != nullptr ? carry_out(*call, machine) : std::get<Nothing>(understood).outcome;
  print(outcome, call != nullptr ? call->globals.out : std::nullopt, out);
  for (const std::string& line : outcome.err) err << line << '\n';
  return static_cast<int>(outcome.exit);
}

}  // namespace cli
