// The command line, understood: what is asked, and of which command.
#pragma once
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <variant>

#include "app/outcome.h"
#include "app/request.h"

namespace cli {

// Options of every command.
struct Globals {
  app::UnitSystem units = app::UnitSystem::us;
  app::Format format = app::Format::text;
  std::optional<units::UtcTime> now;  // else the clock's
  std::uint64_t seed = 1;
  std::optional<std::size_t> threads;           // else one for every core
  std::optional<std::filesystem::path> models;  // else where params/directory.h looks
  std::optional<std::filesystem::path> owner_file;
  std::optional<std::filesystem::path> out;  // else stdout
  std::optional<std::string> book;           // address; else where app/open_book.h looks
  std::optional<std::string> by;             // who makes changes; else the machine's user
};

struct Call {
  Globals globals;
  // Runs the command; `models` is the directory that `common.models` came from.
  std::function<app::Outcome(const app::Common& common, const std::filesystem::path& models)> command;
};

// A command line that runs nothing: help that was asked for, or wrong use.
struct Nothing {
  app::Outcome outcome;
};

// `arguments` as main got them, the program's name first. Malformed options are wrong use (exit 2), one line.
[[nodiscard]] std::variant<Call, Nothing> read_call(int count, const char* const* arguments);

}  // namespace cli
