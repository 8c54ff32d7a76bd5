#include "calendar/ics.h"

#include <libical/ical.h>

#include <memory>

namespace calendar {
namespace {

struct Free {
  void operator()(icalcomponent* component) const { icalcomponent_free(component); }
};

icaltimetype utc(units::UtcTime time) {
  return icaltime_from_timet_with_zone(static_cast<time_t>(time.time_since_epoch().count()), 0, icaltimezone_get_utc_timezone());
}

icaltimetype date(units::LocalDay day) {
  const std::chrono::year_month_day ymd{day};
  icaltimetype time = icaltime_null_date();
  time.year = static_cast<int>(ymd.year());
  time.month = static_cast<int>(static_cast<unsigned>(ymd.month()));
  time.day = static_cast<int>(static_cast<unsigned>(ymd.day()));
  return time;
}

icalcomponent* event_of(const Event& event, units::UtcTime stamp) {
  icalcomponent* made = icalcomponent_new(ICAL_VEVENT_COMPONENT);
  icalcomponent_add_property(made, icalproperty_new_uid(event.uid.c_str()));
  icalcomponent_add_property(made, icalproperty_new_dtstamp(utc(stamp)));
  icalcomponent_add_property(made, icalproperty_new_sequence(event.sequence));
  icalcomponent_add_property(made, icalproperty_new_dtstart(event.begins ? utc(*event.begins) : date(event.day)));
  if (event.begins && event.ends) icalcomponent_add_property(made, icalproperty_new_dtend(utc(*event.ends)));
  icalcomponent_add_property(made, icalproperty_new_summary(event.summary.c_str()));
  if (!event.location.empty()) icalcomponent_add_property(made, icalproperty_new_location(event.location.c_str()));
  if (!event.description.empty()) icalcomponent_add_property(made, icalproperty_new_description(event.description.c_str()));
  return made;
}

}  // namespace

std::string ics(const std::vector<Event>& events, units::UtcTime stamp) {
  const std::unique_ptr<icalcomponent, Free> all{icalcomponent_new(ICAL_VCALENDAR_COMPONENT)};
  icalcomponent_add_property(all.get(), icalproperty_new_version("2.0"));
  icalcomponent_add_property(all.get(), icalproperty_new_prodid("-//sapdraw//plan//EN"));
  for (const Event& event : events) icalcomponent_add_component(all.get(), event_of(event, stamp));
  const std::unique_ptr<char, decltype(&free)> text{icalcomponent_as_ical_string_r(all.get()), &free};
  return text.get();
}

}  // namespace calendar
