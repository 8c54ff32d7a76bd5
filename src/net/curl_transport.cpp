#include "net/curl_transport.h"

#include <curl/curl.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <mutex>
#include <vector>

#include "feeds/text.h"
#include "net/address.h"

namespace net {
namespace {

constexpr int most_redirects = 3;

struct HandleDeleter {
  void operator()(CURL* handle) const { curl_easy_cleanup(handle); }
};
using Handle = std::unique_ptr<CURL, HandleDeleter>;

struct ListDeleter {
  void operator()(curl_slist* list) const { curl_slist_free_all(list); }
};
using List = std::unique_ptr<curl_slist, ListDeleter>;

// One reply as it arrives.
struct Arriving {
  Reply reply;
  std::size_t largest_body;
  bool too_large = false;
};

std::size_t take_body(char* data, std::size_t, std::size_t count, void* to) {
  Arriving& arriving = *static_cast<Arriving*>(to);
  if (arriving.reply.body.size() + count > arriving.largest_body) {
    arriving.too_large = true;
    return 0;
  }
  arriving.reply.body.append(data, count);
  return count;
}

std::string lower(std::string_view text) {
  std::string out{text};
  std::ranges::transform(out, out.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return out;
}

// A line of headers; a status line begins the next hop's.
std::size_t take_header(char* data, std::size_t, std::size_t count, void* to) {
  Arriving& arriving = *static_cast<Arriving*>(to);
  const std::string_view line{data, count};
  if (line.starts_with("HTTP/")) {
    arriving.reply.headers.clear();
    arriving.reply.body.clear();
  } else if (const auto colon = line.find(':'); colon != std::string_view::npos && arriving.reply.headers.size() < 200) {
    arriving.reply.headers.push_back({lower(line.substr(0, colon)), std::string{feeds::trimmed(line.substr(colon + 1))}});
  }
  return count;
}

struct Kind {
  Trouble trouble;
  bool retry;
  const char* words;
};

Kind kind_of(CURLcode code) {
  switch (code) {
    case CURLE_COULDNT_RESOLVE_HOST:
    case CURLE_COULDNT_RESOLVE_PROXY:
      return {Trouble::unresolved, true, "no such host can be found: is the line down?"};
    case CURLE_COULDNT_CONNECT:
      return {Trouble::connect, true, "no connection"};
    case CURLE_OPERATION_TIMEDOUT:
      return {Trouble::time_out, true, "no answer in time"};
    case CURLE_PEER_FAILED_VERIFICATION:
    case CURLE_SSL_CACERT_BADFILE:
    case CURLE_SSL_CERTPROBLEM:
    case CURLE_SSL_CIPHER:
    case CURLE_SSL_ISSUER_ERROR:
    case CURLE_USE_SSL_FAILED:
      return {Trouble::tls, false, "its certificate cannot be trusted"};
    case CURLE_UNSUPPORTED_PROTOCOL:
    case CURLE_URL_MALFORMAT:
      return {Trouble::redirect, false, "an address that is not allowed"};
    case CURLE_SSL_CONNECT_ERROR:
      return {Trouble::connect, true, "no secure connection"};
    case CURLE_FILESIZE_EXCEEDED:
      return {Trouble::too_large, false, "a reply larger than any forecast"};
    case CURLE_OUT_OF_MEMORY:
      return {Trouble::local, false, "not enough memory"};
    default:
      return {Trouble::broken_off, true, "the reply broke off"};
  }
}

Failure failure(const Request& request, Trouble trouble, bool retry, const std::string& words) {
  return {trouble, 0, fmt::format("{}: {}: {}", request.service, host_of(request.url), words), retry, {}};
}

}  // namespace

// Handles at rest, by service: each keeps its connections.
class CurlTransport::Handles {
 public:
  Handle take(const std::string& service) {
    const std::lock_guard lock{mutex_};
    auto& resting = resting_[service];
    if (resting.empty()) return Handle{curl_easy_init()};
    Handle handle = std::move(resting.back());
    resting.pop_back();
    return handle;
  }
  void give_back(const std::string& service, Handle handle) {
    const std::lock_guard lock{mutex_};
    resting_[service].push_back(std::move(handle));
  }

