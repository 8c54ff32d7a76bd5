#include "book/kinds.h"

namespace book {

std::vector<Kind> kinds_of_work() {
  return {
      {"job", "jobs", "booking", "", "J", "a treatment that is wanted, booked, or done",
       {link_field("tree", "tree", "which tree").must(), link_field("crew", "crew", "who goes"), day_field("day", "day"), clock_field("start", "on site from"),
        choice_field("state", {"wanted", "confirmed", "under_way", "done", "stopped", "dropped"}, "how far it is").must(),
        yes_no_field("locked", "must not be moved"), number_field("value", 0, 1e9, "what it brings"), instant_field("opened_at", "valves opened at"),
        instant_field("shut_by", "valves shut by"), note_field("note", "anything else")}},
      {"reading", "readings", "booking", "reading", "N", "what a tree had taken at a time",
       {link_field("job", "job", "of which job").must(), instant_field("at", "when").must(),
        number_field("taken_l", 0, 10000, "taken since the valves opened").must(), text_field("taken_by", "who read the tank").of_a_person()}},
      {"message", "messages", "booking", "message", "M", "a text, drafted or sent",
       {link_field("job", "job", "about which job"), link_field("crew", "crew", "to a crew"), link_field("client", "client", "or to a client"),
        choice_field("state", {"draft", "sent", "failed"}, "how far it is").must(), instant_field("sent_at", "sent at"),
        note_field("body", "what it says").must().of_a_person()}},
      {"treatment", "treatments", "record", "", "R", "the record of one application",
       {link_field("tree", "tree", "which tree").must(), link_field("job", "job", "of which job"),
        choice_field("outcome", {"done", "partial", "not_treated"}, "how it ended").must(), text_field("reason", "why not wholly"),
        day_field("day", "day").must(), instant_field("started_at", "valves open"), instant_field("ended_at", "valves shut"),
        number_field("mix_l", 0, 10000, "mix taken by the tree"), number_field("leak_l", 0, 10000, "mix lost by leaks"),
        number_field("flush_l", 0, 10000, "clean water after it"), number_field("flare_cm", 10, 4000, "circumference of the flare at the ports"),
        text_field("for_name", "for whom: name").of_a_person(), text_field("for_address", "for whom: address").of_a_person(),
        text_field("location", "where: address or description"), text_field("area", "size of the area treated, as the label measures it"),
        text_field("treated", "crop, commodity or site treated"), text_field("target", "against what"),
        text_field("applicator", "certified applicator, name").of_a_person(), text_field("licence_number", "certification number"),
        text_field("helper", "who applied under the applicator's eyes").of_a_person(), text_field("weather", "weather"), note_field("note", "anything else")},
       true},
      {"mix", "mixes", "record", "mix", "X", "what was mixed into a tank of one application, as the applicator enters it",
       {link_field("treatment", "treatment", "which record").must(), whole_field("tank", 1, 100, "number of the tank").must(),
        number_field("volume_l", 0, 10000, "mix in the tank"), text_field("product", "brand or product name").must(),
        text_field("registration", "EPA registration number"), text_field("amount", "amount of product, with its unit")},
       true},
      {"port", "ports", "record", "port", "H", "a hole of one application",
       {link_field("treatment", "treatment", "which record").must(), number_field("clockwise_cm", 0, 4000, "clockwise from the tag").must(),
        number_field("height_cm", -100, 300, "above the tag"), number_field("depth_mm", 1, 300, "depth"), number_field("diameter_mm", 1, 50, "diameter"),
        yes_no_field("leaked", "leaked")},
       true},
  };
}

}  // namespace book
