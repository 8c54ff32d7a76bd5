#include "post/peer.h"

#include <doctest/doctest.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cstdlib>
#include <fstream>

extern char** environ;

void make_certificates(const std::filesystem::path& folder) {
  const std::string in = "cd '" + folder.string() + "' && ";
  const std::string make =
      in +
      "openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes -days 2 -subj /CN=Tests -keyout ca.key -out ca.pem "
      "2>/dev/null && "
      "openssl req -newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes -subj /CN=localhost -keyout server.key -out server.csr "
      "2>/dev/null && "
      "printf 'subjectAltName=DNS:localhost,IP:127.0.0.1\\n' > names && "
      "openssl x509 -req -in server.csr -CA ca.pem -CAkey ca.key -CAcreateserial -days 2 -extfile names -out server.pem 2>/dev/null";
  REQUIRE(std::system(make.c_str()) == 0);
}

bool Peer::has_module(const std::string& module) {
  const bool has = std::system(("/usr/bin/python3 -c 'import " + module + "' 2>/dev/null").c_str()) == 0;
  if (!has) MESSAGE("skipped: python3 has no module " << module);
  return has;
}

Peer::Peer(const std::string& script, const std::vector<std::string>& more) {
  static std::atomic<int> counter{0};
  folder_ = std::filesystem::temp_directory_path() / ("sapdraw-peer-" + std::to_string(::getpid()) + "-" + std::to_string(counter++));
  std::filesystem::create_directories(folder_);
  make_certificates(folder_);
  std::vector<std::string> words{"/usr/bin/python3",
                                 std::string{SAPDRAW_SOURCE_DIR} + "/tests/post/" + script,
                                 "--log",
                                 (folder_ / "log").string(),
                                 "--certificate",
                                 (folder_ / "server.pem").string(),
                                 "--key",
                                 (folder_ / "server.key").string()};
  words.insert(words.end(), more.begin(), more.end());
  std::array<int, 2> in{}, out{};
  REQUIRE(::pipe2(in.data(), O_CLOEXEC) == 0);
  REQUIRE(::pipe2(out.data(), O_CLOEXEC) == 0);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, in[0], 0);
  posix_spawn_file_actions_adddup2(&actions, out[1], 1);
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  pid_t process = 0;
  REQUIRE(::posix_spawn(&process, "/usr/bin/python3", &actions, nullptr, arguments.data(), environ) == 0);
  posix_spawn_file_actions_destroy(&actions);
  ::close(in[0]);
  ::close(out[1]);
  process_ = process;
  pipe_ = in[1];
  std::string port;
  char c = 0;
  while (::read(out[0], &c, 1) == 1 && c != '\n') port += c;
  ::close(out[0]);
  REQUIRE_FALSE(port.empty());
  port_ = std::stoi(port);
}

Peer::~Peer() {
  ::close(pipe_);
  ::kill(process_, SIGKILL);
  ::waitpid(process_, nullptr, 0);
  std::error_code error;
  std::filesystem::remove_all(folder_, error);
}

std::vector<nlohmann::json> Peer::taken() const {
  std::vector<nlohmann::json> all;
  std::ifstream log{folder_ / "log"};
  for (std::string line; std::getline(log, line);) all.push_back(nlohmann::json::parse(line));
  return all;
}
