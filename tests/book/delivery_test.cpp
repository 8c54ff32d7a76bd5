// From being composed to being delivered: what follows on each outcome. The expected values are the rules of book/delivery.h worked by
// hand.
#include "book/delivery.h"

#include <doctest/doctest.h>

using namespace book;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

units::UtcTime at(const std::string& text) { return *units::parse_instant(text); }

const DeliveryTerms terms{1.0, 2.0, 30.0, 6, 15.0, 24.0, 48.0};
const units::UtcTime evening = at("2026-07-06T22:00Z");

Life life(int tries = 0, bool maybe_over = false) { return {tries, evening, evening + hours{14}, maybe_over}; }
Try tried(Came came, bool tells_repeats = false) { return {came, false, tells_repeats}; }

}  // namespace

TEST_SUITE("book: delivery") {
  TEST_CASE("states, purposes and roads have the names that the book writes, and no others") {
    for (const char* word : {"draft", "queued", "sending", "sent", "uncertain", "failed", "cancelled"})
      CHECK(name_of(*message_state(word)) == word);
    for (const char* word : {"evening", "morning", "correction", "notice", "office"}) CHECK(name_of(*purpose(word)) == word);
    for (const char* word : {"text", "email"}) CHECK(name_of(*road(word)) == word);
    CHECK_FALSE(message_state("Sent").has_value());
    CHECK_FALSE(purpose("").has_value());
    CHECK_FALSE(road("fax").has_value());
  }
  TEST_CASE("what was taken over is sent") {
    CHECK(after_try(tried(Came::over), life(2, true), evening, terms) == Next{MessageState::sent, 3});
  }
  TEST_CASE("what was put off is tried again after a wait that doubles up to half an hour, and is given up after the last try") {
    const std::vector<int> waits{1, 2, 4, 8, 16};
    for (std::size_t i = 0; i < waits.size(); ++i) {
      const Next next = after_try(tried(Came::later), life(static_cast<int>(i)), evening, terms);
      CHECK(next == Next{MessageState::queued, static_cast<int>(i) + 1, evening + minutes{waits[i]}});
    }
    CHECK(after_try(tried(Came::later), life(5), evening, terms) == Next{MessageState::failed, 6, {}, false, false, true});
    DeliveryTerms patient = terms;
    patient.most_tries = 100;
    CHECK(after_try(tried(Came::later), life(50), evening, patient).next_try_at == evening + minutes{30});
  }
  TEST_CASE("the other side's wait counts if it is longer, and the next try is never earlier than asked") {
    Try asked = tried(Came::later);
    asked.wait = seconds{90};
    CHECK(after_try(asked, life(), evening, terms).next_try_at == evening + minutes{2});
    CHECK(after_try(asked, life(3), evening, terms).next_try_at == evening + minutes{8});
    CHECK(after_try(tried(Came::later), life(), evening + seconds{1}, terms).next_try_at == evening + minutes{2});
  }
  TEST_CASE("a next try that would come too late to be of use is none") {
    Try asked = tried(Came::later);
    asked.wait = hours{15};
    CHECK(after_try(asked, life(), evening, terms) == Next{MessageState::failed, 1, {}, false, false, true});
    asked.wait = hours{14};
    CHECK(after_try(asked, life(), evening, terms).state == MessageState::queued);
  }
  TEST_CASE("a refused message has failed, and the office is told") {
    CHECK(after_try(tried(Came::refused), life(), evening, terms) == Next{MessageState::failed, 1, {}, false, false, true});
  }
  TEST_CASE("a road that refuses all messages alike is left, and burns no try of theirs") {
    Try alike = tried(Came::refused);
    alike.all_alike = true;
    CHECK(after_try(alike, life(2), evening, terms) == Next{MessageState::queued, 2, evening + minutes{1}, false, true, false});
  }
  TEST_CASE("what may have been delivered is sent again only where the road tells repeats apart and still knows the key") {
    const Next uncertain{MessageState::uncertain, 1, {}, true, false, true};
    CHECK(after_try(tried(Came::uncertain), life(), evening, terms) == uncertain);
    CHECK(after_try(tried(Came::uncertain, true), life(), evening, terms) == Next{MessageState::queued, 1, evening + minutes{1}, true});
    Life old = life();
    old.not_after = evening + hours{100};
    CHECK(after_try(tried(Came::uncertain, true), old, evening + hours{24}, terms) == uncertain);
  }
  TEST_CASE("after a try that may have delivered, no later failure makes it sure that it did not") {
    CHECK(after_try(tried(Came::refused), life(1, true), evening, terms) == Next{MessageState::uncertain, 2, {}, true, false, true});
    CHECK(after_try(tried(Came::later), life(5, true), evening, terms) == Next{MessageState::uncertain, 6, {}, true, false, true});
    CHECK(after_try(tried(Came::later), life(1, true), evening, terms).maybe_over);
    CHECK(if_outlived(life(1, true), evening + hours{15}) == Next{MessageState::uncertain, 1, {}, true, false, true});
  }
  TEST_CASE("a message whose process is gone is let alone for its lease, then queued by a road that knows repeats, else uncertain") {
    CHECK_FALSE(after_loss(evening, true, life(), evening + minutes{15} - seconds{1}, terms).has_value());
    const auto again = evening + minutes{15};
    CHECK(after_loss(evening, true, life(), again, terms) == Next{MessageState::queued, 1, again, true});
    const Next uncertain{MessageState::uncertain, 1, {}, true, false, true};
    CHECK(after_loss(evening, false, life(), again, terms) == uncertain);
    CHECK(after_loss(evening, true, life(), evening + hours{15}, terms) == uncertain);
    CHECK(after_loss(evening, true, life(5), again, terms)->state == MessageState::uncertain);
  }
  TEST_CASE("a message that has outlived its use is cancelled, never sent late, and the office is told") {
    CHECK_FALSE(if_outlived(life(), evening + hours{14}).has_value());
    CHECK(if_outlived(life(), evening + hours{14} + seconds{1}) == Next{MessageState::cancelled, 0, {}, false, false, true});
  }
}
