// Whether a reply is what was asked for, and if not, whether and when to ask again.
#pragma once
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "net/http.h"
#include "units/fault.h"
#include "units/time.h"

namespace net {

struct Want {
  Request request;
  std::chrono::seconds fresh_for{3600};  // at least so long a reply is not asked for again, whatever the service says
  std::vector<std::string> kinds = {};   // content types that hold data; empty: any
  // Whether a body can be read; a reply that cannot never takes the place of one that could. Called from several threads.
  std::function<units::Result<void>(std::string_view body)> check = {};
  std::vector<int> settled = {};  // statuses that answer the question too and are kept as such (404: no such place)
  bool renew = false;             // asks even though the cached reply is fresh
};

// Empty where the reply is good: 200 (or 203) of a wanted kind that can be read, 304, or a settled status.
[[nodiscard]] std::optional<Failure> failure_of(const Want& want, const Reply& reply, units::UtcTime now);

// Until when a good reply is fresh: its Expires or max-age, at most a day, and never less than want.fresh_for. RFC 9111.
[[nodiscard]] units::UtcTime fresh_until(const Want& want, const Reply& reply, units::UtcTime now);

// Retry-After, in seconds or as an HTTP date (RFC 9110 section 10.2.3), at most a day; empty where there is none.
[[nodiscard]] std::optional<std::chrono::seconds> retry_after(const Reply& reply, units::UtcTime now);

}  // namespace net
