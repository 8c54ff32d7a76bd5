#include "net/verdict_on_reply.h"

#include <curl/curl.h>
#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "feeds/text.h"
#include "net/address.h"
#include "net/reason.h"

namespace net {
namespace {

using namespace std::chrono_literals;
using std::chrono::seconds;
using units::UtcTime;

constexpr seconds longest_wait = 24h, longest_fresh = 24h, grid_wait = 15min;

std::optional<UtcTime> http_date(std::string_view text) {
  const time_t at = curl_getdate(std::string{text}.c_str(), nullptr);
  return at < 0 ? std::nullopt : std::optional{UtcTime{seconds{at}}};
}

// "max-age=749" of "public, max-age=749, s-maxage=3600".
std::optional<seconds> max_age(std::string_view control) {
  while (!control.empty()) {
    const auto comma = control.find(',');
    const std::string_view part = feeds::trimmed(control.substr(0, comma));
    long value = 0;
    if (constexpr std::string_view key = "max-age="; part.starts_with(key)) {
      const char* digits = part.data() + key.size();
      if (std::from_chars(digits, part.data() + part.size(), value).ec == std::errc{} && value >= 0)
        return seconds{std::min(value, 86'400L * 365)};
    }
    control = comma == std::string_view::npos ? std::string_view{} : control.substr(comma + 1);
  }
  return std::nullopt;
}

bool worth_retrying(int status) { return status == 429 || status == 500 || status == 502 || status == 503 || status == 504; }

// Open-Meteo says in words which of its limits was passed; they end with the clock's minute, hour and UTC day.
std::optional<seconds> wait_by_reason(const Reason& reason, UtcTime now) {
  using std::chrono::floor;
  const auto says = [&](std::string_view word) { return reason.text.find(word) != std::string::npos; };
  if (says("Minutely")) return floor<std::chrono::minutes>(now) + 1min - now;
  if (says("Hourly")) return floor<std::chrono::hours>(now) + 1h - now;
  if (says("Daily")) return floor<std::chrono::days>(now) + std::chrono::days{1} - now;
  if (reason.type == "ForecastGridExpired") return grid_wait;
  return std::nullopt;
}

const char* words_for(int status) {
  switch (status) {
    case 400:
      return "says that we ask wrongly";
    case 401:
      return "wants a key, or another one";
    case 403:
      return "does not let us in: is `contact` in config.toml right?";
    case 404:
      return "knows no such place";
    case 422:
      return "does not cover this place";
    case 429:
      return "says that we ask too often";
    default:
      return status >= 500 ? "has trouble of its own" : "does not answer the question";
  }
}

Failure failure(const Want& want, Trouble trouble, const Reply& reply, const std::string& words, bool retry) {
  return {trouble, reply.status, fmt::format("{}: {}: {}", want.request.service, host_of(want.request.url), words), retry, {}};
}

}  // namespace

std::optional<seconds> retry_after(const Reply& reply, UtcTime now) {
  const auto text = reply.header("retry-after");
  if (!text || text->empty()) return std::nullopt;
  long value = 0;
  if (const auto read = std::from_chars(text->data(), text->data() + text->size(), value);
      read.ec == std::errc{} && read.ptr == text->data() + text->size())
    return std::clamp(seconds{std::min(value, 86'400L)}, 0s, longest_wait);
  if (const auto date = http_date(*text)) return std::clamp(seconds{*date - now}, 0s, longest_wait);
  return std::nullopt;
}

UtcTime fresh_until(const Want& want, const Reply& reply, UtcTime now) {
  std::optional<seconds> told;
  if (const auto control = reply.header("cache-control")) told = max_age(*control);
  // Expires is meant by the service's own clock.
  if (const auto expires = reply.header("expires"); !told && expires)
    if (const auto end = http_date(*expires)) {
      const auto date = reply.header("date");
      told = *end - (date ? http_date(*date).value_or(now) : now);
    }
  return now + std::max(want.fresh_for, std::min(told.value_or(0s), longest_fresh));
}

std::optional<Failure> failure_of(const Want& want, const Reply& reply, UtcTime now) {
  const bool of_kind = want.kinds.empty() || reply.content_type == "application/problem+json" ||
                       std::ranges::find(want.kinds, reply.content_type) != want.kinds.end();
  // A page that stands in a service's place answers nothing.
  if (reply.status == 304 || (of_kind && std::ranges::find(want.settled, reply.status) != want.settled.end())) return std::nullopt;
  if (reply.status != 200 && reply.status != 203) {
    const Reason reason = reason_of(reply.body);
    std::string words = fmt::format("{} ({})", words_for(reply.status), reply.status);
    if (!reason.text.empty()) words += fmt::format(": '{}'", reason.text);
    if (!reason.correlation.empty()) words += fmt::format(" [{}]", reason.correlation);
    Failure failed = failure(want, Trouble::status, reply, words, worth_retrying(reply.status));
    failed.wait = retry_after(reply, now);
    failed.binding = failed.wait.has_value() || reply.status == 429;
    if (!failed.wait && failed.retry) failed.wait = wait_by_reason(reason, now);
    return failed;
  }
  if (!want.kinds.empty() && std::ranges::find(want.kinds, reply.content_type) == want.kinds.end())
    return failure(want, Trouble::wrong_kind, reply,
                   fmt::format("sends '{}' where data were asked for", feeds::for_message(reply.content_type, 40)), true);
  if (reply.body.empty()) return failure(want, Trouble::unreadable, reply, "sends an empty reply", true);
  if (want.check)
    if (const auto readable = want.check(reply.body); !readable)
      return failure(want, Trouble::unreadable, reply, "sends what cannot be read: " + readable.error().line(), true);
  return std::nullopt;
}

}  // namespace net
