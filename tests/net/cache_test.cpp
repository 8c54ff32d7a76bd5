#include "net/cache.h"

#include <doctest/doctest.h>
#include <signal.h>
#include <spawn.h>
#include <sys/mount.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <set>
#include <sstream>
#include <thread>

#include "net/durable_file.h"
#include "net/scratch.h"

extern char** environ;

namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;

net::Entry entry_of(const std::string& url, std::string body) {
  net::Entry entry;
  entry.url = url;
  entry.status = 200;
  entry.content_type = "application/json";
  entry.body = std::move(body);
  entry.etag = "W/\"a b\"";
  entry.last_modified = "Mon, 06 Jul 2026 10:00:00 GMT";
  entry.fetched_at = units::UtcTime{1'783'332'000s};
  entry.fresh_until = entry.fetched_at + 1h;
  return entry;
}

fs::path only_reply(const fs::path& folder) {
  for (const auto& file : fs::directory_iterator{folder})
    if (file.path().extension() == ".reply") return file.path();
  return {};
}

std::string bytes(const fs::path& file) {
  std::ostringstream text;
  text << std::ifstream{file, std::ios::binary}.rdbuf();
  return text.str();
}

pid_t start_writer(const fs::path& folder, unsigned first) {
  std::string program = std::string{SAPDRAW_BUILD_DIR} + "/cache-writer", where = folder.string(), from = std::to_string(first);
  char* const arguments[] = {program.data(), where.data(), from.data(), nullptr};
  pid_t process = 0;
  REQUIRE(::posix_spawn(&process, program.c_str(), nullptr, nullptr, arguments, environ) == 0);
  return process;
}

}  // namespace

