#include "post/curl_parts.h"

#include <algorithm>
#include <cstring>
#include <mutex>

namespace post {

void append(List& list, const std::string& line) {
  curl_slist* longer = curl_slist_append(list.get(), line.c_str());
  if (longer == nullptr) return;
  static_cast<void>(list.release());
  list.reset(longer);
}

std::size_t Supply::read(char* to, std::size_t size, std::size_t count, void* supply) {
  Supply& self = *static_cast<Supply*>(supply);
  const std::size_t given = std::min(size * count, self.bytes.size() - self.taken);
  std::memcpy(to, self.bytes.data() + self.taken, given);
  self.taken += given;
  self.whole = self.taken == self.bytes.size();
  return given;
}

Easy easy_handle(std::chrono::seconds timeout, const std::optional<std::filesystem::path>& ca_file) {
  static std::once_flag once;
  std::call_once(once, [] { curl_global_init(CURL_GLOBAL_DEFAULT); });
  Easy easy{curl_easy_init()};
  CURL* curl = easy.get();
  if (curl == nullptr) return easy;
  curl_easy_setopt(curl, CURLOPT_NOSIGNAL, 1L);
  curl_easy_setopt(curl, CURLOPT_TIMEOUT, static_cast<long>(timeout.count()));
  curl_easy_setopt(curl, CURLOPT_CONNECTTIMEOUT, static_cast<long>(std::min<std::chrono::seconds::rep>(timeout.count(), 10)));
  curl_easy_setopt(curl, CURLOPT_SSLVERSION, static_cast<long>(CURL_SSLVERSION_TLSv1_2));
  curl_easy_setopt(curl, CURLOPT_SSL_VERIFYPEER, 1L);
  curl_easy_setopt(curl, CURLOPT_SSL_VERIFYHOST, 2L);
  curl_easy_setopt(curl, CURLOPT_FRESH_CONNECT, 1L);
  curl_easy_setopt(curl, CURLOPT_FORBID_REUSE, 1L);
  if (ca_file) curl_easy_setopt(curl, CURLOPT_CAINFO, ca_file->c_str());
  return easy;
}

Outcome before_sending(CURLcode code) {
  switch (code) {
    case CURLE_PEER_FAILED_VERIFICATION:
    case CURLE_SSL_CACERT_BADFILE:
    case CURLE_SSL_ISSUER_ERROR:
      return {Delivery::refused, "its certificate cannot be trusted", true};
    case CURLE_USE_SSL_FAILED:
      return {Delivery::refused, "it offers no TLS", true};
    case CURLE_URL_MALFORMAT:
    case CURLE_UNSUPPORTED_PROTOCOL:
      return {Delivery::refused, "an address that cannot be called", true};
    case CURLE_COULDNT_RESOLVE_HOST:
      return {Delivery::later, "no such host can be found: is the line down?"};
    case CURLE_COULDNT_CONNECT:
      return {Delivery::later, "no connection"};
    case CURLE_OPERATION_TIMEDOUT:
      return {Delivery::later, "no answer in time"};
    case CURLE_SSL_CONNECT_ERROR:
      return {Delivery::later, "no secure connection"};
    case CURLE_OUT_OF_MEMORY:
      return {Delivery::later, "not enough memory"};
    default:
      return {Delivery::later, "the connection broke off before it was sent"};
  }
}

}  // namespace post