 private:
  std::mutex mutex_;
  std::map<std::string, std::vector<Handle>> resting_;
};

CurlTransport::CurlTransport(CurlSettings settings) : settings_(std::move(settings)), handles_(std::make_unique<Handles>()) {
  static std::once_flag once;
  std::call_once(once, [] { curl_global_init(CURL_GLOBAL_DEFAULT); });
}

CurlTransport::~CurlTransport() = default;

namespace {

// Everything but what redirects change: the address, its proxy and the time left.
void set_options(CURL* curl, const CurlSettings& settings, Arriving& arriving, const List& headers,
                 std::array<char, CURL_ERROR_SIZE>& detail) {
  curl_easy_setopt(curl, CURLOPT_USERAGENT, settings.user_agent.c_str());
  curl_easy_setopt(curl, CURLOPT_HTTPHEADER, headers.get());
  curl_easy_setopt(curl, CURLOPT_PROTOCOLS_STR, "http,https");
  // Followed by hand, where every address is looked at before it is called.
  curl_easy_setopt(curl, CURLOPT_FOLLOWLOCATION, 0L);
  curl_easy_setopt(curl, CURLOPT_ACCEPT_ENCODING, "");
  curl_easy_setopt(curl, CURLOPT_CONNECTTIMEOUT_MS, static_cast<long>(settings.connect_within.count()));
  curl_easy_setopt(curl, CURLOPT_LOW_SPEED_LIMIT, 100L);
  curl_easy_setopt(curl, CURLOPT_LOW_SPEED_TIME, static_cast<long>(settings.silent_for.count()));
  curl_easy_setopt(curl, CURLOPT_MAXFILESIZE_LARGE, static_cast<curl_off_t>(settings.largest_body));
  curl_easy_setopt(curl, CURLOPT_NOSIGNAL, 1L);
  curl_easy_setopt(curl, CURLOPT_TCP_KEEPALIVE, 1L);
  curl_easy_setopt(curl, CURLOPT_SSLVERSION, static_cast<long>(CURL_SSLVERSION_TLSv1_2));
  curl_easy_setopt(curl, CURLOPT_SSL_VERIFYPEER, 1L);
  curl_easy_setopt(curl, CURLOPT_SSL_VERIFYHOST, 2L);
  if (settings.ca_file) curl_easy_setopt(curl, CURLOPT_CAINFO, settings.ca_file->c_str());
  curl_easy_setopt(curl, CURLOPT_WRITEFUNCTION, take_body);
  curl_easy_setopt(curl, CURLOPT_WRITEDATA, &arriving);
  curl_easy_setopt(curl, CURLOPT_HEADERFUNCTION, take_header);
  curl_easy_setopt(curl, CURLOPT_HEADERDATA, &arriving);
  curl_easy_setopt(curl, CURLOPT_ERRORBUFFER, detail.data());
}

// Where the reply sends us on to; empty where it does not.
std::string sent_on_to(CURL* curl, int status) {
  char* url = nullptr;
  if (status < 300 || status >= 400 || status == 304) return {};
  curl_easy_getinfo(curl, CURLINFO_REDIRECT_URL, &url);
  return url == nullptr ? std::string{} : std::string{url};
}

// A service may repeat what it was sent; from here on nobody reads the key, nor puts it by.
void strike_out(const Secret& secret, Reply& reply) {
  if (secret.reveal().empty()) return;
  const auto strike = [&](std::string& text) {
    for (auto at = text.find(secret.reveal()); at != std::string::npos; at = text.find(secret.reveal(), at + Secret::printed().size()))
      text.replace(at, secret.reveal().size(), Secret::printed());
  };
  strike(reply.body);
  for (Header& header : reply.headers) strike(header.value);
}

void note_status_and_kind(CURL* curl, Reply& reply) {
  long status = 0;
  char* kind = nullptr;
  curl_easy_getinfo(curl, CURLINFO_RESPONSE_CODE, &status);
  curl_easy_getinfo(curl, CURLINFO_CONTENT_TYPE, &kind);
  reply.status = static_cast<int>(status);
  if (kind == nullptr) return;
  const std::string_view whole{kind};
  reply.content_type = lower(feeds::trimmed(whole.substr(0, whole.find(';'))));
}

}  // namespace

std::optional<Failure> CurlTransport::refusal(const Request& request) const {
  if (settings_.user_agent.empty())
    return failure(request, Trouble::no_contact, false,
                   "not asked: expected `contact` in config.toml, an address at which the service can reach you");
  if (!may_call(request.url))
    return failure(request, Trouble::address, false, "expected an address that begins https://, or http:// on this machine");
  return std::nullopt;
}

Answer CurlTransport::get(const Request& request) {
  const auto failed = [&](Trouble trouble, const std::string& words, bool retry = false) {
    return tl::make_unexpected(failure(request, trouble, retry, words));
  };
  if (auto refused = refusal(request)) return tl::make_unexpected(*refused);
  Handle handle = handles_->take(request.service);
  if (!handle) return failed(Trouble::local, "not enough memory");
  const auto answer = [&]() -> Answer {
    CURL* curl = handle.get();
    curl_easy_reset(curl);  // keeps connections, sessions and names looked up
    curl_slist* lines = nullptr;
    for (const Header& header : request.headers) lines = curl_slist_append(lines, fmt::format("{}: {}", header.name, header.value).c_str());
    if (request.key) lines = curl_slist_append(lines, fmt::format("{}: {}", request.key->name, request.key->secret.reveal()).c_str());
    const List headers{lines};
    Arriving arriving{{}, settings_.largest_body};
    std::array<char, CURL_ERROR_SIZE> detail{};
    set_options(curl, settings_, arriving, headers, detail);

    std::string url = request.url;
    const auto give_up = std::chrono::steady_clock::now() + settings_.whole_within;
    for (int hop = 0; hop <= most_redirects; ++hop) {
      // What is left of the call's time; curl takes 0 for no limit.
      const auto left = std::chrono::ceil<std::chrono::milliseconds>(give_up - std::chrono::steady_clock::now());
      curl_easy_setopt(curl, CURLOPT_TIMEOUT_MS, std::max(1L, static_cast<long>(left.count())));
      curl_easy_setopt(curl, CURLOPT_URL, url.c_str());
      // Plain http is for this machine alone: by a proxy it would leave it. Null is curl's own choice, the environment's.
      curl_easy_setopt(curl, CURLOPT_PROXY, is_local(url) ? "" : nullptr);
      arriving.reply = {};
      const CURLcode code = curl_easy_perform(curl);
      if (arriving.too_large) return failed(Trouble::too_large, fmt::format("a reply of over {} MiB", settings_.largest_body >> 20));
      if (code != CURLE_OK) {
        const Kind known = kind_of(code);
        const bool say_more = known.trouble == Trouble::tls && detail[0] != '\0';
        return failed(known.trouble, known.words + (say_more ? fmt::format(" ({})", feeds::for_message(detail.data(), 120)) : ""),
                      known.retry);
      }
      note_status_and_kind(curl, arriving.reply);
      if (request.key) strike_out(request.key->secret, arriving.reply);
      const std::string next = sent_on_to(curl, arriving.reply.status);
      if (next.empty()) return std::move(arriving.reply);
      if (request.key) return failed(Trouble::redirect, "redirects while a key is sent: not followed");
      if (!may_call(next) || (is_local(next) && !is_local(url)))
        return failed(Trouble::redirect, fmt::format("redirects to {}: not allowed", feeds::for_message(host_of(next))));
      url = next;
    }
    return failed(Trouble::redirect, "redirects without end");
  }();
  handles_->give_back(request.service, std::move(handle));
  return answer;
}

}  // namespace net
