#include "text/pieces.h"

#include <algorithm>

namespace text {
namespace {

struct Named {
  Piece piece;
  std::string_view name;
};
constexpr Named names[] = {
    {Piece::crew, "crew"},
    {Piece::day, "day"},
    {Piece::old_weather, "old_weather"},
    {Piece::changed, "changed"},
    {Piece::stops, "stops"},
    {Piece::changes, "changes"},
    {Piece::action, "do"},
    {Piece::holds, "holds"},
    {Piece::safety, "safety"},
    {Piece::call, "call"},
    {Piece::weather_age, "weather_age"},
    {Piece::number, "n"},
    {Piece::arrive, "arrive"},
    {Piece::name, "name"},
    {Piece::address, "address"},
    {Piece::verdict, "verdict"},
    {Piece::odds, "odds"},
    {Piece::takes, "takes"},
    {Piece::mix, "mix"},
    {Piece::ports, "ports"},
    {Piece::tanks, "tanks"},
    {Piece::water, "water"},
    {Piece::haul, "haul"},
    {Piece::open, "open"},
    {Piece::shut, "shut"},
    {Piece::off, "off"},
    {Piece::gate, "gate"},
    {Piece::dog, "dog"},
    {Piece::home, "home"},
    {Piece::prep, "prep"},
    {Piece::long_words, "long words"},
    {Piece::was, "what was before"},
};

}  // namespace

std::string_view name_of(Piece piece) { return std::ranges::find(names, piece, &Named::piece)->name; }

std::optional<Piece> piece_named(std::string_view name) {
  const auto found = std::ranges::find(names, name, &Named::name);
  if (found == std::end(names) || found->piece == Piece::long_words || found->piece == Piece::was) return std::nullopt;
  return found->piece;
}

bool is_droppable(Piece piece) { return std::ranges::find(drop_order, piece) != drop_order.end(); }

}  // namespace text
