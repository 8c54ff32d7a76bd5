#include "text/composer.h"

#include "text/changes.h"
#include "text/wording.h"

namespace text {

Message evening_text(const CrewOrder& order, const Templates& templates) {
  return fit({&order}, [&](const Narrowing& narrowing) {
    return templates.evening.fill([&](Piece piece) { return order_words(order, piece, templates, narrowing); });
  });
}

Message morning_text(const CrewOrder& sent, const CrewOrder& today, const Templates& templates) {
  const bool whole_day = sent.weather_too_old != today.weather_too_old;
  const bool news = whole_day || !change_lines(sent, today, templates, {}, false).empty();
  if (!news) {
    Message none = fit({&today}, [&](const Narrowing& narrowing) {
      return order_words(today, Piece::crew, templates, narrowing) + " " + order_words(today, Piece::day, templates, narrowing) +
             ": no change.";
    });
    none.news = false;
    return none;
  }
  return fit({&sent, &today}, [&](const Narrowing& narrowing) {
    return templates.morning.fill([&](Piece piece) -> std::string {
      if (piece != Piece::changes) return order_words(today, piece, templates, narrowing);
      if (whole_day) {
        std::string all = order_words(today, Piece::stops, templates, narrowing);
        for (const Piece more : {Piece::holds, Piece::safety})
          if (const std::string lines = order_words(today, more, templates, narrowing); !lines.empty()) all += "\n" + lines;
        return all;
      }
      return lines_joined(change_lines(sent, today, templates, narrowing, false));
    });
  });
}

}  // namespace text
