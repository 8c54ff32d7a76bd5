// The invented office of weather-samples/rainy-week in a book of the tests.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "book_of_tests.h"

namespace rainy_week {

inline const std::string samples = SAPDRAW_SAMPLES;

inline void import(const BookOfTests& book) {
  for (const auto& [kind, file] : std::vector<std::pair<Arguments, std::string>>{{{"crew", "depot"}, "depots"},
                                                                                 {{"crew"}, "crews"},
                                                                                 {{"crew", "member"}, "members"},
                                                                                 {{"crew", "licence"}, "licences"},
                                                                                 {{"crew", "rig"}, "rigs"},
                                                                                 {{"crew", "tank"}, "tanks"},
                                                                                 {{"book", "rule"}, "rules"},
                                                                                 {{"client"}, "clients"},
                                                                                 {{"site"}, "sites"},
                                                                                 {{"tree"}, "trees"},
                                                                                 {{"booking"}, "jobs"}}) {
    Arguments arguments = kind;
    arguments.insert(arguments.end(), {"import", samples + "/rainy-week/" + file + ".csv", "--now", "2026-07-12T15:00Z"});
    book.done(arguments);
  }
}

// Imported once, then taken from a backup: eleven commands less for every test.
inline void load(const BookOfTests& book) {
  static const Scratch kept;
  static const std::string backup = (kept.folder() / "rainy-week.sqlite").string();
  static const bool made = [] {
    const BookOfTests first;
    import(first);
    first.done({"book", "backup", backup});
    return true;
  }();
  if (made) book.done({"book", "restore", backup});
}

}  // namespace rainy_week
