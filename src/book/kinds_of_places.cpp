#include "book/kinds.h"

namespace book {

std::vector<Kind> kinds_of_places() {
  return {
      {"site", "sites", "site", "", "S", "a place with trees",
       {link_field("client", "client", "whose"), text_field("name", "name").must(), number_field("lat", -90, 90, "latitude, degrees north").must(),
        number_field("lon", -180, 180, "longitude, degrees east").must(), number_field("elevation_m", -430, 9000, "elevation").must(),
        text_field("zone", "time zone: America/Chicago").must(), text_field("soil", "USDA texture class").must(),
        text_field("address", "address").of_a_person(), text_field("water", "water on site: tap, hydrant, none"), text_field("gate", "gate and code").of_a_person(),
        text_field("dog", "dog").of_a_person(), text_field("parking", "where the truck stands"), text_field("ticket", "utility locate ticket"),
        day_field("ticket_called_on", "called in on"), day_field("ticket_from", "ticket holds from"), day_field("ticket_until", "ticket holds until"),
        instant_field("notice_at", "neighbours told at"), instant_field("posted_at", "signs up since"),
        day_field("disease_near_on", "a diseased tree of the kind seen nearby on"), note_field("note", "anything else").of_a_person()}},
      {"tree", "trees", "tree", "", "T", "a tree",
       {link_field("site", "site", "where it stands").must(), text_field("name", "what people call it"),
        text_field("species", "Latin or English name").must(), number_field("lat", -90, 90, "latitude, where it differs from the site's"),
        number_field("lon", -180, 180, "longitude"), number_field("crown_m", 0.5, 60, "mean crown diameter"),
        number_field("crown_now_pct", 0, 100, "leaves now against a full crown"),
        choice_field("condition", {"good", "fair", "poor", "dying"}, "condition of the crown"), day_field("full_leaf_on", "full leaf seen on"),
        clock_field("leave_by", "off site by"), number_field("rew_now", 0, 1.5, "soil water now, share of what roots can take"),
        number_field("dose_l", 0.1, 5000, "mix by the owner's label figure"), whole_field("ports", 1, 400, "number of ports"),
        number_field("hole_diameter_mm", 2, 30, "hole diameter"), number_field("pressure_kpa", 10, 700, "pressure at the ports"),
        number_field("flare_cm", 10, 4000, "circumference of the flare where ports go"), text_field("bad_sectors", "bad wood, cm clockwise from the tag: 120-160, 400-20"),
        text_field("ridges", "ridges of the flare, cm clockwise from the tag: 30-90, 150-210"), text_field("tag", "where the tag is"),
        whole_field("keeps_seasons", 1, 20, "growing seasons that a treatment lasts in this tree"), yes_no_field("urgent", "does not wait for its season"),
        day_field("gone_on", "removed (felled) on"), note_field("note", "anything else")}},
      {"diameter", "diameters", "tree", "diameter", "D", "a measured trunk",
       {link_field("tree", "tree", "which tree").must(), day_field("measured_on", "day of the measurement").must(),
        number_field("dbh_cm", 2, 400, "trunk diameter").must(), number_field("height_cm", 10, 300, "height above ground of the measurement"),
        whole_field("forks", 1, 20, "stems at that height"), text_field("measured_by", "who measured").of_a_person()}},
  };
}

}  // namespace book
