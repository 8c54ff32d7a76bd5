#include "app/crew_orders.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "app/edit_plan.h"
#include "app/lawful_report.h"
#include "app/open_book.h"
#include "app/order_changes.h"
#include "app/stop_of_booking.h"
#include "app/words.h"
#include "book/crew_day.h"
#include "units/text.h"

namespace app {
namespace {

using book::Record;
using units::LocalDay;

// A booking with what the book says of it, before the weather is asked.
struct Booking {
  BookedStop stop;
  std::optional<Record> client;
  LocalDay day;
  bool of_the_day = false;  // asked about; else only looked at for the plan
  std::vector<book::Finding> law;
};

struct Facts {
  std::vector<Booking> bookings;
  std::vector<Record> crews, days_off;
  std::map<std::string, std::vector<std::string>> changed;  // by crew, for the day asked about
};

const Record* crew_of(const Facts& facts, const Booking& booking) {
  const auto crew = std::ranges::find(facts.crews, booking.stop.job.text("crew"), &Record::id);
  return crew == facts.crews.end() ? nullptr : &*crew;
}

std::optional<std::chrono::minutes> earlier(std::optional<std::chrono::minutes> a, std::optional<std::chrono::minutes> b) {
  return a && b ? std::min(a, b) : a ? a : b;
}

class Reader {
 public:
  Reader(store::Book& book, const Common& common, const CrewOrdersRequest& request, CrewOrders& orders)
      : book_(book), common_(common), request_(request), orders_(orders) {}

  Facts read() {
    facts_.crews = book_.list("crew", {});
    facts_.days_off = book_.list("day_off", {});
    for (const char* state : {"under_way", "confirmed"})
      for (Record& job : book_.list("job", {.equal = {{"state", state}}})) add(std::move(job));
    std::ranges::stable_sort(facts_.bookings, {}, [](const Booking& one) { return one.stop.job.text("start"); });
    for (const Record& crew : facts_.crews)
      for (const LocalDay day : orders_.day)
        if (auto lines = changes_for_crew(book_, common_, crew.id, day); !lines.empty()) facts_.changed[crew.id] = std::move(lines);
    return std::move(facts_);
  }

 private:
  void add(Record job) {
    const auto day = job.day("day");
    if (!day) return;
    auto tree = book_.find("tree", job.text("tree"));
    auto site = tree ? book_.find("site", tree->text("site")) : std::nullopt;
    const auto zone = site ? zone_named(site->text("zone"), common_.now) : std::nullopt;
    if (!zone) {
      orders_.missing.push_back("job " + job.id + ": its tree or site is not in the book: nobody is told of it");
      return;
    }
    const LocalDay today = zone->day_of(common_.now);
    const LocalDay asked = request_.day.value_or(today + std::chrono::days{request_.days_ahead});
    if (*day < today && *day != asked) return;
    Booking booking{{std::move(job), std::move(*tree), std::move(*site), {}}, {}, *day, *day == asked, {}};
    if (booking.of_the_day && std::ranges::find(orders_.day, asked) == orders_.day.end()) orders_.day.push_back(asked);
    booking.client = book_.find("client", booking.stop.site.text("client"));
    booking.law = findings_of(book_, common_, booking.stop.job);
    booking.stop.leave_by = earlier(booking.stop.site.clock("work_until"), booking.stop.tree.clock("leave_by"));
    if (const Record* crew = crew_of(facts_, booking)) booking.stop.leave_by = earlier(booking.stop.leave_by, crew->clock("works_until"));
    facts_.bookings.push_back(std::move(booking));
  }

