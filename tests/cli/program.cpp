#include "program.h"

#include <doctest/doctest.h>
#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <sstream>

namespace {

const std::string binary = SAPDRAW_BUILD_DIR "/sapdraw";

int open_file(const std::string& path, int flags) {
  const int file = ::open(path.c_str(), flags | O_CLOEXEC, 0600);
  REQUIRE_MESSAGE(file >= 0, path);
  return file;
}

// In the child: never returns.
[[noreturn]] void become(const Arguments& arguments, int out, int err) {
  ::dup2(out, STDOUT_FILENO);
  ::dup2(err, STDERR_FILENO);
  ::unsetenv("NO_COLOR");
  if (::chdir(SAPDRAW_SOURCE_DIR) != 0) ::_exit(127);
  std::vector<char*> raw{const_cast<char*>(binary.c_str())};
  // The build folder may lie outside the source tree, where the program would not find them.
  std::string models = "--models", shipped = SAPDRAW_SOURCE_DIR "/models";
  if (std::find(arguments.begin(), arguments.end(), models) == arguments.end()) raw.insert(raw.end(), {models.data(), shipped.data()});
  for (const std::string& argument : arguments) raw.push_back(const_cast<char*>(argument.c_str()));
  raw.push_back(nullptr);
  ::execv(binary.c_str(), raw.data());
  ::_exit(127);
}

// `out` is closed here, so that a pipe's reader sees the end.
Ran run(const Arguments& arguments, int out) {
  const Scratch scratch;
  const std::string err_path = (scratch.folder() / "stderr").string();
  const int err = open_file(err_path, O_CREAT | O_WRONLY);
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) become(arguments, out, err);
  ::close(out);
  ::close(err);
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), "", content_of(err_path)};
}

}  // namespace

Ran sapdraw(const Arguments& arguments) {
  const Scratch scratch;
  const std::string path = (scratch.folder() / "stdout").string();
  Ran ran = run(arguments, open_file(path, O_CREAT | O_WRONLY));
  ran.out = content_of(path);
  return ran;
}

Ran sapdraw_onto(const std::string& device, const Arguments& arguments) { return run(arguments, open_file(device, O_WRONLY)); }

Ran sapdraw_unread(const Arguments& arguments) {
  int ends[2];
  REQUIRE(::pipe2(ends, O_CLOEXEC) == 0);
  ::close(ends[0]);
  return run(arguments, ends[1]);
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream{text};
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::size_t widest_line(const std::string& text) {
  std::size_t widest = 0;
  for (const std::string& line : lines_of(text)) {
    const auto points = std::count_if(line.begin(), line.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; });
    widest = std::max(widest, static_cast<std::size_t>(points));
  }
  return widest;
}

std::string content_of(const std::filesystem::path& file) {
  std::ifstream stream{file, std::ios::binary};
  return {std::istreambuf_iterator<char>{stream}, {}};
}

Scratch::Scratch() {
  std::string name = (std::filesystem::temp_directory_path() / "sapdraw-cli-XXXXXX").string();
  REQUIRE(::mkdtemp(name.data()) != nullptr);
  folder_ = name;
}

Scratch::~Scratch() { std::filesystem::remove_all(folder_); }

std::string Scratch::file(const std::string& name, const std::string& content) const {
  const auto path = folder_ / name;
  std::ofstream{path, std::ios::binary} << content;
  return path.string();
}
