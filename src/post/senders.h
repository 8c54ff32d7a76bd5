// The roads that the settings describe, ready to send.
#pragma once
#include <functional>
#include <memory>
#include <ostream>

#include "post/sender.h"
#include "settings/places.h"
#include "settings/post.h"
#include "units/fault.h"
#include "units/time.h"

namespace post {

struct Senders {
  std::unique_ptr<Sender> texts, mails;  // null: no such road
};

// Faults: sending is not on, so that nothing can leave by mistake; a secret that cannot be had; a JSON text that is none.
[[nodiscard]] units::Result<Senders> senders_of(const settings::Post& post, const settings::Environment& environment,
                                                std::function<units::UtcTime()> now, std::ostream& standard_output);

}  // namespace post