  store::Book& book_;
  const Common& common_;
  const CrewOrdersRequest& request_;
  CrewOrders& orders_;
  Facts facts_;
};

// The days that `days` is asked about: a tree with two bookings is answered for the one asked about, else the first.
std::map<std::string, BookedDay> days_asked(const Facts& facts) {
  std::map<std::string, BookedDay> asked;
  for (const Booking& booking : facts.bookings) {
    BookedDay one{booking.day, booking.stop.job.clock("start"), booking.stop.leave_by, booking.stop.job.day("prepared_on").has_value(),
                  booking.of_the_day};
    const auto [known, is_new] = asked.emplace(booking.stop.tree.id, one);
    if (!is_new && (one.needed > known->second.needed || (one.needed == known->second.needed && one.day < known->second.day)))
      known->second = one;
  }
  return asked;
}

// Index of the answer for a booking.
std::optional<std::size_t> answered(const DaysReport& days, const Booking& booking) {
  const auto found = std::ranges::find(days.trees, booking.stop.tree.id, [](const TreeReport& tree) { return tree.tree.row.tree; });
  if (found == days.trees.end() || found->answers.front().date != booking.day) return std::nullopt;
  return static_cast<std::size_t>(found - days.trees.begin());
}

class Composer {
 public:
  Composer(const Common& common, const CrewOrdersRequest& request, const std::string& call, Facts facts, CrewOrders& orders)
      : common_(common), request_(request), call_(call), facts_(std::move(facts)), orders_(orders) {}

  void compose() {
    for (Booking& booking : facts_.bookings) {
      if (const Booking* other = first_of_day(booking); other == &booking) booking.stop.report = answered(orders_.days, booking);
      if (!booking.of_the_day) check_ahead(booking);
    }
    for (const Booking& booking : facts_.bookings)
      if (booking.of_the_day && crew_of(facts_, booking) == nullptr)
        orders_.missing.push_back(called(booking) + " has no crew: nobody is told of it");
    for (const Record& crew : facts_.crews) add_crew(crew);
  }

 private:
  [[nodiscard]] static std::string called(const Booking& booking) { return stop_name(booking.stop) + " (" + booking.stop.job.id + ")"; }

  [[nodiscard]] const TreeReport* report(const Booking& booking) const {
    return booking.stop.report ? &orders_.days.trees[*booking.stop.report] : nullptr;
  }

  // A tree drinks its dose once a day. Of more bookings for it the first alone has hours; for the others somebody must decide.
  [[nodiscard]] const Booking* first_of_day(const Booking& booking) const {
    return &*std::ranges::find_if(facts_.bookings,
                                  [&](const Booking& one) { return one.stop.tree.id == booking.stop.tree.id && one.day == booking.day; });
  }

  // What the plan would not have booked: the office hears of it, the crew goes by its booking.
  void check_site(const Booking& booking, const text::Stop& stop) {
    const auto tell = [&](const std::string& why) { orders_.missing.push_back(called(booking) + ": " + why); };
    const std::string& work_days = booking.stop.site.text("work_days");
    if (!book::is_one_of(work_days, booking.day)) tell(words::day(booking.day) + " does not suit the site (" + work_days + ")");
    if (const auto from = booking.stop.site.clock("work_from"); from && stop.arrive < units::LocalTime{booking.day} + *from)
      tell("comes before " + words::clock(units::LocalTime{*from}) + ", from when the site can be worked on");
    if (const TreeReport* tree = report(booking); tree != nullptr && !can_open_valves(tree->answers.front()))
      tell("comes too late to open valves");
  }

  // What the plan must hear of: nothing is moved here.
  void check_ahead(const Booking& booking) {
    const TreeReport* tree = report(booking);
    const LocalDay today = zone_named(booking.stop.site.text("zone"), common_.now)->day_of(common_.now);
    if (booking.day <= today) return;  // the crew's messages tell of today
    std::string why;
    // So far ahead rain comes and goes with every forecast, as the plan has it too.
    const bool is_far = booking.day > today + std::chrono::days{static_cast<int>(common_.models.planning.far_d)};
    if (tree != nullptr && !is_far && tree->answers.front().verdict == days::Verdict::no_go && !tree->forecast_old)
      why = "NO GO, " + words::chance(tree->answers.front().chance_all_clear);
    for (const book::Finding& finding : booking.law)
      if (finding.state == book::Lawful::missing) why += (why.empty() ? "" : "; ") + ("not lawful: " + law_line(finding));
    if (!why.empty()) orders_.plan.push_back(called(booking) + " " + words::day(booking.day) + ": " + why);
  }

