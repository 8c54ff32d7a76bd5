#include "post/fill_in.h"

#include <algorithm>
#include <functional>
#include <nlohmann/json.hpp>

namespace post {
namespace {

using Escape = std::function<std::string(const std::string&)>;

std::string percent(const std::string& text) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string out;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool safe =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '.' || c == '_' || c == '~';
    if (safe)
      out += c;
    else
      (out += '%') += {digits[byte >> 4], digits[byte & 15u]};
  }
  return out;
}

std::string filled(const std::string& form, const Outgoing& message, const std::string& secret, const Escape& escape) {
  const std::pair<std::string_view, const std::string*> values[]{
      {"{to}", &message.to}, {"{text}", &message.text}, {"{subject}", &message.subject}, {"{key}", &message.key}, {"{secret}", &secret}};
  std::string out;
  for (std::size_t at = 0; at < form.size();) {
    const auto* found =
        std::ranges::find_if(values, [&](const auto& value) { return form.compare(at, value.first.size(), value.first) == 0; });
    if (found == std::end(values)) {
      out += form[at++];
    } else {
      out += escape(*found->second);
      at += found->first.size();
    }
  }
  return out;
}

void fill_strings(nlohmann::json& node, const std::function<std::string(const std::string&)>& fill) {
  if (node.is_string()) {
    node = fill(node.get<std::string>());
  } else if (node.is_structured()) {
    for (auto& inner : node) fill_strings(inner, fill);
  }
}

const auto as_it_is = [](const std::string& text) { return text; };

}  // namespace

units::Result<Filled> fill_in(const settings::HttpRoad& road, const std::string& secret, const Outgoing& message) {
  Filled all;
  all.address = filled(road.address, message, "", percent);
  if (road.method == "GET") {
    // Everything stands in the address.
  } else if (road.body == settings::BodyKind::form) {
    all.content_type = "application/x-www-form-urlencoded";
    for (const auto& [name, value] : road.form)
      all.body += (all.body.empty() ? "" : "&") + percent(name) + "=" + percent(filled(value, message, secret, as_it_is));
  } else {
    all.content_type = "application/json";
    nlohmann::json json = nlohmann::json::parse(road.json, nullptr, false);
    if (json.is_discarded()) return units::fault("post.http.json", "", "expected a JSON text, placeholders within its strings");
    fill_strings(json, [&](const std::string& text) { return filled(text, message, secret, as_it_is); });
    all.body = json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  }
  std::vector<std::pair<std::string, std::string>> headers = road.headers;
  if (!road.idempotency_header.empty()) headers.emplace_back(road.idempotency_header, "{key}");
  for (const auto& [name, value] : headers) {
    std::string said = filled(value, message, secret, as_it_is);
    if (std::ranges::any_of(said, [](char c) { return c < 0x20 || c >= 0x7f; }))
      return units::fault("post.http.headers." + name, "", "expected what can stand in a header: visible ASCII");
    all.headers.emplace_back(name, std::move(said));
  }
  return all;
}

std::optional<bool> answer_says(const std::string& body, const std::string& pointer, const std::string& value) {
  const nlohmann::json json = nlohmann::json::parse(body, nullptr, false);
  if (json.is_discarded()) return std::nullopt;
  try {
    const nlohmann::json::json_pointer at{pointer};
    if (!json.contains(at)) return false;
    const auto& found = json.at(at);
    return found.is_string() ? found.get<std::string>() == value : found.dump() == value;
  } catch (const nlohmann::json::exception&) {
    return false;
  }
}

}  // namespace post
