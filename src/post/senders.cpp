#include "post/senders.h"

#include "post/fill_in.h"
#include "post/http_sender.h"
#include "post/local_senders.h"
#include "post/smtp_sender.h"

namespace post {
namespace {

units::Result<std::unique_ptr<Sender>> http_road(const settings::HttpRoad& road, const settings::Environment& environment) {
  const auto login = settings::secret_at(road.secret, "post.http.secret", environment);
  if (!login) return tl::make_unexpected(login.error());
  const auto signature = settings::secret_at(road.signature_secret, "post.http.signature_secret", environment);
  if (!signature) return tl::make_unexpected(signature.error());
  const HttpSender::Secrets secrets{login->value_or(""), signature->value_or("")};
  const auto trial = fill_in(road, secrets.login, {"key", "1", "", ""});
  if (!trial) return tl::make_unexpected(trial.error());
  return std::make_unique<HttpSender>(road, secrets);
}

}  // namespace

units::Result<Senders> senders_of(const settings::Post& post, const settings::Environment& environment, std::function<units::UtcTime()> now,
                                  std::ostream& standard_output) {
  if (!post.sending) return units::fault("post.sending", "", "expected \"on\": nothing is sent until the owner says so");
  Senders senders;
  if (post.texts == settings::TextRoad::http && post.http) {
    auto road = http_road(*post.http, environment);
    if (!road) return tl::make_unexpected(road.error());
    senders.texts = std::move(*road);
  } else if (post.texts == settings::TextRoad::spool) {
    senders.texts = std::make_unique<SpoolSender>(post.spool);
  } else if (post.texts == settings::TextRoad::standard_output) {
    senders.texts = std::make_unique<StreamSender>(standard_output);
  }
  if (post.smtp) {
    const auto password = settings::secret_at(post.smtp->secret, "post.smtp.secret", environment);
    if (!password) return tl::make_unexpected(password.error());
    senders.mails = std::make_unique<SmtpSender>(*post.smtp, password->value_or(""), std::move(now));
  }
  return senders;
}

}  // namespace post
