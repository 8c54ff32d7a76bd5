// Mail by SMTP, with TLS and login.
#pragma once
#include <functional>
#include <string>

#include "post/sender.h"
#include "settings/post.h"
#include "units/time.h"

namespace post {

// One connection a mail. TLS is required. A 4xx answer is for later, a 5xx refuses the mail; a login refused for good, an untrusted
// certificate and a server without TLS refuse all mails alike. A connection cut or out of time before the whole mail was handed over is for
// later. After that, without an answer, it is uncertain: where a small mail went out in one piece, nobody can tell whether its end arrived.
class SmtpSender : public Sender {
 public:
  // `now` dates the mail.
  SmtpSender(settings::SmtpRoad road, std::string password, std::function<units::UtcTime()> now);
  [[nodiscard]] Outcome send(const Outgoing& message) override;
  [[nodiscard]] bool tells_repeats_apart() const override { return false; }

 private:
  settings::SmtpRoad road_;
  std::string password_;
  std::function<units::UtcTime()> now_;
};

}  // namespace post
