#include "app/crew_text.h"

#include <algorithm>

#include "app/order_json.h"
#include "app/plan_calendar.h"
#include "app/sheet.h"
#include "text/composer.h"
#include "text/correction.h"

namespace app {
namespace {

// What the crew still has before it of what a message said.
units::Result<text::CrewOrder> order_said(const OutboxEntry& entry, const std::set<std::string>& done, UnitSystem units) {
  auto order = order_from_json("message " + entry.id, entry.order);
  if (order) order->units = units;  // litres said once and gallons the next time are no change
  if (order) std::erase_if(order->stops, [&](const text::Stop& stop) { return done.contains(stop.code); });
  return order;
}

std::vector<post::Attachment> papers(store::Book& book, const Common& common, const CrewOrders& orders, const OrderOfCrew& order) {
  std::vector<post::Attachment> all;
  std::vector<book::Record> jobs;
  for (const BookedStop& stop : order.booked) {
    jobs.push_back(stop.job);
    if (!stop.report) continue;
    // A flare without room for its ports is the sheet's own business: `sheet` says so to whoever asks.
    if (const auto sheet = sheet_of_booking(book, common, orders.days.trees[*stop.report], stop.job))
      all.push_back({"sheet-" + stop.job.id + ".html", "text/html; charset=utf-8", sheet_page(*sheet, common.units)});
  }
  if (!jobs.empty()) all.push_back({"day.ics", "text/calendar; charset=utf-8; method=PUBLISH", calendar_of(book, common, jobs)});
  return all;
}

units::UtcTime of_use_until(const OrderOfCrew& order, Occasion occasion) {
  const auto& stops = order.order.stops;
  if (stops.empty()) return order.zone.end_of(order.order.date);
  if (occasion == Occasion::evening) return order.zone.to_utc(stops.front().arrive);
  return order.zone.to_utc(std::ranges::max_element(stops, {}, &text::Stop::off_site_by)->off_site_by);
}

}  // namespace

book::Purpose purpose_of(Occasion occasion) {
  switch (occasion) {
    case Occasion::evening:
      return book::Purpose::evening;
    case Occasion::morning:
      return book::Purpose::morning;
    case Occasion::correction:
      break;
  }
  return book::Purpose::correction;
}

std::string name_of(Occasion occasion) { return std::string{book::name_of(purpose_of(occasion))}; }

units::Result<CrewText> crew_text(const text::CrewOrder& order, const OrdersOfDay& said, const std::set<std::string>& done,
                                  Occasion occasion, const Moment& now, const text::Templates& templates) {
  CrewText found;
  found.occasion = occasion;
  found.email = text::evening_email(order);
  const OutboxEntry* last = said.last();
  if (occasion == Occasion::evening || (occasion == Occasion::morning && last == nullptr)) {
    found.message = text::evening_text(order, templates);
    found.message.news = !order.stops.empty();
    return found;
  }
  if (last == nullptr) {
    found.message.news = false;
    return found;
  }
  const auto last_order = order_said(*last, done, order.units);
  if (!last_order) return tl::make_unexpected(last_order.error());
  const auto against = [&](const text::CrewOrder& sent) {
    return occasion == Occasion::morning ? text::morning_text(sent, order, templates)
                                         : text::correction_text(sent, order, now.local, templates);
  };
  found.message = against(*last_order);
  const bool eases = occasion == Occasion::correction && text::eases(*last_order, order, now.local);
  if (eases && now.now < last->made_at.value_or(now.now) + now.ease_after) found.message.news = false;
  if (occasion == Occasion::morning && last->purpose != book::Purpose::evening) found.occasion = Occasion::correction;
  if (found.message.news && said.waiting) {
    // This one overtakes what waits, so that the crew will never read it: what it would have said is said here.
    if (!said.said) {
      found.message = text::evening_text(order, templates);
      return found;
    }
    const auto heard = order_said(*said.said, done, order.units);
    if (!heard) return tl::make_unexpected(heard.error());
    text::Message whole = against(*heard);
    if (!whole.news) whole = text::morning_text(*heard, order, templates);
    if (whole.news) found.message = std::move(whole);  // else all is again as the crew has it: what turned back does no harm
  }
  found.email.subject += occasion == Occasion::morning ? ", changed" : ", CORRECTION";
  found.email.body = found.message.text + "\n\nThe whole day as it is now:\n\n" + found.email.body;
  return found;
}

Composed composed_for(store::Book& book, const Common& common, const CrewOrders& orders, const OrderOfCrew& order, const CrewText& said,
                      const OrdersOfDay& before, book::Road road) {
  Composed message;
  message.reader = {ReaderKind::crew, order.crew.id};
  message.day = order.order.date;
  const Occasion occasion = said.occasion;
  message.purpose = purpose_of(occasion);
  if (occasion == Occasion::correction) message.number = before.next_correction;
  message.road = road;
  if (road == book::Road::email) {
    message.subject = said.email.subject;
    message.text = said.email.body;
    message.attachments = papers(book, common, orders, order);
  } else {
    message.text = said.message.text;
  }
  message.order = order_json(order.order);
  for (const BookedStop& stop : order.booked) message.jobs.push_back(stop.job.id);
  message.zone = order.zone.name();
  message.made_at = common.now;
  message.not_after = of_use_until(order, occasion);
  if (occasion == Occasion::correction) message.not_after = std::max(common.now, message.not_after);
  return message;
}

}  // namespace app
