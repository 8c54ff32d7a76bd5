#include "text/fit.h"

#include <algorithm>

#include "text/clean.h"

namespace text {
namespace {

Message message(const std::vector<const CrewOrder*>& orders, const std::function<std::string(const Narrowing&)>& say,
                const Narrowing& narrowing) {
  Message made;
  made.text = say(narrowing);
  made.size = measure(made.text);
  for (std::size_t i = 0; i < narrowing.dropped; ++i) {
    Narrowing before = narrowing;
    before.dropped = i;
    Narrowing after = before;
    after.dropped = i + 1;
    if (say(before) != say(after)) made.left_out.emplace_back(name_of(drop_order[i]));
  }
  const auto note = [&](const std::string& from, const std::string& to) {
    const Message::Shortened one{from, to};
    if (from != to && std::ranges::find(made.shortened, one) == made.shortened.end()) made.shortened.push_back(one);
  };
  for (const CrewOrder* order : orders) {
    note(for_phone(order->crew), crew_said(*order, narrowing));
    for (std::size_t i = 0; i < order->stops.size(); ++i)
      note(for_phone(order->stops[i].name), name_said(order->stops[i], i + 1, narrowing));
  }
  return made;
}

}  // namespace

Message fit(const std::vector<const CrewOrder*>& orders, const std::function<std::string(const Narrowing&)>& say) {
  Narrowing narrowing;
  const auto fits = [&](std::size_t parts) { return measure(say(narrowing)).parts <= parts; };
  for (narrowing.dropped = 0; narrowing.dropped <= not_worth_a_part; ++narrowing.dropped)
    if (fits(1)) return message(orders, say, narrowing);
  const auto least_left_out = [&] {
    for (narrowing.dropped = 0; narrowing.dropped <= drop_order.size(); ++narrowing.dropped)
      if (fits(parts_allowed)) return true;
    narrowing.dropped = drop_order.size();
    return false;
  };
  if (least_left_out()) return message(orders, say, narrowing);
  narrowing.layout = Layout::rows;
  if (least_left_out()) return message(orders, say, narrowing);
  narrowing.codes_for_foreign = true;
  if (least_left_out()) return message(orders, say, narrowing);
  for (const std::size_t longest : name_lengths) {
    narrowing.longest_name = longest;
    if (least_left_out()) return message(orders, say, narrowing);
  }
  narrowing.longest_name = 0;
  if (least_left_out()) return message(orders, say, narrowing);
  narrowing.layout = Layout::bare_rows;
  return message(orders, say, narrowing);
}

}  // namespace text
