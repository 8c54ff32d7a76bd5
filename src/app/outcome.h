// What a command gives back: text for stdout, lines for stderr, an exit code. Commands are functions; src/cli only prints.
#pragma once
#include <string>
#include <vector>

#include "units/fault.h"

namespace app {

// Exit codes of every command.
enum class Exit { done = 0, nothing = 1, wrong_use = 2, bad_input = 3, service_failed = 4, store_failed = 5 };

struct Outcome {
  Exit exit = Exit::done;
  std::string out;
  std::vector<std::string> err;  // one line a fault; warnings begin "warning:"

  void refuse(const units::Fault& fault) {
    err.push_back(fault.line());
    exit = Exit::bad_input;
  }
  void warn(const std::string& line) { err.push_back("warning: " + line); }
};

[[nodiscard]] inline Outcome refused(const units::Fault& fault) {
  Outcome outcome;
  outcome.refuse(fault);
  return outcome;
}

}  // namespace app
