#include "support/random_book.h"

#include <algorithm>
#include <array>
#include <map>
#include <random>
#include <string>

#include "book/kind.h"
#include "units/time.h"

namespace {

using book::Field;
using book::FieldType;

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  std::size_t below(std::size_t count) { return static_cast<std::size_t>(engine_() % count); }
  bool one_in(std::size_t count) { return below(count) == 0; }
  double unit() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }

 private:
  std::mt19937_64 engine_;
};

std::string odd_text(Dice& dice) {
  static const std::array<std::string, 16> odd{"=1+2",
                                               "'=1",
                                               "''@x",
                                               "+1 555",
                                               "-",
                                               "a,b",
                                               "a\"b",
                                               "O'Hara; DROP TABLE tree; --",
                                               "\xF0\x9F\x8C\xB3\xF0\x9F\x8F\xBD",
                                               "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D",
                                               "../../x",
                                               ":id $1 ?",
                                               "NULL",
                                               "0012",
                                               "\xE2\x80\xAE"
                                               "abc",
                                               "{\"a\":[null]}"};
  if (dice.one_in(3)) return odd[dice.below(odd.size())];
  std::string text;
  for (std::size_t i = 0, n = 1 + dice.below(20); i < n; ++i) text += static_cast<char>('a' + dice.below(26));
  return text;
}

std::string value_of(const Field& field, Dice& dice, const std::map<std::string, std::vector<std::string>>& ids) {
  switch (field.type) {
    case FieldType::text:
      return odd_text(dice);
    case FieldType::note:
      return odd_text(dice) + "\n\n" + odd_text(dice) + (dice.one_in(50) ? std::string(70'000, 'n') : "");
    case FieldType::whole:
      return book::shortest(std::floor(field.lowest + dice.unit() * (field.highest - field.lowest)));
    case FieldType::number:
      return book::shortest(dice.one_in(10) ? field.lowest : field.lowest + dice.unit() * (field.highest - field.lowest));
    case FieldType::day:
      return units::to_text(units::LocalDay{std::chrono::days{15'000 + static_cast<int>(dice.below(8000))}});
    case FieldType::clock:
      return dice.one_in(2) ? "06:30" : "23:59";
    case FieldType::instant:
      return units::to_text(units::UtcTime{std::chrono::minutes{25'000'000 + static_cast<long>(dice.below(4'000'000))}});
    case FieldType::yes_no:
      return dice.one_in(2) ? "yes" : "no";
    case FieldType::choice:
      return field.choices[dice.below(field.choices.size())];
    case FieldType::link: {
      const auto found = ids.find(field.links_to);
      return found == ids.end() || found->second.empty() ? std::string{} : found->second[dice.below(found->second.size())];
    }
  }
  return {};
}

// Pairs that must be in order are given alike.
void make_sense(book::Fields& set) {
  for (const auto& [earlier, later] : {std::pair{"first_day", "last_day"},
                                       {"out_from", "out_until"},
                                       {"consent_on", "consent_until"},
                                       {"ticket_from", "ticket_until"},
                                       {"ticket_called_on", "ticket_until"},
                                       {"work_from", "work_until"},
                                       {"works_from", "works_until"},
                                       {"not_before", "not_after"},
                                       {"started_at", "ended_at"},
                                       {"opened_at", "shut_by"},
                                       {"made_at", "not_after"}})
    if (set.contains(earlier) && set.contains(later)) set[later] = std::max(set[earlier], set[later]);
}

}  // namespace

std::vector<book::Edit> random_book(std::size_t trees, std::uint64_t seed) {
  Dice dice{seed};
  std::map<std::string, std::vector<std::string>> ids;
  std::vector<book::Edit> edits;
  for (const book::Kind& kind : book::kinds()) {
    const bool many = kind.name == "tree" || kind.name == "diameter" || kind.name == "port";
    for (std::size_t i = 0, n = many ? trees : std::max<std::size_t>(3, trees / 20); i < n; ++i) {
      book::Edit edit{book::Edit::What::add, kind.name, kind.name + " " + std::to_string(i) + (dice.one_in(10) ? ",\"'" : "")};
      for (const Field& field : kind.fields)
        if (field.required || dice.one_in(2)) edit.set[field.name] = value_of(field, dice, ids);
      if (kind.name == "own_field")
        edit.set = {
            {"of_kind", i % 2 == 0 ? "tree" : "treatment"}, {"name", "own" + std::to_string(i)}, {"type", i % 3 == 0 ? "day" : "text"}};
      if (kind.name == "tree" && dice.one_in(2)) edit.set["own_own2"] = odd_text(dice);
      for (const char* stretches : {"bad_sectors", "ridges"})
        if (edit.set.contains(stretches)) edit.set[stretches] = "120-160, 200-220";
      if (edit.set.contains("work_days")) edit.set["work_days"] = "Mo We Sa";
      if (kind.name == "day_off" || kind.name == "message") edit.set["crew"] = value_of(*kind.field("crew"), dice, ids);
      if (kind.name == "treatment")
        for (const auto& [field, clock] : {std::pair{"started_at", "T14:05Z"}, {"ended_at", "T23:10Z"}})
          if (edit.set.contains(field)) edit.set[field] = edit.set["day"] + clock;
      if (kind.name == "message" && (edit.set["state"] == "queued" || edit.set["state"] == "sending"))
        for (const char* field : {"purpose", "road", "made_at", "next_try_at", "not_after"})
          edit.set[field] = value_of(*kind.field(field), dice, ids);
      if (edit.set.contains("quiet_from") || edit.set.contains("quiet_until"))
        for (const char* field : {"quiet_from", "quiet_until"}) edit.set[field] = value_of(*kind.field(field), dice, ids);
      make_sense(edit.set);
      ids[kind.name].push_back(edit.id);
      edits.push_back(std::move(edit));
    }
  }
  for (std::size_t i = 0; i < trees / 4; ++i)
    edits.push_back(
        {book::Edit::What::change, "tree", ids["tree"][dice.below(ids["tree"].size())], {{"name", odd_text(dice)}, {"dose_l", ""}}});
  for (std::size_t i = 0; i < trees / 20; ++i)
    edits.push_back({book::Edit::What::remove, "diameter", ids["diameter"][dice.below(ids["diameter"].size())]});
  return edits;
}
