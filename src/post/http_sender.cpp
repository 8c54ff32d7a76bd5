#include "post/http_sender.h"

#include <fmt/format.h>

#include "net/address.h"
#include "post/curl_parts.h"
#include "post/digest.h"
#include "post/fill_in.h"

namespace post {
namespace {

constexpr std::size_t largest_answer = 1u << 20;
constexpr curl_off_t longest_wait_s = 24 * 3600;

std::size_t take(char* data, std::size_t, std::size_t count, void* to) {
  auto& body = *static_cast<std::string*>(to);
  if (body.size() + count > largest_answer) return 0;
  body.append(data, count);
  return count;
}

}  // namespace

Outcome meaning_of_status(int status, bool has_idempotency_key) {
  const auto said = [&](Delivery delivery, const char* words, bool configuration = false) {
    return Outcome{delivery, fmt::format("the gateway answers {}: {}", status, words), configuration, {}, status};
  };
  switch (status) {
    case 401:
    case 403:
      return said(Delivery::refused, "login or key is wrong", true);
    case 402:
      return said(Delivery::refused, "it wants to be paid", true);
    case 404:
    case 405:
    case 407:
    case 410:
      return said(Delivery::refused, "the address is wrong", true);
    case 409:
      return has_idempotency_key ? said(Delivery::uncertain, "this message is there already, or under way")
                                 : said(Delivery::refused, "conflict");
    case 408:
    case 425:
      return said(Delivery::later, "try again");
    case 429:
      return said(Delivery::later, "too many at once");
    case 502:
    case 504:
      return said(Delivery::uncertain, "no answer from behind it");
    default:
      break;
  }
  if (status >= 500) return said(Delivery::later, "it is in trouble");
  if (status >= 400) return said(Delivery::refused, "it does not take this message");
  if (status >= 300) return said(Delivery::refused, "redirects are not followed", true);
  return said(Delivery::uncertain, "not the status of success that the settings name");
}

HttpSender::HttpSender(settings::HttpRoad road, Secrets secrets) : road_(std::move(road)), secrets_(std::move(secrets)) {}

Outcome HttpSender::send(const Outgoing& message) {
  const auto filled = fill_in(road_, secrets_.login, message);
  if (!filled) return {Delivery::refused, filled.error().line(), true};
  if (!net::may_call(filled->address)) return {Delivery::refused, "an address that is not allowed", true};
  const Easy easy = easy_handle(road_.timeout, road_.ca_file);
  if (!easy) return {Delivery::later, "not enough memory"};
  CURL* curl = easy.get();

  List headers;
  append(headers, "Expect:");
  append(headers, "Accept: application/json, */*;q=0.5");
  if (road_.method != "GET") append(headers, "Content-Type: " + filled->content_type);
  for (const auto& [name, value] : filled->headers) append(headers, name + ": " + value);
  if (road_.login == settings::Login::bearer) append(headers, "Authorization: Bearer " + secrets_.login);
  if (road_.login == settings::Login::basic) append(headers, "Authorization: Basic " + base64(road_.user + ":" + secrets_.login));
  if (!road_.signature_header.empty()) {
    const std::string signature = hmac_sha256(secrets_.signature, filled->body);
    append(headers, road_.signature_header + ": " + road_.signature_prefix +
                        (road_.signature_form == settings::SignatureForm::hex ? hex(signature) : base64(signature)));
  }

  Supply supply{filled->body};
  std::string answer;
  curl_easy_setopt(curl, CURLOPT_URL, filled->address.c_str());
  curl_easy_setopt(curl, CURLOPT_PROTOCOLS_STR, "http,https");
  curl_easy_setopt(curl, CURLOPT_HTTP_VERSION, static_cast<long>(CURL_HTTP_VERSION_1_1));
  curl_easy_setopt(curl, CURLOPT_FOLLOWLOCATION, 0L);
  curl_easy_setopt(curl, CURLOPT_USERAGENT, "sapdraw");
  curl_easy_setopt(curl, CURLOPT_HTTPHEADER, headers.get());
  curl_easy_setopt(curl, CURLOPT_PROXY, net::is_local(filled->address) ? "" : nullptr);
  curl_easy_setopt(curl, CURLOPT_WRITEFUNCTION, take);
  curl_easy_setopt(curl, CURLOPT_WRITEDATA, &answer);
  if (road_.method != "GET") {
    curl_easy_setopt(curl, CURLOPT_POST, 1L);
    curl_easy_setopt(curl, CURLOPT_CUSTOMREQUEST, road_.method.c_str());
    curl_easy_setopt(curl, CURLOPT_POSTFIELDSIZE_LARGE, static_cast<curl_off_t>(supply.bytes.size()));
    curl_easy_setopt(curl, CURLOPT_READFUNCTION, &Supply::read);
    curl_easy_setopt(curl, CURLOPT_READDATA, &supply);
  }
  const CURLcode code = curl_easy_perform(curl);

  long status = 0;
  curl_off_t ready_us = 0;
  curl_easy_getinfo(curl, CURLINFO_RESPONSE_CODE, &status);
  curl_easy_getinfo(curl, CURLINFO_PRETRANSFER_TIME_T, &ready_us);
  const int code_of_answer = static_cast<int>(status);
  const bool success = code_of_answer >= road_.success_from && code_of_answer <= road_.success_to;
  // The status alone tells, even where the rest of the answer got lost, unless the body is asked for its word.
  const bool answered = code_of_answer >= 200 && (code == CURLE_OK || !success || road_.success_pointer.empty());
  if (!answered) {
    const bool handed_over = ready_us > 0 && (road_.method == "GET" || supply.whole || supply.bytes.empty());
    if (!handed_over) return before_sending(code);
    return {Delivery::uncertain, code == CURLE_OPERATION_TIMEDOUT ? "sent, and no answer in time" : "sent, and the answer broke off"};
  }
  if (!success) {
    Outcome outcome = meaning_of_status(code_of_answer, !road_.idempotency_header.empty());
    curl_off_t wait_s = 0;
    if (outcome.delivery == Delivery::later && curl_easy_getinfo(curl, CURLINFO_RETRY_AFTER, &wait_s) == CURLE_OK && wait_s > 0)
      outcome.wait = std::chrono::seconds{std::min(wait_s, longest_wait_s)};
    return outcome;
  }
  if (!road_.success_pointer.empty()) {
    const auto says = answer_says(answer, road_.success_pointer, road_.success_value);
    if (!says) return {Delivery::uncertain, "the gateway's answer cannot be read", false, {}, code_of_answer};
    if (!*says) return {Delivery::refused, "the gateway's answer does not say that it took the message", false, {}, code_of_answer};
  }
  return {Delivery::delivered, "", false, {}, code_of_answer};
}

}  // namespace post
