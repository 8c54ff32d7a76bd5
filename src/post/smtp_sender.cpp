#include "post/smtp_sender.h"

#include <fmt/format.h>

#include <charconv>
#include <string_view>

#include "post/curl_parts.h"
#include "post/mail.h"

namespace post {
namespace {

// The dialogue as far as it matters: the last answer, and how much of the mail was written before it.
struct Dialogue {
  std::size_t written = 0;
  int code = 0;
  bool answered_after_mail = false;
  bool quitting = false;  // what is answered from here on says nothing of the mail
  std::size_t length = 0;
};

int watch(CURL*, curl_infotype kind, char* data, std::size_t count, void* to) {
  Dialogue& dialogue = *static_cast<Dialogue*>(to);
  if (kind == CURLINFO_DATA_OUT) dialogue.written += count;
  if (kind == CURLINFO_HEADER_OUT && std::string_view{data, count}.starts_with("QUIT")) dialogue.quitting = true;
  int code = 0;
  if (kind == CURLINFO_HEADER_IN && !dialogue.quitting && count >= 3 && std::from_chars(data, data + 3, code).ec == std::errc{} &&
      code >= 200) {
    dialogue.code = code;
    dialogue.answered_after_mail = dialogue.written > 0;
  }
  return 0;
}

Outcome meaning_of_answer(int code, bool login_denied) {
  if (code >= 400 && code < 500) return {Delivery::later, fmt::format("the mail server answers {}: try again", code), false, {}, code};
  if (login_denied) return {Delivery::refused, fmt::format("the mail server answers {}: login is wrong", code), true, {}, code};
  return {Delivery::refused, fmt::format("the mail server answers {}: it does not take this mail", code), false, {}, code};
}

}  // namespace

SmtpSender::SmtpSender(settings::SmtpRoad road, std::string password, std::function<units::UtcTime()> now)
    : road_(std::move(road)), password_(std::move(password)), now_(std::move(now)) {}

Outcome SmtpSender::send(const Outgoing& message) {
  if (!is_mail_address(message.to)) return {Delivery::refused, "expected a mail address such as name@place.example"};
  const Easy easy = easy_handle(road_.timeout, road_.ca_file);
  if (!easy) return {Delivery::later, "not enough memory"};
  CURL* curl = easy.get();
  const bool implicit = road_.tls == settings::MailTls::implicit;
  const int port = road_.port != 0 ? road_.port : implicit ? 465 : 587;
  Supply supply{mail_of(message, {road_.from, road_.from_name, now_()})};
  Dialogue dialogue;
  dialogue.length = supply.bytes.size();
  List to;
  append(to, "<" + message.to + ">");
  curl_easy_setopt(curl, CURLOPT_URL, fmt::format("{}://{}:{}/sapdraw", implicit ? "smtps" : "smtp", road_.host, port).c_str());
  curl_easy_setopt(curl, CURLOPT_PROTOCOLS_STR, "smtp,smtps");
  curl_easy_setopt(curl, CURLOPT_PROXY, "");
  curl_easy_setopt(curl, CURLOPT_USE_SSL, static_cast<long>(CURLUSESSL_ALL));
  if (!road_.user.empty()) {
    curl_easy_setopt(curl, CURLOPT_USERNAME, road_.user.c_str());
    curl_easy_setopt(curl, CURLOPT_PASSWORD, password_.c_str());
  }
  // Also bounds the farewell, which comes after the time of the whole.
  curl_easy_setopt(curl, CURLOPT_SERVER_RESPONSE_TIMEOUT, static_cast<long>(road_.timeout.count()));
  curl_easy_setopt(curl, CURLOPT_MAIL_FROM, fmt::format("<{}>", road_.from).c_str());
  curl_easy_setopt(curl, CURLOPT_MAIL_RCPT, to.get());
  curl_easy_setopt(curl, CURLOPT_UPLOAD, 1L);
  curl_easy_setopt(curl, CURLOPT_READFUNCTION, &Supply::read);
  curl_easy_setopt(curl, CURLOPT_READDATA, &supply);
  curl_easy_setopt(curl, CURLOPT_VERBOSE, 1L);  // to hear the dialogue; watch() prints nothing
  curl_easy_setopt(curl, CURLOPT_DEBUGFUNCTION, watch);
  curl_easy_setopt(curl, CURLOPT_DEBUGDATA, &dialogue);
  const CURLcode code = curl_easy_perform(curl);

  if (dialogue.answered_after_mail && dialogue.code < 300) return {Delivery::delivered, "", false, {}, dialogue.code};
  if (dialogue.code >= 400) return meaning_of_answer(dialogue.code, code == CURLE_LOGIN_DENIED);
  if (code == CURLE_LOGIN_DENIED) return {Delivery::refused, "the mail server offers no login that can be used", true};
  if (dialogue.written >= dialogue.length)
    return {Delivery::uncertain, code == CURLE_OPERATION_TIMEDOUT ? "sent, and no answer in time" : "sent, and the connection broke off"};
  return before_sending(code);
}

}  // namespace post
