#include "app/order_json.h"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "text/composer.h"
#include "text/orders.h"

TEST_SUITE("app") {
  TEST_CASE("an order comes back from its JSON as it was: the same message, and no news in the morning") {
    for (std::uint64_t number = 0; number < 300; ++number) {
      const text::CrewOrder order = orders::random_order(number);
      const auto back = app::order_from_json("message M1", app::order_json(order));
      REQUIRE(back);
      CHECK(app::order_json(*back) == app::order_json(order));
      CHECK(text::evening_text(*back, text::standard_templates()).text == text::evening_text(order, text::standard_templates()).text);
      CHECK(!text::morning_text(*back, order, text::standard_templates()).news);
    }
  }

  TEST_CASE("broken bytes in a name do not break the JSON") {
    text::CrewOrder order = orders::one_stop();
    order.stops.front().name = "Oak \xFF\xC3 Court";
    CHECK(app::order_from_json("message M1", app::order_json(order)));
  }

  TEST_CASE("what is no order is refused with the place named") {
    const auto why = [](const std::string& json) {
      const auto order = app::order_from_json("message M1", json);
      REQUIRE(!order);
      CHECK(order.error().where == "message M1");
      return order.error().expected;
    };
    CHECK(why("").find("expected a crew's order") != std::string::npos);
    CHECK(why("[]").find("expected a crew's order") != std::string::npos);
    auto broken = nlohmann::json::parse(app::order_json(orders::one_stop()));
    broken["stops"][0]["verdict"] = "perhaps";
    CHECK(why(broken.dump()).find("'perhaps'") != std::string::npos);
    broken = nlohmann::json::parse(app::order_json(orders::one_stop()));
    broken["stops"][0]["arrive_local"] = "seven";
    CHECK(why(broken.dump()).find("wall clock") != std::string::npos);
    broken = nlohmann::json::parse(app::order_json(orders::one_stop()));
    broken["stops"][0].erase("mix_l");
    CHECK(why(broken.dump()).find("mix_l") != std::string::npos);
  }
}
