#include <cmath>

#include "params/bind.h"

namespace params {

void bind_office(Section& file, book::OfficeTerms& office, book::DeliveryTerms& sending) {
  const auto whole = [&](const char* name, const char* unit) { return static_cast<int>(std::lround(file.number(name, unit))); };
  office.keeps_seasons = whole("keeps_seasons", "1");
  office.done_by_day_of_year = whole("done_by", "d");
  office.disease_stays_days = whole("disease_stays", "d");
  office.look_ahead_days = whole("look_ahead", "d");
  office.most_trees = whole("most_trees", "1");
  office.trunk_shrinks_to = file.number("trunk_shrinks_to", "1");
  office.trunk_leaps_to = file.number("trunk_leaps_to", "1");
  office.warn_days = whole("warn", "d");
  office.keep_records_days = whole("keep_records", "d");
  file.section("sending", [&](Section& s) {
    sending.first_wait_min = s.number("first_wait", "min");
    sending.wait_grows = s.number("wait_grows", "1");
    sending.longest_wait_min = s.number("longest_wait", "min");
    sending.most_tries = static_cast<int>(std::lround(s.number("most_tries", "1")));
    sending.lease_min = s.number("lease", "min");
    sending.key_known_h = s.number("key_known", "h");
    sending.ease_after_min = s.number("ease_after", "min");
    sending.tell_for_h = s.number("tell_for", "h");
  });
}

}  // namespace params
