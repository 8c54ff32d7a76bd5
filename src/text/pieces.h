// The pieces of a message: what each placeholder of a template stands for, and in which order pieces are left out where there is no room.
#pragma once
#include <array>
#include <optional>
#include <string_view>

namespace text {

enum class Piece {
  // Of a message.
  crew,
  day,
  old_weather,  // that the weather is too old for any GO
  changed,      // what the order says has changed
  stops,
  changes,  // what differs from what was sent
  action,   // what to do at once
  holds,
  safety,
  call,
  weather_age,
  // Of a stop.
  number,
  arrive,
  name,
  address,
  verdict,
  odds,
  takes,
  mix,
  ports,
  tanks,
  water,
  haul,
  open,
  shut,
  off,
  gate,
  dog,
  home,
  prep,
  // No placeholders, but left out in turn like the others.
  long_words,  // "66 gal mix + 5 gal flush" becomes "66 gal+5 flush", "valves shut by" after "valves open" becomes "shut by"
  was          // "(was 7am)"
};

// As it stands in a template: "old_weather".
[[nodiscard]] std::string_view name_of(Piece piece);
[[nodiscard]] std::optional<Piece> piece_named(std::string_view name);

// Left out from the front, as many as are needed and the same ones at every stop. Whatever is not listed is never left out: stops with
// arrival, name, verdict, gallons and the three times, holds, safety lines, what to do.
inline constexpr std::array drop_order{Piece::weather_age, Piece::ports, Piece::tanks,   Piece::home,   Piece::was,  Piece::long_words,
                                       Piece::call,        Piece::water, Piece::odds,    Piece::haul,   Piece::gate, Piece::takes,
                                       Piece::prep,        Piece::dog,   Piece::address, Piece::changed};

// So many of them go before a message takes a second part; the rest are worth one.
inline constexpr std::size_t not_worth_a_part = 7;

[[nodiscard]] bool is_droppable(Piece piece);

}  // namespace text
