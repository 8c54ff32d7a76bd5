#include "text/email.h"

#include <chrono>
#include <cmath>

#include "text/clean.h"
#include "text/say.h"
#include "text/wording.h"

namespace text {
namespace {

// "   label: text" where there is a text.
std::string line(const std::string& label, const std::string& words) {
  return words.empty() ? "" : "   " + label + (label.empty() ? "" : ": ") + words + "\n";
}

std::string with_hours(const OrderHold& hold, const CrewOrder& order) {
  return hours(hold.from, hold.until, order.date, Room::page) + ", " + hazard(hold.code, hold.worst, order.units) + ": " +
         what_to_do(hold.code, false);
}

std::string listed(const std::vector<std::string>& texts) {
  std::string all;
  for (const std::string& text : texts) all += (all.empty() ? "" : ", ") + clean(text);
  return all;
}

std::string mix_line(const Stop& stop, const CrewOrder& order) {
  std::string words = amount(stop.mix_l, order.units);
  if (stop.flush_l > 0.0) words += ", flush " + amount(stop.flush_l, order.units);
  if (stop.ports > 0) words += ", " + std::to_string(stop.ports) + (stop.ports == 1 ? " port" : " ports");
  if (stop.tanks > 0) words += ", " + std::to_string(stop.tanks) + (stop.tanks == 1 ? " tank" : " tanks");
  return line("Mix", words);
}

std::string stop_page(const CrewOrder& order, std::size_t index) {
  const Stop& stop = order.stops[index];
  const bool treated = is_treatment(order, stop);
  std::string page = std::to_string(index + 1) + ") " + clock(stop.arrive, Room::page) + ": " + clean(stop.name) +
                     (stop.code.empty() ? "" : " (" + clean(stop.code) + ")") + "\n";
  page += line("", clean(stop.address));
  if (treated) {
    page += line("", verdict(stop.verdict) + ", " + chance(stop.chance) + ", " + takes(stop.takes_h, Room::page));
    page += mix_line(stop, order);
    std::string water = clean(stop.water);
    if (stop.haul_l > 0.0) water += (water.empty() ? "haul " : ", haul ") + amount(stop.haul_l, order.units);
    page += line("Water", water);
    page += line("", "valves open " + clock(stop.valves->open, Room::page) + ", valves shut by " + clock(stop.valves->shut_by, Room::page) +
                         ", off site by " + clock(stop.off_site_by, Room::page));
  } else {
    const bool barred = stop.valves && !order.weather_too_old;
    const std::string what = barred              ? verdict(stop.verdict) + ", " + chance(stop.chance) + ": open no valves"
                             : stop.prep.empty() ? "prep only"
                                                 : "prep only: " + listed(stop.prep);
    page += line("", what + ", off site by " + clock(stop.off_site_by, Room::page));
  }
  page += line("Gate", clean(stop.gate)) + line("Dog", clean(stop.dog)) + line("Home", clean(stop.home));
  if (treated) page += line("Prep", listed(stop.prep));
  for (const OrderHold& hold : stop.holds) page += line("HOLD", with_hours(hold, order));
  for (const std::string& words : stop.safety) page += line("Safety", clean(words));
  return page;
}

}  // namespace

Email evening_email(const CrewOrder& order) {
  const std::size_t stops = order.stops.size();
  Email mail;
  mail.subject = clean(order.crew) + " " + day(order.date) + ": " + std::to_string(stops) + (stops == 1 ? " stop" : " stops") +
                 (order.weather_too_old ? ", prep only" : "");
  mail.body = clean(order.crew) + ", " + day(order.date) + " " +
              std::to_string(static_cast<int>(std::chrono::year_month_day{order.date}.year())) + "\n";
  if (order.weather_too_old) mail.body += order_words(order, Piece::old_weather, standard_templates(), {}) + "\n";
  for (const std::string& words : order.changed) mail.body += "Changed: " + clean(words) + "\n";
  for (std::size_t i = 0; i < stops; ++i) mail.body += "\n" + stop_page(order, i);
  mail.body += "\n";
  if (!order.call.empty()) mail.body += "Call " + clean(order.call) + "\n";
  if (order.weather_age_h && !order.weather_too_old)
    mail.body += "Weather " + std::to_string(std::lround(*order.weather_age_h)) + " h old when this was written.\n";
  mail.body += "\n" + cautions() + "\n";
  return mail;
}

std::string cautions() {
  return "The label is the law and a licensed applicator decides; local codes apply; have utilities marked\n"
         "before digging; stop for thunder; heat rules for the crew. This plans time, never a product or rate.";
}

}  // namespace text
