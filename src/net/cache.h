// Replies on disk: an entry a file, whole or absent, with the service's own words for asking again.
#pragma once
#include <atomic>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

#include "units/fault.h"
#include "units/time.h"

namespace net {

struct Entry {
  std::string url;  // what it answers; never a key
  int status = 0;
  std::string content_type;
  std::string body;
  std::string etag, last_modified;  // byte for byte; empty where the service gave none
  units::UtcTime fetched_at{};      // when the body was last known to be the service's word
  units::UtcTime fresh_until{};
};

// Whether an entry still answers at `now`. One from a future further off than clocks are set right by is not trusted.
[[nodiscard]] bool is_fresh(const Entry& entry, units::UtcTime now);

// Safe for several threads and processes. A file that is cut off or garbled counts as absent.
class Cache {
 public:
  // Drops the entries that were not used for longest once all together pass `most_bytes`, looked at whenever a hundredth of that is new.
  Cache(std::filesystem::path folder, std::uint64_t most_bytes);

  [[nodiscard]] std::optional<Entry> read(const std::string& url) const;
  // Fault: the place cannot be written; an older entry stays.
  [[nodiscard]] units::Result<void> put(const Entry& entry);

  // The file of an address's lock, for whoever is about to fetch it.
  [[nodiscard]] std::filesystem::path lock_of(const std::string& url) const;

 private:
  [[nodiscard]] std::filesystem::path file_of(const std::string& url) const;
  void sweep_locks() const;
  void make_room(const std::filesystem::path& newest, std::uint64_t bytes);

  std::filesystem::path folder_;
  std::uint64_t most_bytes_;
  std::atomic<std::uint64_t> unseen_;  // written since the folder was last looked through
};

}  // namespace net
