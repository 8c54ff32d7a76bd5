#include "app/crew_texts.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "app/edit_plan.h"
#include "app/open_book.h"
#include "app/settings_file.h"
#include "app/wording.h"

namespace app {
namespace {

using units::LocalDay;

// Orders without stops for crews that were told of a day on which nothing is left for them.
void add_emptied(store::Book& book, const Common& common, const CrewTextsRequest& request, const std::string& call, CrewOrders& orders) {
  std::set<std::string> busy;
  for (const OrderOfCrew& order : orders.crews) busy.insert(order.crew.id);
  const LocalDay about = units::ZoneOffsets::utc().day_of(common.now);
  for (const OutboxEntry& entry : outbox(book, {.since = about - std::chrono::days{1}})) {
    if (entry.reader.kind != ReaderKind::crew || !entry.day || entry.order.empty()) continue;
    if (busy.contains(entry.reader.id) || (!request.orders.crew.empty() && request.orders.crew != entry.reader.id)) continue;
    const auto zone = zone_named(entry.zone, common.now);
    const auto crew = book.find("crew", entry.reader.id);
    if (!zone || !crew) continue;
    const LocalDay asked = request.orders.day.value_or(zone->day_of(common.now) + std::chrono::days{request.orders.days_ahead});
    if (*entry.day != asked) continue;
    busy.insert(crew->id);
    OrderOfCrew empty{*crew, {}, {}, *zone};
    empty.order.crew = crew->text("name");
    empty.order.date = asked;
    empty.order.units = common.units;
    empty.order.call = call;
    orders.crews.push_back(std::move(empty));
  }
}

std::set<std::string> jobs_done(store::Book& book, LocalDay day) {
  std::set<std::string> ids;
  for (const book::Record& job : book.list("job", {.equal = {{"state", "done"}, {"day", units::to_text(day)}}})) ids.insert(job.id);
  return ids;
}

}  // namespace

std::optional<CrewTexts> crew_texts(const Common& common, const CrewTextsRequest& asked, Outcome& outcome) {
  CrewTextsRequest request = asked;
  request.orders.days_ahead = request.occasion == Occasion::evening ? 1 : 0;
  const auto settings = settings_for(common, request.orders.office.config);
  if (!settings) {
    outcome.refuse(settings.error());
    return std::nullopt;
  }
  auto orders = crew_orders(common, request.orders, settings->post.call, outcome);
  if (!orders) return std::nullopt;
  auto book = open_book(common, NoBook::refuse, outcome);
  if (!book) return std::nullopt;
  const auto templates = templates_of(*book);
  if (!templates) {
    outcome.refuse(templates.error());
    return std::nullopt;
  }
  if (request.occasion != Occasion::evening) add_emptied(*book, common, request, settings->post.call, *orders);
  CrewTexts texts;
  const std::chrono::minutes ease_after{std::lround(common.models.sending.ease_after_min)};
  texts.tell_no_change = settings->post.tell_no_change;
  for (OrderOfCrew& order : orders->crews) {
    OrdersOfDay before = orders_of_day(*book, order.crew.id, order.order.date);
    const Moment now{common.now, order.zone.to_local(common.now), ease_after};
    auto text = crew_text(order.order, before, jobs_done(*book, order.order.date), request.occasion, now, *templates);
    if (!text) {
      outcome.refuse(text.error());
      texts.missing.push_back(order.order.crew + ": " + text.error().line());
      continue;
    }
    if (request.occasion == Occasion::correction && before.last() == nullptr && !order.order.stops.empty())
      texts.missing.push_back(order.order.crew + " was told nothing of this day: there is nothing to correct");
    // One failed look at the weather turns no day: what was said stands, and the next look tells.
    const bool blind = orders->days.trees.empty() && !order.order.stops.empty();
    if (request.occasion == Occasion::correction && blind && before.last() != nullptr) {
      text->message.news = false;
      texts.missing.push_back(order.order.crew + ": no weather to hold its day against; what was said stands");
    }
    texts.all.push_back({std::move(order), std::move(before), std::move(*text)});
  }
  orders->crews.clear();
  texts.orders = std::move(*orders);
  return texts;
}

}  // namespace app
