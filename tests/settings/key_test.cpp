#include "settings/key.h"

#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

namespace {

namespace fs = std::filesystem;

std::optional<std::string> nothing(const std::string&) { return std::nullopt; }

// A key file of its own folder, gone afterwards.
class KeyFile {
 public:
  KeyFile(const std::string& content, fs::perms mode) : folder_(fs::temp_directory_path() / ("sapdraw-key-" + std::to_string(::getpid()))) {
    fs::create_directories(folder_);
    std::ofstream{path()} << content;
    fs::permissions(path(), mode);
    settings.key_file["open-meteo"] = path();
  }
  ~KeyFile() { fs::remove_all(folder_); }
  KeyFile(const KeyFile&) = delete;
  KeyFile& operator=(const KeyFile&) = delete;
  [[nodiscard]] fs::path path() const { return folder_ / "key"; }
  settings::Settings settings;

 private:
  fs::path folder_;
};

constexpr auto own = fs::perms::owner_read | fs::perms::owner_write;

}  // namespace

TEST_SUITE("settings") {
  TEST_CASE("a key comes from the environment, else from a file of mode 0600, else there is none") {
    CHECK_FALSE(settings::key_of("open-meteo", {}, nothing)->has_value());
    const KeyFile file{"secret-one\nmore\n", own};
    CHECK(settings::key_of("open-meteo", file.settings, nothing)->value() == "secret-one");
    const auto said = [](const std::string& name) {
      return name == "SAPDRAW_OPEN_METEO_KEY" ? std::optional<std::string>{"secret-two"} : std::nullopt;
    };
    CHECK(settings::key_of("open-meteo", file.settings, said)->value() == "secret-two");
  }

  TEST_CASE("a key that others can read, or that is none, is refused without being told") {
    const KeyFile open{"secret-one\n", own | fs::perms::group_read};
    CHECK(settings::key_of("open-meteo", open.settings, nothing).error().line() ==
          "weather.key_file: expected a file that only you can read: chmod 600");
    const KeyFile spaced{"secret one\n", own};
    const auto refused = settings::key_of("open-meteo", spaced.settings, nothing);
    CHECK(refused.error().line() == "weather.key_file: expected a key: one word of letters, digits and signs");
    settings::Settings missing;
    missing.key_file["open-meteo"] = "/nowhere/key";
    CHECK(settings::key_of("open-meteo", missing, nothing).error().line() == "weather.key_file: expected a key file that can be read");
    missing.key_file["open-meteo"] = "/";
    CHECK_FALSE(settings::key_of("open-meteo", missing, nothing).has_value());
    const auto broken = [](const std::string&) { return std::optional<std::string>{"a\nb"}; };
    CHECK(settings::key_of("open-meteo", {}, broken).error().where == "SAPDRAW_OPEN_METEO_KEY");
  }
}
