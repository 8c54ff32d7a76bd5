// What every JSON reply of a service goes through before its own reader sees it: size, whole JSON, no web page, no error of the service.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "feeds/json_node.h"
#include "units/fault.h"

namespace feeds {

// Larger inputs are refused before they are parsed.
inline constexpr std::size_t largest_input_bytes = 64u << 20;

// Faults, told as of `name`: larger than largest_input_bytes, empty, or a web page in place of a reply. `wanted` ends the line: "JSON".
[[nodiscard]] units::Result<std::string_view> reply_text(const std::string& name, std::string_view content, std::string_view wanted);

// What a service says instead of data, made fit for a message: {"error":true,"reason":...}, RFC 7807 problem details, or NCEI's
// {"errorMessage":...}; empty where it is none of these.
[[nodiscard]] std::optional<std::string> service_error(const JsonNode& root);

// The parsed reply. Faults besides those of reply_text: not whole JSON; a service's error, its words quoted. `wanted` is what it should
// have been ("alerts").
[[nodiscard]] units::Result<JsonDocument> parse_reply(const std::string& name, std::string_view content, std::string_view wanted);

}  // namespace feeds
