#include <nlohmann/json.hpp>

#include "app/crew_texts.h"
#include "app/order_json.h"

namespace app {

using Json = nlohmann::ordered_json;

std::string crew_texts_json(const Common& common, const CrewTexts& texts, Occasion occasion) {
  Json all = Json::array();
  for (const CrewTexts::One& one : texts.all) {
    const text::Message& message = one.text.message;
    Json shortened = Json::array();
    for (const auto& name : message.shortened) shortened.push_back({{"from", name.from}, {"to", name.to}});
    all.push_back({{"crew", one.order.crew.id},
                   {"day", units::to_text(one.order.order.date)},
                   {"news", message.news},
                   {"text", message.text},
                   {"parts", message.size.parts},
                   {"alphabet", message.size.alphabet == text::Alphabet::gsm7 ? "gsm7" : "ucs2"},
                   {"units", message.size.units},
                   {"left_out", message.left_out},
                   {"shortened", std::move(shortened)},
                   {"email", {{"subject", one.text.email.subject}, {"body", one.text.email.body}}},
                   {"order", Json::parse(order_json(one.order.order))}});
  }
  std::vector<std::string> missing = texts.orders.missing;
  missing.insert(missing.end(), texts.missing.begin(), texts.missing.end());
  return Json{{"made_at", units::to_text(common.now)},
              {"occasion", name_of(occasion)},
              {"texts", std::move(all)},
              {"missing", missing},
              {"plan", texts.orders.plan}}
             .dump(2, ' ', false, Json::error_handler_t::replace) +
         "\n";
}

}  // namespace app