TEST_SUITE("net") {
  TEST_CASE("an entry comes back to the byte, whatever its body holds") {
    const ScratchFolder scratch;
    net::Cache cache{scratch.path(), 1 << 20};
    std::string body = "line\nsapdraw reply 1\n";
    body.push_back('\0');
    body += "\xff\xfe end";
    const net::Entry entry = entry_of("https://a.example/x?y=1", body);
    REQUIRE(cache.put(entry).has_value());
    const auto read = net::Cache{scratch.path(), 1 << 20}.read(entry.url);
    REQUIRE(read.has_value());
    CHECK(read->body == body);
    CHECK(read->etag == entry.etag);
    CHECK(read->last_modified == entry.last_modified);
    CHECK(read->status == 200);
    CHECK(read->fetched_at == entry.fetched_at);
    CHECK(read->fresh_until == entry.fresh_until);
    CHECK_FALSE(cache.read("https://a.example/x?y=2").has_value());
  }

  TEST_CASE("an entry cut anywhere, or with a byte changed, is absent and never half there") {
    const ScratchFolder scratch;
    net::Cache cache{scratch.path(), 1 << 20};
    REQUIRE(cache.put(entry_of("https://a.example/", std::string(300, 'x'))).has_value());
    const fs::path file = only_reply(scratch.path());
    const std::string whole = bytes(file);
    for (std::size_t length = 0; length < whole.size(); length += 7) {
      std::ofstream{file, std::ios::binary} << whole.substr(0, length);
      CHECK_FALSE(cache.read("https://a.example/").has_value());
    }
    for (std::size_t at = 0; at < whole.size(); at += 5) {
      std::string other = whole;
      other[at] = static_cast<char>(other[at] ^ 1);
      std::ofstream{file, std::ios::binary} << other;
      const auto read = cache.read("https://a.example/");
      CHECK((!read || read->body == std::string(300, 'x')));
    }
  }

  TEST_CASE("a garbled file is removed when it is met, another address's is not") {
    const ScratchFolder scratch;
    net::Cache cache{scratch.path(), 1 << 20};
    REQUIRE(cache.put(entry_of("https://a.example/", std::string(300, 'x'))).has_value());
    const fs::path file = only_reply(scratch.path());
    fs::resize_file(file, 150);
    CHECK_FALSE(cache.read("https://a.example/").has_value());
    CHECK_FALSE(fs::exists(file));
    REQUIRE(cache.put(entry_of("https://a.example/", "new")).has_value());
    CHECK_FALSE(cache.read("https://b.example/").has_value());
    CHECK(cache.read("https://a.example/")->body == "new");
  }

  TEST_CASE("a lock that nobody has taken for days is swept, one in use is not") {
    const ScratchFolder scratch;
    const net::Cache cache{scratch.path(), 1 << 20};
    const auto old_lock = cache.lock_of("https://a.example/old"), lock = cache.lock_of("https://a.example/new");
    CHECK(old_lock != lock);
    for (const auto& each : {old_lock, lock}) CHECK(net::FileLock{each}.held());
    fs::last_write_time(old_lock, fs::file_time_type::clock::now() - 72h);
    const net::Cache later{scratch.path(), 1 << 20};
    CHECK_FALSE(fs::exists(old_lock));
    CHECK(fs::exists(lock));
  }

  TEST_CASE("the disk's share is kept: what was not used for longest goes, what was just written stays") {
    const ScratchFolder scratch;
    net::Cache cache{scratch.path(), 50'000};
    for (int n = 0; n < 10; ++n) {
      REQUIRE(cache.put(entry_of("https://a.example/" + std::to_string(n), std::string(10'000, 'x'))).has_value());
      std::this_thread::sleep_for(15ms);
      CHECK(cache.read("https://a.example/0").has_value());  // in use all the time
      std::this_thread::sleep_for(15ms);
    }
    CHECK(cache.read("https://a.example/9").has_value());
    CHECK_FALSE(cache.read("https://a.example/1").has_value());
    std::uintmax_t sum = 0;
    for (const auto& file : fs::directory_iterator{scratch.path()}) sum += file.file_size();
    CHECK(sum <= 50'000);
  }

  TEST_CASE("killed at any moment, two writers leave whole entries only, and what they left half is swept away") {
    const ScratchFolder scratch;
    constexpr int kills = 20;  // 200 in tests/soak/cache_kills.sh
    const char* more = std::getenv("SAPDRAW_KILLS");
    const int rounds = more != nullptr ? std::atoi(more) : kills;
    std::set<char> seen;
    for (int round = 0; round < rounds; ++round) {
      const pid_t one = start_writer(scratch.path(), static_cast<unsigned>(round)), other = start_writer(scratch.path(), 7);
      std::this_thread::sleep_for(std::chrono::milliseconds{5 + (round * 37) % 40});
      ::kill(one, SIGKILL);
      ::kill(other, SIGKILL);
      ::waitpid(one, nullptr, 0);
      ::waitpid(other, nullptr, 0);
      const net::Cache cache{scratch.path(), 64u << 20};
      for (const auto& file : fs::directory_iterator{scratch.path()}) {
        const std::string name = file.path().filename().string();
        CHECK(name.find(".part-") == std::string::npos);
      }
      for (int n = 0; n < 4; ++n) {
        const std::string url = "https://weather.example/" + std::to_string(n);
        const auto entry = cache.read(url);
        if (round > 0 || entry) REQUIRE(entry.has_value());
        if (!entry) continue;
        CHECK(entry->body.find_first_not_of(entry->body.front()) == std::string::npos);
        seen.insert(entry->body.front());
      }
    }
    CHECK(seen.size() > 1);
  }

  TEST_CASE("on a full disk the new entry is refused in one line and the old one stays") {
    const ScratchFolder scratch;
    if (::mount("tmpfs", scratch.path().c_str(), "tmpfs", 0, "size=64k") != 0) {
      MESSAGE("skipped: mounting a small file system needs root");
      return;
    }
    {
      net::Cache cache{scratch.path() / "cache", 1 << 20};
      REQUIRE(cache.put(entry_of("https://a.example/", std::string(20'000, 'o'))).has_value());
      const auto put = cache.put(entry_of("https://a.example/", std::string(60'000, 'n')));
      REQUIRE_FALSE(put.has_value());
      CHECK(put.error().line().find("expected a place that can be written: No space left on device") != std::string::npos);
      CHECK(cache.read("https://a.example/")->body == std::string(20'000, 'o'));
      for (const auto& file : fs::directory_iterator{scratch.path() / "cache"})
        CHECK(file.path().filename().string().find(".part-") == std::string::npos);
    }
    ::umount(scratch.path().c_str());
  }
}
