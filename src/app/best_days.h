// What `days` last said of each tree of the book, kept beside the cache: the due list shows it without computing anything.
#pragma once
#include <map>
#include <string>

#include "app/days_report.h"
#include "app/request.h"

namespace app {

struct BestDay {
  std::string date, verdict, made_at;  // YYYY-MM-DD, "go", an instant
};

class BestDays {
 public:
  // Nothing where nothing was kept or it cannot be read: it is only a convenience.
  static BestDays read(const Common& common);
  // Takes in what a report says and keeps it.
  static void keep(const Common& common, const DaysReport& report);

  [[nodiscard]] const BestDay* of(const std::string& tree) const;  // nullptr: none known, or it has passed
  [[nodiscard]] std::string said(const std::string& tree) const;   // "Thu Jul 9 GO (said Mon Jul 6)"; empty for none

 private:
  std::map<std::string, BestDay> by_tree_;
};

}  // namespace app
