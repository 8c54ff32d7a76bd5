// How an office sends: by which roads, with whose name and keys. Read from the table [post] of config.toml.
#pragma once
#include <chrono>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "settings/places.h"
#include "units/fault.h"

namespace settings {

// Where a password or key lies: in a variable of the environment, or in a file that nobody else can read. Never in the settings.
struct SecretPlace {
  std::string variable;
  std::filesystem::path file;
  [[nodiscard]] bool given() const { return !variable.empty() || !file.empty(); }
};

// The secret of a place; empty where none is given. `where` is how faults call it; they never hold the secret, nor the file's name, which
// might be one put in the wrong place. Faults: a variable that is not set, a file that is missing or readable by others, a text that is
// empty, longer than 500 bytes or holds control characters.
[[nodiscard]] units::Result<std::optional<std::string>> secret_at(const SecretPlace& place, const std::string& where,
                                                                  const Environment& environment);

enum class Login { none, bearer, basic };
enum class BodyKind { form, json };
enum class SignatureForm { hex, base64 };

// A gateway's HTTP interface in the owner's words. In address, headers, form and JSON stand {to}, {text}, {subject}, {key} (the message's
// own, the same whenever it is sent again) and, but in the address, {secret}.
struct HttpRoad {
  std::string address, method = "POST";
  std::vector<std::pair<std::string, std::string>> headers;
  BodyKind body = BodyKind::form;
  std::vector<std::pair<std::string, std::string>> form;
  std::string json;  // a JSON text, placeholders within its strings
  Login login = Login::none;
  std::string user;
  SecretPlace secret;
  int success_from = 200, success_to = 299;        // status
  std::string success_pointer, success_value;      // and what stands at a JSON pointer of the answer; empty: any answer
  std::string idempotency_header;                  // carries {key}; empty: the gateway has none
  std::string signature_header, signature_prefix;  // HMAC-SHA256 over the body; empty: not signed
  SignatureForm signature_form = SignatureForm::hex;
  SecretPlace signature_secret;
  std::optional<std::filesystem::path> ca_file;
  std::chrono::seconds timeout{30};
};

enum class MailTls { starttls, implicit };

struct SmtpRoad {
  std::string host;
  int port = 0;  // 0: 587, or 465 for TLS from the first byte
  MailTls tls = MailTls::starttls;
  std::string user;  // empty: no login
  SecretPlace secret;
  std::string from, from_name;
  std::optional<std::filesystem::path> ca_file;
  std::chrono::seconds timeout{60};
};

// How texts go out: nowhere, by HTTP, into a folder for a modem's daemon, or to standard output.
enum class TextRoad { none, http, spool, standard_output };

struct Post {
  bool sending = false;  // nothing leaves the machine until the owner says sending = "on"
  TextRoad texts = TextRoad::none;
  std::string office;           // where the office is told of messages that failed: a mail address, or a telephone number; empty: nowhere
  std::string call;             // the number that crews are asked to call; empty: none is said
  bool tell_no_change = false;  // crews are told in the morning that nothing changed
  std::optional<HttpRoad> http;
  std::optional<SmtpRoad> smtp;
  std::filesystem::path spool;
};

}  // namespace settings
