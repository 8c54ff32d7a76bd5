// A message's life between being composed and being delivered: its states, which follows which outcome, when it is tried again and when it
// is given up. The numbers are common practice, no published source.
#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "units/time.h"

namespace book {

enum class MessageState {
  draft,      // written, and for a person to look at
  queued,     // waits for its next try
  sending,    // one process has taken it
  sent,       // taken over by gateway, mail server or folder
  uncertain,  // may have been taken over: nobody can tell
  failed,     // surely not taken over, and not tried again
  cancelled   // not to be sent
};
enum class Purpose { evening, morning, correction, notice, office };  // notice: to a client; office: to the office itself
enum class Road { text, email };

// As the book writes them; empty where `text` is none.
[[nodiscard]] std::string_view name_of(MessageState state);
[[nodiscard]] std::string_view name_of(Purpose purpose);
[[nodiscard]] std::string_view name_of(Road road);
[[nodiscard]] std::optional<MessageState> message_state(std::string_view text);
[[nodiscard]] std::optional<Purpose> purpose(std::string_view text);
[[nodiscard]] std::optional<Road> road(std::string_view text);

// What a try came to; post::Outcome in the book's own words.
enum class Came { over, later, refused, uncertain };

struct DeliveryTerms {
  double first_wait_min = 0.0;    // after the first try
  double wait_grows = 0.0;        // each wait against the one before
  double longest_wait_min = 0.0;  // whatever it grew to
  int most_tries = 0;             // that came to nothing, then it is given up
  double lease_min = 0.0;         // a message that has been `sending` for so long lost its process; longer than any road's time-out
  double key_known_h = 0.0;       // for so long after it was composed a gateway is trusted to know a repeated key
  double ease_after_min = 0.0;    // a correction that only eases waits until so long after the last message
  double tell_for_h = 0.0;        // for so long a note to the office about a message is of use
};

struct Try {
  Came came = Came::later;
  bool all_alike = false;                         // refused for how the road is set up, not for this message
  bool tells_repeats = false;                     // the road knows a message that it has been given before
  std::optional<std::chrono::seconds> wait = {};  // the other side's word
};

struct Life {
  int tries = 0;  // that count, before this one
  units::UtcTime made_at, not_after;
  bool maybe_over = false;  // by an earlier try, of which nobody can tell
};

struct Next {
  MessageState state = MessageState::queued;
  int tries = 0;
  units::UtcTime next_try_at{};  // queued alone
  bool maybe_over = false;       // Life::maybe_over of the next try
  bool stop_road = false;        // nothing else is sent by this road now
  bool tell_office = false;      // somebody has to do something about it
  friend bool operator==(const Next&, const Next&) = default;
};

// After a try at `now`:
//   over       sent
//   later      queued, after the wait that grows or the other side's if longer; failed after most_tries
//   refused    failed; where all messages would fare alike: queued after first_wait, the try not counted, the road stopped
//   uncertain  queued as for `later` where the road tells repeats apart and still knows the key; else uncertain
// A next try that would come after not_after is given up like one too many. What failed after a try that may have delivered is uncertain.
// The office is told of failed and uncertain.
[[nodiscard]] Next after_try(const Try& what, const Life& life, units::UtcTime now, const DeliveryTerms& terms);

// A message found `sending` whose process is gone: it was taken at `claimed_at`. Empty while that may still be at work. Then queued at once
// where the road tells repeats apart and still knows the key, else uncertain. What the process did is a try that counts.
[[nodiscard]] std::optional<Next> after_loss(units::UtcTime claimed_at, bool tells_repeats, const Life& life, units::UtcTime now,
                                             const DeliveryTerms& terms);

// A queued message that has outlived its use: cancelled, or uncertain where a try may have delivered it, and the office is told. Empty
// while it is of use.
[[nodiscard]] std::optional<Next> if_outlived(const Life& life, units::UtcTime now);

}  // namespace book
