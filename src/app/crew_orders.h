// What every crew is to do on a day, ready to be put into words: bookings with their hours at the booked arrivals, holds, water, place and
// law. Nothing here changes a booking.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/days_report.h"
#include "book/record.h"
#include "text/crew_order.h"

namespace app {

struct CrewOrdersRequest {
  WeatherRequest weather = {};
  OfficeRequest office = {};
  std::optional<std::filesystem::path> rain = {};
  std::size_t draws = 256;
  std::string crew = {};                    // an id; empty: all
  std::optional<units::LocalDay> day = {};  // else by each site's own clock...
  int days_ahead = 1;                       // ...so many days after today
};

// One stop's booking; `report` stands in CrewOrders::days.trees, none where there is no answer for it.
struct BookedStop {
  book::Record job, tree, site;
  std::optional<std::size_t> report;
  std::optional<std::chrono::minutes> leave_by = {};  // wall clock: the earliest of crew, site and tree; none: by practice
};

struct OrderOfCrew {
  book::Record crew;
  text::CrewOrder order;
  std::vector<BookedStop> booked;  // as many as order.stops, in their order
  units::ZoneOffsets zone;         // of its first stop
};

struct CrewOrders {
  DaysReport days;
  std::vector<OrderOfCrew> crews;    // that have a booking on the day, in the order of their ids
  std::vector<units::LocalDay> day;  // of the orders: one, or two where sites lie in zones of different date; none: no booking
  // For the office, a line each: who is told nothing or half of it and why, and bookings ahead that their day no longer bears.
  std::vector<std::string> missing, plan;
};

// Empty where nothing can be said at all (no book, no such crew, settings refused), with the line in `outcome`.
[[nodiscard]] std::optional<CrewOrders> crew_orders(const Common& common, const CrewOrdersRequest& request, const std::string& call,
                                                    Outcome& outcome);

}  // namespace app
