#include "book/delivery.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace book {
namespace {

constexpr std::array<std::string_view, 7> states{"draft", "queued", "sending", "sent", "uncertain", "failed", "cancelled"};
constexpr std::array<std::string_view, 5> purposes{"evening", "morning", "correction", "notice", "office"};
constexpr std::array<std::string_view, 2> roads{"text", "email"};

template <class Name, std::size_t N>
std::optional<Name> named(const std::array<std::string_view, N>& names, std::string_view text) {
  const auto found = std::ranges::find(names, text);
  return found == names.end() ? std::nullopt : std::optional{static_cast<Name>(found - names.begin())};
}

std::chrono::seconds minutes(double count) { return std::chrono::seconds{std::lround(count * 60.0)}; }

// The book keeps instants to the minute: never earlier than asked.
units::UtcTime on_the_minute(units::UtcTime instant) { return std::chrono::ceil<std::chrono::minutes>(instant); }

// Not tried again: somebody has to look at it.
Next given_up(MessageState state, int tries, bool maybe_over) {
  return {maybe_over ? MessageState::uncertain : state, tries, {}, maybe_over, false, true};
}

// Queued again, or given up where it was tried often enough or would come too late.
Next again(const Try& what, bool maybe_over, const Life& life, units::UtcTime now, const DeliveryTerms& terms) {
  const int tries = life.tries + 1;
  const double grown = terms.first_wait_min * std::pow(terms.wait_grows, life.tries);
  const auto wait = std::max(minutes(std::min(grown, terms.longest_wait_min)), what.wait.value_or(std::chrono::seconds{0}));
  const auto next = on_the_minute(now + wait);
  if (tries >= terms.most_tries || next > life.not_after) return given_up(MessageState::failed, tries, maybe_over);
  return {MessageState::queued, tries, next, maybe_over};
}

bool is_known(const Life& life, units::UtcTime now, const DeliveryTerms& terms) {
  return now < life.made_at + minutes(terms.key_known_h * 60.0);
}

}  // namespace

std::string_view name_of(MessageState state) { return states[static_cast<std::size_t>(state)]; }
std::string_view name_of(Purpose purpose) { return purposes[static_cast<std::size_t>(purpose)]; }
std::string_view name_of(Road road) { return roads[static_cast<std::size_t>(road)]; }
std::optional<MessageState> message_state(std::string_view text) { return named<MessageState>(states, text); }
std::optional<Purpose> purpose(std::string_view text) { return named<Purpose>(purposes, text); }
std::optional<Road> road(std::string_view text) { return named<Road>(roads, text); }

Next after_try(const Try& what, const Life& life, units::UtcTime now, const DeliveryTerms& terms) {
  switch (what.came) {
    case Came::over:
      return {MessageState::sent, life.tries + 1};
    case Came::later:
      return again(what, life.maybe_over, life, now, terms);
    case Came::refused:
      if (what.all_alike)
        return {MessageState::queued, life.tries, on_the_minute(now + minutes(terms.first_wait_min)), life.maybe_over, true};
      return given_up(MessageState::failed, life.tries + 1, life.maybe_over);
    case Came::uncertain:
      break;
  }
  if (what.tells_repeats && is_known(life, now, terms)) return again(what, true, life, now, terms);
  return given_up(MessageState::uncertain, life.tries + 1, true);
}

std::optional<Next> after_loss(units::UtcTime claimed_at, bool tells_repeats, const Life& life, units::UtcTime now,
                               const DeliveryTerms& terms) {
  if (now < claimed_at + minutes(terms.lease_min)) return std::nullopt;
  const int tries = life.tries + 1;
  if (tells_repeats && is_known(life, now, terms) && tries < terms.most_tries && now <= life.not_after)
    return Next{MessageState::queued, tries, std::chrono::floor<std::chrono::minutes>(now), true};
  return given_up(MessageState::uncertain, tries, true);
}

std::optional<Next> if_outlived(const Life& life, units::UtcTime now) {
  if (now <= life.not_after) return std::nullopt;
  return given_up(MessageState::cancelled, life.tries, life.maybe_over);
}

}  // namespace book
