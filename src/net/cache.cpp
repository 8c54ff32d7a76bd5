#include "net/cache.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <fstream>
#include <sstream>
#include <vector>

#include "net/durable_file.h"

namespace net {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view shape = "sapdraw reply 1";
constexpr std::string_view suffix = ".reply";
constexpr std::string_view lock_suffix = ".lock";

// Fowler-Noll-Vo, 64 bits: spots what a crash or a bad disk does, which is all it is for.
std::uint64_t checksum(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
  return hash;
}

long long seconds(units::UtcTime time) { return static_cast<long long>(time.time_since_epoch().count()); }

// Length-prefixed fields, so that any bytes may stand in them.
std::string packed(const Entry& entry) {
  std::string text;
  for (const std::string_view field : {std::string_view{entry.url}, std::string_view{entry.content_type}, std::string_view{entry.etag},
                                       std::string_view{entry.last_modified}, std::string_view{entry.body}})
    text += fmt::format("{}\n{}\n", field.size(), field);
  text += fmt::format("{} {} {}\n", entry.status, seconds(entry.fetched_at), seconds(entry.fresh_until));
  return fmt::format("{}\n{:016x}\n{}", shape, checksum(text), text);
}

class Unpacking {
 public:
  explicit Unpacking(std::string_view text) : rest_(text) {}

  std::optional<std::string_view> line() {
    const auto end = rest_.find('\n');
    if (end == std::string_view::npos) return std::nullopt;
    const std::string_view found = rest_.substr(0, end);
    rest_.remove_prefix(end + 1);
    return found;
  }
  std::optional<std::string_view> field() {
    const auto length_line = line();
    std::size_t length = 0;
    if (!length_line || std::from_chars(length_line->data(), length_line->data() + length_line->size(), length).ec != std::errc{})
      return std::nullopt;
    if (length >= rest_.size() || rest_[length] != '\n') return std::nullopt;
    const std::string_view found = rest_.substr(0, length);
    rest_.remove_prefix(length + 1);
    return found;
  }
  [[nodiscard]] std::string_view rest() const { return rest_; }

 private:
  std::string_view rest_;
};

std::optional<Entry> unpacked(std::string_view text) {
  Unpacking file{text};
  if (file.line() != shape) return std::nullopt;
  const auto sum = file.line();
  if (!sum || *sum != fmt::format("{:016x}", checksum(file.rest()))) return std::nullopt;
  Entry entry;
  for (std::string* field : {&entry.url, &entry.content_type, &entry.etag, &entry.last_modified, &entry.body}) {
    const auto value = file.field();
    if (!value) return std::nullopt;
    *field = *value;
  }
  const auto numbers = file.line();
  if (!numbers) return std::nullopt;
  std::istringstream in{std::string{*numbers}};
  long long fetched = 0, fresh = 0;
  if (!(in >> entry.status >> fetched >> fresh)) return std::nullopt;
  entry.fetched_at = units::UtcTime{std::chrono::seconds{fetched}};
  entry.fresh_until = units::UtcTime{std::chrono::seconds{fresh}};
  return entry;
}

}  // namespace

bool is_fresh(const Entry& entry, units::UtcTime now) {
  constexpr std::chrono::minutes clocks_differ{10};
  return entry.fetched_at <= now + clocks_differ && entry.fresh_until > now;
}

Cache::Cache(fs::path folder, std::uint64_t most_bytes) : folder_(std::move(folder)), most_bytes_(most_bytes), unseen_(most_bytes) {
  sweep_half_written(folder_);
  sweep_locks();
}

// A lock that nobody has taken for days guards nothing: its address is asked no more.
void Cache::sweep_locks() const {
  constexpr std::chrono::hours unused{48};
  std::error_code error;
  for (const auto& file : fs::directory_iterator{folder_, error}) {
    std::error_code gone;
    if (file.path().extension() == lock_suffix && fs::file_time_type::clock::now() - file.last_write_time(gone) > unused && !gone)
      fs::remove(file.path(), gone);
  }
}

fs::path Cache::file_of(const std::string& url) const { return folder_ / fmt::format("{:016x}{}", checksum(url), suffix); }

fs::path Cache::lock_of(const std::string& url) const { return folder_ / fmt::format("{:016x}{}", checksum(url), lock_suffix); }

std::optional<Entry> Cache::read(const std::string& url) const {
  const fs::path path = file_of(url);
  std::error_code error;
  const auto written = fs::last_write_time(path, error);
  std::ifstream in{path, std::ios::binary};
  if (!in) return std::nullopt;
  std::ostringstream text;
  text << in.rdbuf();
  auto entry = unpacked(text.view());
  if (!entry) {
    // Not what somebody has put in its place meanwhile.
    if (!error && fs::last_write_time(path, error) == written && !error) fs::remove(path, error);
    return std::nullopt;
  }
  if (entry->url != url) return std::nullopt;
  fs::last_write_time(path, fs::file_time_type::clock::now(), error);  // used just now
  return entry;
}

units::Result<void> Cache::put(const Entry& entry) {
  const fs::path path = file_of(entry.url);
  const std::string text = packed(entry);
  if (auto written = write_durably(path, text); !written) return written;
  make_room(path, text.size());
  return {};
}

void Cache::make_room(const fs::path& newest, std::uint64_t bytes) {
  if ((unseen_ += bytes) < most_bytes_ / 100) return;
  unseen_ = 0;
  struct Kept {
    fs::path path;
    std::uint64_t bytes;
    fs::file_time_type used;
  };
  std::vector<Kept> all;
  std::uint64_t sum = 0;
  std::error_code error;
  for (const auto& file : fs::directory_iterator{folder_, error}) {
    if (file.path().extension() != suffix) continue;
    std::error_code gone;  // another process may drop it meanwhile
    const auto size = file.file_size(gone);
    const auto used = file.last_write_time(gone);
    if (gone) continue;
    all.push_back({file.path(), size, used});
    sum += size;
  }
  if (sum <= most_bytes_) return;
  std::ranges::sort(all, {}, &Kept::used);
  for (const Kept& oldest : all) {
    if (sum <= most_bytes_) break;
    if (oldest.path == newest) continue;
    fs::remove(oldest.path, error);
    sum -= oldest.bytes;
  }
}

}  // namespace net
