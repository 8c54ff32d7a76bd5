// What the descriptions of all commands share: checks of single options, the options of every command, and how a command is run.
#pragma once
#include <CLI/CLI.hpp>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "app/outcome.h"
#include "app/request.h"

namespace cli {

extern const char* const of_every_command;  // the foot of every command's help

// A check that says what it expected and leaves the help alone.
[[nodiscard]] CLI::Validator expects(const std::string& what, std::function<bool(const std::string&)> fits);
[[nodiscard]] CLI::Validator instant();
[[nodiscard]] CLI::Validator date();
[[nodiscard]] CLI::Validator whole_number_between(std::size_t lowest, std::size_t highest);
// CLI11 would read -1 as the largest number there is.
[[nodiscard]] CLI::Validator whole_number();
[[nodiscard]] CLI::Validator either(const std::string& one, const std::string& other);

// What the options write into until parsing is over; then it becomes a Call.
struct Given {
  std::string units = "us", now;
  bool json = false, csv = false;
  std::uint64_t seed = 1;
  std::optional<std::size_t> threads;
  std::string models, owner, out;
  std::optional<std::string> book, by;
  std::function<app::Outcome(const app::Common&, const std::filesystem::path& models)> command;
  bool has_csv = true;
};

void add_globals(CLI::App& app, Given& given);

// A command that runs `run` on its request once the options have filled it.
template <class Request, class Run>
void on_call(CLI::App& command, Given& given, const std::shared_ptr<Request>& request, bool has_csv, Run run) {
  command.footer(of_every_command);
  command.callback([&given, request, has_csv, run] {
    given.has_csv = has_csv;
    given.command = [request, run](const app::Common& common, const std::filesystem::path& models) {
      return run(common, *request, models);
    };
  });
}

}  // namespace cli
