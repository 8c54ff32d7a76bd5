#include "settings/post.h"

#include <doctest/doctest.h>
#include <unistd.h>

#include <fstream>

#include "settings/settings.h"

using namespace settings;

namespace {

std::string refusal(const std::string& content) {
  const auto read = read_settings("config.toml", "[post]\n" + content);
  return read ? "" : read.error().line();
}

const std::string http = "texts = \"http\"\n[post.http]\naddress = \"https://gateway.example/send\"\n";
const std::string smtp = "[post.smtp]\nhost = \"mail.example\"\nfrom = \"office@trees.example\"\n";

}  // namespace

TEST_SUITE("settings") {
  TEST_CASE("nothing is sent until the owner says so, and no road is there by itself") {
    const auto read = read_settings("config.toml", "");
    REQUIRE(read.has_value());
    CHECK_FALSE(read->post.sending);
    CHECK(read->post.texts == TextRoad::none);
    CHECK_FALSE(read->post.http.has_value());
    CHECK_FALSE(read->post.smtp.has_value());
    CHECK(read_settings("config.toml", "[post]\nsending = \"on\"")->post.sending);
    CHECK(refusal("sending = true") == "config.toml:2: post.sending: expected one of on, off");
    for (const char* office : {"desk@trees.example", "+1 (555) 010-0199"})
      CHECK(read_settings("config.toml", std::string{"[post]\noffice = \""} + office + "\"")->post.office == office);
    CHECK(refusal("office = \"the desk\"") == "config.toml:2: post.office: expected a mail address or a telephone number");
  }

  TEST_CASE("a gateway and a mail server are read whole") {
    const auto read = read_settings("config.toml", R"([post]
sending = "on"
texts = "http"
[post.http]
address = "https://gateway.example/send?to={to}"
method = "PUT"
body = "json"
json = '{"to": "{to}", "parts": {"text": "{text}"}}'
headers = { X-Office = "4", X-Key = "{secret}" }
login = "basic"
user = "office"
secret_variable = "GATEWAY_KEY"
success_status = [200, 202]
success_pointer = "/status"
success_value = "queued"
idempotency_header = "Idempotency-Key"
signature_header = "X-Signature"
signature_prefix = "sha256="
signature_form = "base64"
signature_secret_file = "/etc/signing"
ca_file = "/etc/ca.pem"
timeout_s = 5
[post.smtp]
host = "mail.example"
port = 2525
tls = "implicit"
user = "office"
secret_file = "/etc/mail-password"
from = "office@trees.example"
from_name = "Tree office"
)");
    REQUIRE(read.has_value());
    const HttpRoad& road = *read->post.http;
    CHECK(road.method == "PUT");
    CHECK(road.body == BodyKind::json);
    CHECK(road.headers.size() == 2);
    CHECK(road.login == Login::basic);
    CHECK(road.secret.variable == "GATEWAY_KEY");
    CHECK(road.success_to == 202);
    CHECK(road.success_value == "queued");
    CHECK(road.signature_form == SignatureForm::base64);
    CHECK(road.timeout == std::chrono::seconds{5});
    const SmtpRoad& mail = *read->post.smtp;
    CHECK(mail.port == 2525);
    CHECK(mail.tls == MailTls::implicit);
    CHECK(mail.from_name == "Tree office");
  }

  TEST_CASE("a gateway half described is refused, and no fault repeats a value") {
    CHECK(refusal(http) == "");
    CHECK(refusal("texts = \"http\"") == "post.http: expected a gateway, for texts = \"http\"");
    CHECK(refusal("texts = \"spool\"") == "post.spool: expected a folder, for texts = \"spool\"");
    CHECK(refusal(http + "login = \"bearer\"") == "post.http.secret_file: expected secret_file or secret_variable for the login");
    CHECK(refusal(http + "signature_header = \"X-S\"").starts_with("post.http.signature_secret_file: expected"));
    CHECK(refusal(http + "success_pointer = \"/a\"").starts_with("post.http.success_value: expected"));
    CHECK(refusal(http + "form = { To = \"{too}\" }").find("expected no placeholder but {to}") != std::string::npos);
    CHECK(refusal(http + "headers = { \"X Y\" = \"1\" }").find("expected a header's name") != std::string::npos);
    CHECK(refusal(http + "headers = { X = \"a\\r\\nB: c\" }").find("expected one line of text") != std::string::npos);
    CHECK(refusal(http + "secret = \"hunter2\"").find("hunter2") == std::string::npos);
    CHECK(refusal(http + "secret = \"hunter2\"").find("post.http.secret: expected one of") != std::string::npos);
    for (const std::string address :
         {"http://gateway.example/", "https://{to}.example/", "ftp://x.example", "https://u:p@x.example/", "https://x.example/?k={secret}"})
      CHECK(refusal("[post.http]\naddress = \"" + address + "\"").starts_with("config.toml:3: post.http.address: expected"));
    CHECK(refusal("[post.http]\naddress = \"http://127.0.0.1:80/\"") == "");
  }

  TEST_CASE("a mail server half described is refused") {
    CHECK(refusal(smtp) == "");
    CHECK(refusal("[post.smtp]\nhost = \"mail.example\"") == "post.smtp.from: expected the office's mail address");
    CHECK(refusal(smtp + "user = \"office\"") == "post.smtp.secret_file: expected secret_file or secret_variable for the login");
    CHECK(refusal("[post.smtp]\nhost = \"a b\"").find("post.smtp.host: expected") != std::string::npos);
    CHECK(refusal("[post.smtp]\nhost = \"m.example\"\nfrom = \"a@b.example\\r\\nBcc: c@d.example\"")
              .find("post.smtp.from: expected a mail address") != std::string::npos);
  }

  TEST_CASE("a secret comes from a variable or a file of one's own, and is told to nobody") {
    const auto environment = [](const std::string& name) {
      return name == "KEY" ? std::optional<std::string>{"s3cret word"} : std::nullopt;
    };
    CHECK_FALSE(secret_at({}, "post.x", environment)->has_value());
    CHECK(secret_at({"KEY", {}}, "post.x", environment)->value() == "s3cret word");
    CHECK(secret_at({"NONE", {}}, "post.x", environment).error().line() == "post.x: expected that variable of the environment to be set");
    const std::filesystem::path file = std::filesystem::temp_directory_path() / ("sapdraw-secret-" + std::to_string(::getpid()));
    std::ofstream{file} << "s3cret\nmore\n";
    std::filesystem::permissions(file, std::filesystem::perms::owner_read);
    CHECK(secret_at({"", file}, "post.x", environment)->value() == "s3cret");
    std::filesystem::permissions(file, std::filesystem::perms::owner_read | std::filesystem::perms::others_read);
    CHECK(secret_at({"", file}, "post.x", environment).error().line() == "post.x: expected a file that only you can read: chmod 600");
    std::filesystem::remove(file);
    CHECK(secret_at({"", file}, "post.x", environment).error().line() == "post.x: expected a key file that can be read");
  }
}
