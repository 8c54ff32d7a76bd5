// A record, a change asked of it, and the history that every change leaves.
#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "units/fault.h"
#include "units/time.h"

namespace book {

using Fields = std::map<std::string, std::string>;  // by name, canonical; what is not known is not there

struct Record {
  std::string kind, id;
  std::int64_t version = 0;  // 1 when added, one more with every change
  bool removed = false;      // out of lists and due dates; its history stays
  Fields fields = {};

  // Empty text where nothing is known.
  [[nodiscard]] const std::string& text(const std::string& field) const;
  [[nodiscard]] std::optional<double> number(const std::string& field) const;
  [[nodiscard]] std::optional<units::LocalDay> day(const std::string& field) const;
  [[nodiscard]] std::optional<units::UtcTime> instant(const std::string& field) const;
  [[nodiscard]] std::optional<std::chrono::minutes> clock(const std::string& field) const;  // after midnight
  [[nodiscard]] bool yes(const std::string& field) const;                                   // false where nothing is known
};

struct Edit {
  enum class What { add, change, remove, bring_back };
  What what = What::add;
  std::string kind;
  std::string id;                            // of an added record empty: the store gives the next
  Fields set = {};                           // as written; empty text clears a field
  std::optional<std::int64_t> version = {};  // what the asker saw: another version now is a conflict
  std::size_t group = 0;                     // edits of one group stand and fall together
  std::map<std::string, std::string> follows =
      {};                     // of an added record: a field takes the id of the record of that kind added last before it
  bool unless_there = false;  // of an added record: one that has this id, removed or not, is left as it is; that is no fault
};

struct Author {
  std::string who;
  units::UtcTime when;
  std::string why = {};
};

struct Changed {
  std::optional<std::string> was, now;
  friend bool operator==(const Changed&, const Changed&) = default;
};

struct HistoryEntry {
  std::int64_t number = 0;  // from 1 without gaps, over the whole book
  std::int64_t batch = 0;   // edits kept together have one
  Author author;
  std::string kind, id;
  std::int64_t version = 0;  // that the record had after it
  std::string what;          // add, change, remove, bring_back, erase
  std::map<std::string, Changed> changes;
};

// What two desks want of one record: the fields that the other changed since the asker looked.
struct Conflict {
  std::int64_t seen = 0, present = 0;
  std::string by;  // who changed it last
  units::UtcTime at;
  std::map<std::string, Changed> theirs;  // was: when the asker looked; now: as it stands
  Fields mine;
};

}  // namespace book
