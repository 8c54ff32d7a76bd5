// The only place that asks for the clock, the terminal, the cores and where the program lies.
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <thread>

#include "cli/run.h"

int main(int count, char** arguments) {
  std::signal(SIGPIPE, SIG_IGN);  // `sapdraw days | head` is no crash
  std::ios::sync_with_stdio(false);
  std::error_code error;
  cli::Machine machine;
  machine.program_directory = std::filesystem::read_symlink("/proc/self/exe", error).parent_path();
  machine.now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  machine.cores = std::max(1U, std::thread::hardware_concurrency());
  const char* no_colour = std::getenv("NO_COLOR");
  machine.colour = ::isatty(STDOUT_FILENO) == 1 && (no_colour == nullptr || *no_colour == '\0');
  machine.environment = [](const std::string& name) {
    const char* value = std::getenv(name.c_str());
    return value == nullptr ? std::nullopt : std::optional<std::string>{value};
  };
  machine.version = SAPDRAW_VERSION;
  machine.err_is_terminal = ::isatty(STDERR_FILENO) == 1;
  try {
    return cli::run(count, arguments, machine, std::cout, std::cerr);
  } catch (const std::exception& unforeseen) {
    std::cerr << "sapdraw: " << unforeseen.what() << '\n';
    return 3;
  }
}
