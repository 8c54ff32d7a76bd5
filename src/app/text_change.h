// `text resend` and `text cancel`: what a person decides about one message of the outbox.
#pragma once
#include <string>

#include "app/outcome.h"
#include "app/request.h"

namespace app {

struct TextResendRequest {
  std::string id;
  bool again = false;  // though it was sent
  std::string why;
};

// Queues a message that failed, may have been sent, or was cancelled, with all its tries before it; `text send` sends it. Its key stays, so
// that a gateway that has it already does not send it twice; with `again` it is a new one. Faults: no such message; one that is a draft,
// queued, being sent; one that was sent, without `again`; one that has outlived its use.
[[nodiscard]] Outcome text_resend_command(const Common& common, const TextResendRequest& request);

struct TextCancelRequest {
  std::string id, why;
};

// Cancels a message that waits: a draft or a queued one. Faults: no such message; any other.
[[nodiscard]] Outcome text_cancel_command(const Common& common, const TextCancelRequest& request);

}  // namespace app
