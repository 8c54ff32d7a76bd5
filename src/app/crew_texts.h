// The messages of all crews on an occasion, composed and not yet handed over: what `text preview` shows and `morning` sends.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/crew_orders.h"
#include "app/crew_text.h"

namespace app {

struct CrewTextsRequest {
  CrewOrdersRequest orders = {};  // days_ahead is set by the occasion: tomorrow in the evening, else today
  Occasion occasion = Occasion::evening;
};

struct CrewTexts {
  struct One {
    OrderOfCrew order;  // without stops where the crew was told of a day on which nothing is left
    OrdersOfDay before;
    CrewText text;
  };
  CrewOrders orders;  // its crews stand in `all`
  std::vector<One> all;
  std::vector<std::string> missing;  // crews that nothing can be said to, and why; beside CrewOrders::missing
  bool tell_no_change = false;       // the owner wants a morning without news told too
};

// Empty where nothing can be said at all, with the line in `outcome`.
[[nodiscard]] std::optional<CrewTexts> crew_texts(const Common& common, const CrewTextsRequest& request, Outcome& outcome);

// What the office must look at, a line each: LOOK AT: ..., PLAN: ...
[[nodiscard]] std::string to_look_at(const CrewTexts& texts);
// For people and for programs.
[[nodiscard]] std::string crew_texts_text(const CrewTexts& texts, Occasion occasion, bool as_mail);
[[nodiscard]] std::string crew_texts_json(const Common& common, const CrewTexts& texts, Occasion occasion);

}  // namespace app
