#include "net/address.h"

#include <algorithm>

namespace net {
namespace {

std::string_view authority(std::string_view url) {
  const auto scheme = url.find("://");
  if (scheme == std::string_view::npos) return {};
  const std::string_view rest = url.substr(scheme + 3);
  return rest.substr(0, rest.find_first_of("/?#"));
}

bool all_digits_or_dots(std::string_view text) {
  return std::ranges::all_of(text, [](char c) { return (c >= '0' && c <= '9') || c == '.'; });
}

}  // namespace

std::string host_of(std::string_view url) {
  std::string_view place = authority(url);
  if (const auto at = place.rfind('@'); at != std::string_view::npos) place = place.substr(at + 1);
  return std::string{place.starts_with('[') ? place.substr(0, place.find(']') + 1) : place.substr(0, place.find(':'))};
}

bool is_local(std::string_view url) {
  const std::string host = host_of(url);
  return url.starts_with("http://") && (host == "localhost" || host == "[::1]" || (host.starts_with("127.") && all_digits_or_dots(host)));
}

bool may_call(std::string_view url) {
  if (authority(url).find('@') != std::string_view::npos || host_of(url).empty()) return false;
  if (std::ranges::any_of(url, [](char c) { return static_cast<unsigned char>(c) <= 0x20 || c == 0x7f; })) return false;
  return url.starts_with("https://") || is_local(url);
}

}  // namespace net
