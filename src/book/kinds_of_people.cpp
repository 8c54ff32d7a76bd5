#include "book/kinds.h"

namespace book {

std::vector<Kind> kinds_of_people() {
  return {
      {"rule", "rules", "book", "rule", "U", "what must be met before a job may go: the owner's reading of his law, as hours and days",
       {choice_field("needs", {"consent", "notice", "posting", "ticket", "licence", "attended"}, "what must be there").must(),
        number_field("lead_hours", 0, 8760, "notice, posting: hours before the job begins"),
        whole_field("wait_days", 0, 365, "ticket: working days between the call and the first day"),
        whole_field("valid_days", 1, 3650, "ticket, posting, consent: days until it lapses where no last day is entered"),
        text_field("category", "licence: the category that counts"), text_field("law", "where it stands"), note_field("note", "anything else")}},
      {"own_field", "own_fields", "book", "field", "F", "a field of the owner's own, for what his state or his office asks",
       {text_field("of_kind", "kind of record: tree, site, treatment...").must(), text_field("name", "name: small letters, digits, _").must(),
        choice_field("type", {"text", "note", "whole", "number", "day", "yes_no", "choice"}, "what stands in it").must(),
        text_field("choices", "of a choice: a,b,c"), yes_no_field("required", "a record without it is incomplete"), text_field("label", "how it is printed")}},
      {"depot", "depots", "crew", "depot", "E", "where trucks start and end the day",
       {text_field("name", "name").must(), number_field("lat", -90, 90, "latitude, degrees north"), number_field("lon", -180, 180, "longitude, degrees east"),
        text_field("address", "address"), note_field("note", "anything else")}},
      {"crew", "crews", "crew", "", "C", "people who go out together",
       {text_field("name", "name").must(), link_field("depot", "depot", "where they start"), text_field("phone", "number that texts go to").of_a_person(),
        clock_field("works_from", "earliest on site"), clock_field("works_until", "latest off site"), text_field("work_days", "days of the week: Mo Tu We Th Fr"),
        note_field("note", "anything else")}},
      {"member", "members", "crew", "member", "P", "a person of a crew",
       {link_field("crew", "crew", "crew"), text_field("name", "name").must().of_a_person(), text_field("phone", "number").of_a_person(),
        text_field("email", "mail").of_a_person(), text_field("skills", "what he can do"), note_field("note", "anything else")}},
      {"licence", "licences", "crew", "licence", "L", "a member's applicator licence",
       {link_field("member", "member", "whose").must(), text_field("number", "certification number").must(), text_field("category", "category").must(),
        text_field("issuer", "state or agency"), day_field("expires_on", "last day that it holds").must()}},
      {"day_off", "days_off", "crew", "day-off", "O", "days on which a crew or a member does not work",
       {link_field("crew", "crew", "crew"), link_field("member", "member", "or one member"), day_field("first_day", "first day").must(),
        day_field("last_day", "last day").must(), text_field("why", "why")}},
      {"rig", "rigs", "crew", "rig", "G", "a pump with its lines",
       {text_field("name", "name").must(), link_field("crew", "crew", "who has it"), whole_field("lines", 1, 400, "ports that it feeds at once"),
        number_field("pressure_kpa", 10, 700, "highest pressure at the ports"), day_field("out_from", "out of order from"), day_field("out_until", "to"),
        note_field("note", "anything else")}},
      {"water_tank", "water_tanks", "crew", "tank", "W", "a tank on a truck",
       {text_field("name", "name").must(), link_field("crew", "crew", "who has it"), number_field("volume_l", 1, 20000, "what it holds").must(),
        note_field("note", "anything else")}},
      {"client", "clients", "client", "", "K", "who the work is for",
       {text_field("name", "name").must().of_a_person(), text_field("contact", "whom to ask for").of_a_person(), text_field("phone", "number").of_a_person(),
        text_field("email", "mail").of_a_person(), text_field("address", "address").of_a_person(),
        choice_field("consent", {"yes", "no", "asked"}, "to the treatment"), day_field("consent_on", "given on"), day_field("consent_until", "holds until"),
        yes_no_field("may_text", "may be sent texts"), note_field("note", "anything else").of_a_person()}},
  };
}

}  // namespace book
