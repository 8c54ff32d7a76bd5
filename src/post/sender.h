// One message handed to the world, and what became of it. An outbox stands on this: it keeps the message, its key and the outcome.
#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <vector>

namespace post {

struct Attachment {
  std::string name;  // "sheet.pdf"
  std::string type;  // "application/pdf", "text/calendar; charset=utf-8; method=PUBLISH"
  std::string bytes;
};

struct Outgoing {
  std::string key;                           // the message's own, the same whenever it is sent again; any text
  std::string to;                            // a telephone number or a mail address
  std::string subject;                       // mail alone
  std::string text;                          // UTF-8
  std::vector<Attachment> attachments = {};  // mail alone
};

enum class Delivery {
  delivered,  // taken over by the next hand: gateway, mail server, folder
  later,      // surely not taken over; worth another try
  refused,    // surely not taken over; another try would end the same
  uncertain   // sent, and no answer that tells: it may have been taken over
};

struct Outcome {
  Delivery delivery = Delivery::later;
  std::string reason = {};                        // for the office, one line; never a key, an address or a word of the message
  bool configuration = false;                     // refused for how the road is set up: every other message would fare the same
  std::optional<std::chrono::seconds> wait = {};  // the other side's word on when to try again
  int code = 0;                                   // of HTTP or SMTP, where there was one
};

class Sender {
 public:
  virtual ~Sender() = default;
  // Tries once, within the road's time. Never throws for what the other side does.
  [[nodiscard]] virtual Outcome send(const Outgoing& message) = 0;
  // Whether the other side knows a message that it was given before by its key, so that it may be sent again without harm.
  [[nodiscard]] virtual bool tells_repeats_apart() const = 0;
};

}  // namespace post
