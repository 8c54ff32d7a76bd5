// Texts by a gateway's HTTP interface, as the owner describes it.
#pragma once
#include <string>

#include "post/sender.h"
#include "settings/post.h"

namespace post {

// What an answer's status means: 401, 402, 403, 404, 405, 407, 410 and redirects refuse all messages alike; 408, 425, 429 and 5xx are for
// later; but 502 and 504, given by a proxy that has no answer itself, and 409 on a repeated key leave it open. Other 4xx refuse this
// message.
[[nodiscard]] Outcome meaning_of_status(int status, bool has_idempotency_key);

// One connection a message, so that no transport repeats what was sent. A time-out or a cut before the request is wholly handed over is for
// later, after that uncertain. No redirect is followed. https, or http to this machine, by TLS 1.2 or better.
class HttpSender : public Sender {
 public:
  struct Secrets {
    std::string login, signature;  // empty: none
  };
  HttpSender(settings::HttpRoad road, Secrets secrets);
  [[nodiscard]] Outcome send(const Outgoing& message) override;
  [[nodiscard]] bool tells_repeats_apart() const override { return !road_.idempotency_header.empty(); }

 private:
  settings::HttpRoad road_;
  Secrets secrets_;
};

}  // namespace post
