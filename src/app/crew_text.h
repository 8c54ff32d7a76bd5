// A crew's message on an occasion: the whole day the evening before, what changed in the morning, what to do when the day turns.
#pragma once
#include <optional>
#include <set>
#include <string>

#include "app/crew_orders.h"
#include "app/outbox.h"
#include "text/email.h"
#include "text/fit.h"
#include "text/template.h"

namespace app {

enum class Occasion { evening, morning, correction };

[[nodiscard]] book::Purpose purpose_of(Occasion occasion);
[[nodiscard]] std::string name_of(Occasion occasion);  // "evening"

struct Moment {
  units::UtcTime now;
  units::LocalTime local;  // by the crew's clock
  std::chrono::minutes ease_after{0};
};

struct CrewText {
  text::Message message;                  // as a phone gets it; `news` false: there is nothing to tell
  text::Email email;                      // the longer form: of a morning or a correction what is new, and the whole day behind it
  Occasion occasion = Occasion::evening;  // as which it leaves
};

// `said`: what the crew was told of that day; `done`: jobs that are done, of which nothing more is said. An evening's text is whole. In the
// morning a crew that was told nothing is told all, any other what changed. A correction needs something to correct: without it there is no
// news. Whether there is news is held against what waits to leave, if anything does, and told against what the crew has: all of the day
// where that is nothing. What is new after a morning's message or a correction leaves as a correction, whatever the occasion, so that none
// is taken for the one before. A correction that only eases waits until the crew has had `ease_after` to act on what it was told last.
// Fault: what was said cannot be read.
[[nodiscard]] units::Result<CrewText> crew_text(const text::CrewOrder& order, const OrdersOfDay& said, const std::set<std::string>& done,
                                                Occasion occasion, const Moment& now, const text::Templates& templates);

// The message as the outbox takes it, by `road`; a mail brings set-up sheets and a calendar of `order`'s bookings along. Not sent any more
// once an evening's crew has arrived at its first stop, or after the day's last off site; where that is past already (not_after before now)
// it comes too late, but for a correction.
[[nodiscard]] Composed composed_for(store::Book& book, const Common& common, const CrewOrders& orders, const OrderOfCrew& order,
                                    const CrewText& said, const OrdersOfDay& before, book::Road road);

}  // namespace app
