#include "settings/read_post.h"

#include <array>

namespace settings {
namespace {

using Expected = std::optional<std::string>;

bool is_word(const std::string& text) {
  return !text.empty() && text.size() <= 200 && std::ranges::all_of(text, [](char c) { return c > 0x20 && c < 0x7f; });
}

// A name that may stand before the colon of a header (RFC 9110, a token).
bool is_header_name(const std::string& text) {
  return !text.empty() && text.size() <= 100 && std::ranges::all_of(text, [](unsigned char c) {
    return std::isalnum(c) != 0 || std::string_view{"!#$%&'*+-.^_`|~"}.find(static_cast<char>(c)) != std::string_view::npos;
  });
}

bool is_one_line(const std::string& text) { return text.size() <= 1000 && std::ranges::none_of(text, is_control); }

bool is_gateway(const std::string& text) {
  if (text.size() > 1000 || std::ranges::any_of(text, [](char c) { return is_control(c) || c == ' ' || c == '#' || c == '@'; }))
    return false;
  if (text.starts_with("https://")) return text.size() > 8 && text[8] != '{';
  return text.starts_with("http://") && is_loopback(std::string_view{text}.substr(7));
}

bool is_mail(const std::string& text) {
  const auto at = text.find('@');
  return is_word(text) && text.size() <= 254 && at != std::string::npos && at > 0 && at + 1 < text.size() &&
         text.find('@', at + 1) == std::string::npos && text.find_first_of("<>()[],;:\\\"") == std::string::npos;
}

bool is_number(const std::string& text) {
  return text.size() >= 3 && text.size() <= 30 && std::ranges::all_of(text, [](unsigned char c) {
           return std::isdigit(c) != 0 || std::string_view{"+ -()."}.find(static_cast<char>(c)) != std::string_view::npos;
         });
}

bool is_host(const std::string& text) {
  return is_word(text) &&
         std::ranges::all_of(text, [](unsigned char c) { return std::isalnum(c) != 0 || c == '.' || c == '-' || c == ':'; });
}

// Only those placeholders that are allowed there. Braces that enclose anything but a small-letter word are text, as JSON has them.
Expected unknown_placeholder(const std::string& text, bool secret_allowed) {
  for (auto at = text.find('{'); at != std::string::npos; at = text.find('{', at + 1)) {
    const auto close = text.find('}', at);
    if (close == std::string::npos) return std::nullopt;
    const std::string name = text.substr(at + 1, close - at - 1);
    const bool word = !name.empty() && std::ranges::all_of(name, [](char c) { return c >= 'a' && c <= 'z'; });
    if (!word || name == "to" || name == "text" || name == "subject" || name == "key" || (name == "secret" && secret_allowed)) continue;
    return secret_allowed ? "expected no placeholder but {to}, {text}, {subject}, {key}, {secret}"
                          : "expected no placeholder but {to}, {text}, {subject}, {key}";
  }
  return std::nullopt;
}

void read_file(Table& table, std::string_view key, std::filesystem::path& to) {
  table.read(key, [&](const toml::node& node) {
    std::string path;
    auto expected = into_text(node, path, "expected the path of a file or folder", not_empty);
    if (!expected) to = path;
    return expected;
  });
}

void read_file(Table& table, std::string_view key, std::optional<std::filesystem::path>& to) {
  std::filesystem::path path;
  read_file(table, key, path);
  if (!path.empty()) to = path;
}

void read_secret(Table& table, const std::string& name, SecretPlace& to) {
  read_file(table, name + "_file", to.file);
  table.read(name + "_variable", [&](const toml::node& node) {
    return into_text(node, to.variable, "expected the name of a variable of the environment", [](const std::string& text) {
      return !text.empty() && std::ranges::all_of(text, [](unsigned char c) { return std::isalnum(c) != 0 || c == '_'; });
    });
  });
}

void read_pairs(Table table, bool header_names, std::vector<std::pair<std::string, std::string>>& to, std::optional<units::Fault>& fault) {
  table.keep_quiet();
  table.each([&](const std::string& key, const toml::node& node) -> Expected {
    std::string value;
    if (header_names && !is_header_name(key)) return "expected a header's name";
    if (auto expected = into_text(node, value, "expected one line of text", is_one_line)) return expected;
    if (auto expected = unknown_placeholder(value, true)) return expected;
    to.emplace_back(key, value);
    return std::nullopt;
  });
  if (!fault) fault = table.fault();
}

template <class Duration>
void read_seconds(Table& table, std::string_view key, Duration& to) {
  table.read(key, [&](const toml::node& node) {
    std::int64_t seconds = 0;
    auto expected = into_whole(node, seconds, 1, 600);
    if (!expected) to = std::chrono::seconds{seconds};
    return expected;
  });
}

void read_text(Table& table, std::string_view key, std::string& to, const std::string& expected, bool (*fits)(const std::string&)) {
  table.read(key, [&](const toml::node& node) { return into_text(node, to, expected, fits); });
}

// Pieces that only make sense together.
std::optional<units::Fault> half_described(const HttpRoad& road) {
  const auto missing = [](const char* key, const char* expected) { return units::Fault{std::string{"post.http."} + key, "", expected}; };
  if (road.address.empty()) return missing("address", "expected the gateway's address");
  if (road.body == BodyKind::json && road.json.empty() && road.method == "POST") return missing("json", "expected the JSON text to send");
  if (road.login != Login::none && !road.secret.given())
    return missing("secret_file", "expected secret_file or secret_variable for the login");
  if (road.login == Login::basic && road.user.empty()) return missing("user", "expected the user's name for the login");
  if (!road.signature_header.empty() && !road.signature_secret.given())
    return missing("signature_secret_file", "expected signature_secret_file or signature_secret_variable");
  if (road.success_pointer.empty() != road.success_value.empty())
    return missing("success_value", "expected success_pointer and success_value together");
  return std::nullopt;
}

std::optional<units::Fault> read_http(Table& table, HttpRoad& road) {
  table.keep_quiet();
  std::optional<units::Fault> pairs_fault;
  table.read("address", [&](const toml::node& node) -> Expected {
    if (auto expected = into_text(node, road.address, "expected an address that begins https://, or http:// on this machine", is_gateway))
      return expected;
    return unknown_placeholder(road.address, false);
  });
  table.read("method", [&](const toml::node& node) {
    return into_choice<std::string>(node, road.method, {{"POST", "POST"}, {"PUT", "PUT"}, {"GET", "GET"}});
  });
  table.read("body", [&](const toml::node& node) {
    return into_choice<BodyKind>(node, road.body, {{"form", BodyKind::form}, {"json", BodyKind::json}});
  });
  read_pairs(table.table("headers"), true, road.headers, pairs_fault);
  read_pairs(table.table("form"), false, road.form, pairs_fault);
  table.read("json", [&](const toml::node& node) -> Expected {
    if (auto expected = into_text(node, road.json, "expected a JSON text", not_empty)) return expected;
    return unknown_placeholder(road.json, true);
  });
  table.read("login", [&](const toml::node& node) {
    return into_choice<Login>(node, road.login, {{"none", Login::none}, {"bearer", Login::bearer}, {"basic", Login::basic}});
  });
  read_text(table, "user", road.user, "expected a user's name in one line", is_one_line);
  read_secret(table, "secret", road.secret);
  table.read("success_status", [&](const toml::node& node) -> Expected {
    const toml::array* range = node.as_array();
    const bool two = range != nullptr && range->size() == 2;
    const auto from = two ? (*range)[0].value_exact<std::int64_t>() : std::nullopt,
               to = two ? (*range)[1].value_exact<std::int64_t>() : std::nullopt;
    if (!from || !to || *from < 200 || *to > 299 || *from > *to) return "expected two status numbers from 200 to 299, as [200, 202]";
    road.success_from = static_cast<int>(*from);
    road.success_to = static_cast<int>(*to);
    return std::nullopt;
  });
  read_text(table, "success_pointer", road.success_pointer, "expected a JSON pointer such as /status",
            [](const std::string& text) { return text.starts_with('/') && is_one_line(text); });
  read_text(table, "success_value", road.success_value, "expected one line of text",
            [](const std::string& text) { return !text.empty() && is_one_line(text); });
  read_text(table, "idempotency_header", road.idempotency_header, "expected a header's name", is_header_name);
  read_text(table, "signature_header", road.signature_header, "expected a header's name", is_header_name);
  read_text(table, "signature_prefix", road.signature_prefix, "expected one line of text", is_one_line);
  table.read("signature_form", [&](const toml::node& node) {
    return into_choice<SignatureForm>(node, road.signature_form, {{"hex", SignatureForm::hex}, {"base64", SignatureForm::base64}});
  });
  read_secret(table, "signature_secret", road.signature_secret);
  read_file(table, "ca_file", road.ca_file);
  read_seconds(table, "timeout_s", road.timeout);
  if (pairs_fault) return pairs_fault;
  if (auto fault = table.fault()) return fault;
  return half_described(road);
}

std::optional<units::Fault> read_smtp(Table& table, SmtpRoad& road) {
  table.keep_quiet();
  read_text(table, "host", road.host, "expected the mail server's name", is_host);
  table.read("port", [&](const toml::node& node) { return into_whole(node, road.port, 1, 65535); });
  table.read("tls", [&](const toml::node& node) {
    return into_choice<MailTls>(node, road.tls, {{"starttls", MailTls::starttls}, {"implicit", MailTls::implicit}});
  });
  read_text(table, "user", road.user, "expected a user's name in one line", is_one_line);
  read_secret(table, "secret", road.secret);
  read_text(table, "from", road.from, "expected a mail address", is_mail);
  read_text(table, "from_name", road.from_name, "expected one line of text", is_one_line);
  read_file(table, "ca_file", road.ca_file);
  read_seconds(table, "timeout_s", road.timeout);
  if (auto fault = table.fault()) return fault;
  if (road.host.empty()) return units::Fault{"post.smtp.host", "", "expected the mail server's name"};
  if (road.from.empty()) return units::Fault{"post.smtp.from", "", "expected the office's mail address"};
  if (!road.user.empty() && !road.secret.given())
    return units::Fault{"post.smtp.secret_file", "", "expected secret_file or secret_variable for the login"};
  return std::nullopt;
}

}  // namespace

std::optional<units::Fault> read_post(Table& table, Post& post) {
  table.keep_quiet();
  table.read("sending", [&](const toml::node& node) { return into_choice<bool>(node, post.sending, {{"on", true}, {"off", false}}); });
  table.read("texts", [&](const toml::node& node) {
    return into_choice<TextRoad>(
        node, post.texts,
        {{"none", TextRoad::none}, {"http", TextRoad::http}, {"spool", TextRoad::spool}, {"standard-output", TextRoad::standard_output}});
  });
  read_file(table, "spool", post.spool);
  read_text(table, "office", post.office, "expected a mail address or a telephone number",
            [](const std::string& text) { return is_mail(text) || is_number(text); });
  read_text(table, "call", post.call, "expected a telephone number", is_number);
  table.read("no_change", [&](const toml::node& node) {
    return into_choice<bool>(node, post.tell_no_change, {{"tell", true}, {"quiet", false}});
  });
  Table http = table.table("http"), smtp = table.table("smtp");
  if (auto fault = table.fault()) return fault;
  if (http.there())
    if (auto fault = read_http(http, post.http.emplace())) return fault;
  if (smtp.there())
    if (auto fault = read_smtp(smtp, post.smtp.emplace())) return fault;
  if (post.texts == TextRoad::http && !post.http) return units::Fault{"post.http", "", "expected a gateway, for texts = \"http\""};
  if (post.texts == TextRoad::spool && post.spool.empty())
    return units::Fault{"post.spool", "", "expected a folder, for texts = \"spool\""};
  return std::nullopt;
}

}  // namespace settings