  void add_crew(const Record& crew) {
    if (!request_.crew.empty() && crew.id != request_.crew) return;
    OrderOfCrew one{crew, {}, {}, units::ZoneOffsets::utc()};
    for (const Booking& booking : facts_.bookings) {
      if (!booking.of_the_day || booking.stop.job.text("crew") != crew.id) continue;
      if (one.booked.empty()) {
        one.zone = *zone_named(booking.stop.site.text("zone"), common_.now);
        one.order = head(crew, booking.day);
      }
      add_stop(booking, one);
    }
    if (one.booked.empty()) return;
    if (!book::goes_out(crew, facts_.days_off, one.order.date))
      orders_.missing.push_back(crew.text("name") + " does not work on " + words::day(one.order.date) + ", but is booked");
    // No tree of the office has an answer: its weather has failed.
    if (orders_.days.trees.empty()) one.order.weather_too_old = true;
    if (one.order.weather_too_old) orders_.missing.push_back(crew.text("name") + ": no weather fresh enough for a GO: preparation only");
    orders_.crews.push_back(std::move(one));
  }

  [[nodiscard]] text::CrewOrder head(const Record& crew, LocalDay day) const {
    text::CrewOrder order;
    order.crew = crew.text("name");
    order.date = day;
    order.units = common_.units;
    order.call = call_;
    if (const auto lines = facts_.changed.find(crew.id); lines != facts_.changed.end()) order.changed = lines->second;
    return order;
  }

  void add_stop(const Booking& booking, OrderOfCrew& one) {
    const TreeReport* tree = report(booking);
    if (tree == nullptr) {
      orders_.missing.push_back(called(booking) + ": no hours for it: " + why_unanswered(booking));
    } else {
      const auto issued = orders_.days.weather[tree->weather].issued_at;
      if (issued) {
        const double age_h = std::max(0.0, std::chrono::duration<double, std::ratio<3600>>(common_.now - *issued).count());
        one.order.weather_age_h = std::max(one.order.weather_age_h.value_or(0.0), age_h);
      }
      one.order.weather_too_old = one.order.weather_too_old || tree->forecast_old;
    }
    one.order.stops.push_back(stop_of_booking(common_, booking.stop, booking.client, booking.law, tree));
    check_site(booking, one.order.stops.back());
    one.booked.push_back(booking.stop);
    if (tree != nullptr)
      for (const std::string& line : one.order.stops.back().safety) orders_.missing.push_back(called(booking) + ": " + line);
  }

  [[nodiscard]] std::string why_unanswered(const Booking& booking) const {
    if (const Booking* other = first_of_day(booking); other != &booking)
      return other->stop.job.id + " is booked for the same tree that day";
    const auto refused = std::ranges::find(orders_.days.refused, booking.stop.tree.id, &Refused::tree);
    return refused == orders_.days.refused.end() ? "its weather is not known" : refused->why;
  }

  const Common& common_;
  const CrewOrdersRequest& request_;
  const std::string& call_;
  Facts facts_;
  CrewOrders& orders_;
};

}  // namespace

std::optional<CrewOrders> crew_orders(const Common& common, const CrewOrdersRequest& request, const std::string& call, Outcome& outcome) {
  CrewOrders orders;
  Facts facts;
  {
    auto book = open_book(common, NoBook::refuse, outcome);
    if (!book) return std::nullopt;
    if (!request.crew.empty() && !book->find("crew", request.crew)) {
      outcome.refuse({"--crew", units::for_message(request.crew), "expected the id of a crew in the book"});
      return std::nullopt;
    }
    book->at_one_moment([&] { facts = Reader{*book, common, request, orders}.read(); });
  }
  DaysRequest days;
  days.weather = request.weather;
  days.office = request.office;
  days.rain = request.rain;
  days.draws = request.draws;
  days.booked = days_asked(facts);
  if (!days.booked.empty()) orders.days = days_report(common, days, outcome);
  if (std::ranges::any_of(orders.days.weather, [](const WeatherUsed& used) { return !used.issued_at; }))
    outcome.warn("the weather does not say when it was made: nobody can tell whether it is fresh");
  Composer{common, request, call, std::move(facts), orders}.compose();
  return orders;
}

}  // namespace app
