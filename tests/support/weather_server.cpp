#include "support/weather_server.h"

#include <doctest/doctest.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <fstream>

extern char** environ;

namespace {

std::string quoted_path(const std::string& line) {
  const std::string key = "\"path\": \"";
  const auto at = line.find(key);
  if (at == std::string::npos) return {};
  const auto begin = at + key.size();
  return line.substr(begin, line.find('"', begin) - begin);
}

}  // namespace

WeatherServer::WeatherServer(std::filesystem::path folder, Options options) : folder_(std::move(folder)), options_(options) {
  std::filesystem::create_directories(folder_);
  routes("[]");
  std::ofstream{folder_ / "asked.log"};
  std::vector<std::string> words{"python3",      std::string{SAPDRAW_SOURCE_DIR} + "/tests/support/weather_server.py",
                                 "--control",    (folder_ / "routes.json").string(),
                                 "--log",        (folder_ / "asked.log").string(),
                                 "--latency-ms", std::to_string(options.latency_ms)};
  if (options.tls) {
    const std::string key = (folder_ / "server.key").string();
    const std::string make =
        "openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes -days 2 -subj /CN=localhost "
        "-addext subjectAltName=DNS:localhost,IP:127.0.0.1 -keyout '" +
        key + "' -out '" + certificate().string() + "' 2>/dev/null";
    REQUIRE(std::system(make.c_str()) == 0);
    words.insert(words.end(), {"--tls", certificate().string(), key});
  }
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
  REQUIRE(::posix_spawnp(&process, "python3", &actions, nullptr, arguments.data(), environ) == 0);
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

WeatherServer::~WeatherServer() {
  ::close(pipe_);
  ::kill(process_, SIGKILL);
  ::waitpid(process_, nullptr, 0);
}

void WeatherServer::routes(const std::string& json) const {
  const auto beside = folder_ / "routes.json.new";
  std::ofstream{beside} << json;
  std::filesystem::rename(beside, folder_ / "routes.json");
}

std::string WeatherServer::address() const { return (options_.tls ? "https://localhost:" : "http://127.0.0.1:") + std::to_string(port_); }

std::vector<Asked> WeatherServer::asked() const {
  std::vector<Asked> all;
  std::ifstream log{folder_ / "asked.log"};
  for (std::string line; std::getline(log, line);) all.push_back({quoted_path(line), line});
  return all;
}
