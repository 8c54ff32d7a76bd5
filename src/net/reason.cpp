#include "net/reason.h"

#include <nlohmann/json.hpp>

#include "feeds/text.h"

namespace net {
namespace {

constexpr std::size_t longest_body = 64 * 1024;

std::string text_of(const nlohmann::json& object, const char* key) {
  const auto found = object.find(key);
  return found != object.end() && found->is_string() ? feeds::for_message(found->get_ref<const std::string&>(), 160) : std::string{};
}

}  // namespace

Reason reason_of(std::string_view body) {
  Reason reason;
  if (body.size() > longest_body) return reason;
  const auto json = nlohmann::json::parse(body, nullptr, false);
  if (!json.is_object()) return reason;
  reason.text = text_of(json, "reason");
  if (reason.text.empty()) reason.text = text_of(json, "detail");
  if (reason.text.empty()) reason.text = text_of(json, "title");
  reason.type = text_of(json, "type");
  reason.type = reason.type.substr(reason.type.rfind('/') + 1);
  reason.correlation = text_of(json, "correlationId");
  return reason;
}

}  // namespace net
