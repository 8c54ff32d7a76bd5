#include "feeds/reply.h"

#include <fmt/format.h>

#include "feeds/text.h"

namespace feeds {
namespace {

using units::Result;

std::string text_of(const JsonNode& root, std::string_view key) {
  const auto node = root.find(key);
  return node && node->is_text() ? std::string{*node->text()} : std::string{};
}

}  // namespace

Result<std::string_view> reply_text(const std::string& name, std::string_view content, std::string_view wanted) {
  if (content.size() > largest_input_bytes)
    return units::fault(name, fmt::format("{} bytes", content.size()), fmt::format("expected at most {} bytes", largest_input_bytes));
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  std::string_view start = content;
  if (start.starts_with(byte_order_mark)) start.remove_prefix(byte_order_mark.size());
  start = trimmed(start);
  if (start.starts_with('<'))
    return units::fault(name, for_message(start), fmt::format("expected {}, not a web page: the service is down or refused us", wanted));
  return start;
}

std::optional<std::string> service_error(const JsonNode& root) {
  constexpr std::size_t longest = 300;
  if (root.find("error") && root.find("reason")) return for_message(text_of(root, "reason"), longest);
  if (root.find("title") && root.find("status")) return for_message(text_of(root, "title") + ": " + text_of(root, "detail"), longest);
  if (root.find("errorMessage")) return for_message(text_of(root, "errorMessage"), longest);
  return std::nullopt;
}

Result<JsonDocument> parse_reply(const std::string& name, std::string_view content, std::string_view wanted) {
  const auto text = reply_text(name, content, "JSON");
  if (!text) return tl::make_unexpected(text.error());
  if (text->empty()) return units::fault(name, "", fmt::format("empty: expected {}", wanted));
  auto document = JsonDocument::parse(name, content);
  if (!document) return document;
  if (const auto said = service_error(document->root()))
    return units::fault(name, *said, fmt::format("expected {}, not a service's error", wanted));
  return document;
}

}  // namespace feeds
