#include "cli/run.h"

#include <cerrno>
#include <memory>
#include <mutex>
#include <ostream>
#include <random>
#include <thread>

#include "app/files.h"
#include "app/office.h"
#include "cli/call.h"
#include "cli/call_progress.h"
#include "params/directory.h"
#include "store/failure.h"

namespace cli {
namespace {

// The clock on the wall; under --now the given present, from which time goes on.
std::function<std::chrono::sys_time<std::chrono::milliseconds>()> clock(const Call& call) {
  using std::chrono::milliseconds;
  const auto wall = [] { return std::chrono::floor<milliseconds>(std::chrono::system_clock::now()); };
  if (!call.globals.now) return wall;
  return [begun = std::chrono::steady_clock::now(), present = *call.globals.now] {
    return std::chrono::sys_time<milliseconds>{present} + std::chrono::floor<milliseconds>(std::chrono::steady_clock::now() - begun);
  };
}

std::function<double()> luck() {
  struct Dice {
    std::mutex mutex;
    std::mt19937_64 engine{std::random_device{}()};
  };
  return [dice = std::make_shared<Dice>()] {
    const std::lock_guard lock{dice->mutex};
    return std::uniform_real_distribution<double>{0.0, 1.0}(dice->engine);
  };
}

std::shared_ptr<const app::Surroundings> surroundings(const Call& call, const Machine& machine, std::ostream& out, std::ostream& err) {
  app::Surroundings around;
  around.environment = machine.environment;
  around.machine = {clock(call), [](std::chrono::milliseconds pause) { std::this_thread::sleep_for(pause); }, luck()};
  around.version = machine.version;
  around.out = &out;
  around.on_progress = CallProgress{err, machine.err_is_terminal};
  around.on_search = SearchProgress{err, machine.err_is_terminal};
  return std::make_shared<const app::Surroundings>(std::move(around));
}

app::Outcome carry_out(const Call& call, const Machine& machine, std::ostream& out, std::ostream& err) {
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
                           .colour = machine.colour && !call.globals.out,
                           .book = call.globals.book,
                           .by = call.globals.by,
                           .around = surroundings(call, machine, out, err)};
  // A command that changes the book must not find out afterwards that its answer has no place.
  if (call.globals.out)
    if (const auto open = app::can_write(*call.globals.out); !open) return app::refused(open.error());
  try {
    return call.command(common, *directory);
  } catch (const store::Failure& failure) {
    return {app::Exit::store_failed, "", {failure.what()}};
  }
}

void print(app::Outcome& outcome, const std::optional<std::filesystem::path>& file, std::ostream& out) {
  if (file && !outcome.out.empty()) {
    if (const auto written = app::write_file(*file, outcome.out); !written) outcome.refuse(written.error());
    return;
  }
  errno = 0;
  out << outcome.out << std::flush;
  if (!out && errno != EPIPE) outcome.refuse({"stdout", "", "expected a place that can be written; the command itself was carried out"});
}

}  // namespace

int run(int count, const char* const* arguments, const Machine& machine, std::ostream& out, std::ostream& err) {
  const auto understood = read_call(count, arguments);
  const auto* call = std::get_if<Call>(&understood);
  app::Outcome outcome = call != nullptr ? carry_out(*call, machine, out, err) : std::get<Nothing>(understood).outcome;
  print(outcome, call != nullptr ? call->globals.out : std::nullopt, out);
  for (const std::string& line : outcome.err) err << line << '\n';
  return static_cast<int>(outcome.exit);
}

}  // namespace cli
