// sapdraw-plan-bench INSTANCE.json --seconds N --seed N --out PLAN.json --json
// Solves one booking problem within so many seconds, counted from reading the file, and writes the plan.
#include <CLI/CLI.hpp>
#include <chrono>
#include <iostream>
#include <nlohmann/json.hpp>

#include "app/files.h"
#include "app/outcome.h"
#include "app/plan_file.h"
#include "plan/check_plan.h"
#include "plan/solve.h"

namespace {

using Clock = std::chrono::steady_clock;

struct Options {
  std::string instance;
  std::string out;
  double seconds = 10.0;
  std::uint64_t seed = 1;
  std::uint64_t iterations = 0;
  bool json = false;
};

double since(Clock::time_point begin) { return std::chrono::duration<double>(Clock::now() - begin).count(); }

int refuse(const units::Fault& fault) {
  std::cerr << fault.line() << '\n';
  return static_cast<int>(app::Exit::bad_input);
}

int solve(const Options& options) {
  const auto begin = Clock::now();
  const auto content = app::read_file(options.instance);
  if (!content) return refuse(content.error());
  const auto instance = app::read_instance(*content, options.instance);
  if (!instance) return refuse(instance.error());
  plan::Effort effort;
  effort.seed = options.seed;
  effort.iterations = options.iterations;
  if (options.iterations == 0) effort.spent = [&] { return since(begin) / options.seconds; };
  const auto answer = plan::solve(*instance, effort);
  if (!answer) return refuse(answer.error());
  const double seconds = since(begin);
  const auto verdict = plan::check_plan(*instance, answer->plan);
  if (!verdict.broken.empty()) return refuse(verdict.broken.front());
  if (!options.out.empty())
    if (const auto written = app::write_file(options.out, app::plan_file(answer->plan)); !written) return refuse(written.error());
  const nlohmann::ordered_json figures{{"objective", verdict.objective}, {"bound", answer->bound},           {"seconds", seconds},
                                       {"moved_day", verdict.moved_day}, {"moved_crew", verdict.moved_crew}, {"dropped", verdict.dropped}};
  if (options.json) {
    std::cout << figures.dump() << '\n';
    return 0;
  }
  for (const auto& [name, value] : figures.items()) std::cout << name << ' ' << value << '\n';
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  Options options;
  CLI::App app{"Solve one booking problem and write the plan."};
  app.add_option("instance", options.instance, "the problem, JSON")->required();
  app.add_option("--seconds", options.seconds, "how long it may take")->check(CLI::PositiveNumber);
  app.add_option("--seed", options.seed, "of the search's random numbers");
  app.add_option("--iterations", options.iterations, "moves of the local search instead of seconds: the same answer everywhere");
  app.add_option("--out", options.out, "where the plan goes");
  app.add_flag("--json", options.json, "figures as JSON");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : static_cast<int>(app::Exit::wrong_use);
  }
  return solve(options);
}
