// From what a person writes about one record to the edits that the book keeps: a tree with its diameter and, where a list names no site,
// its site; wall clock at the tree to UTC; an application record with what the book knows already.
#pragma once
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "app/request.h"
#include "store/book.h"

namespace app {

class EditPlan {
 public:
  enum class From { a_person, a_list };  // who types lets the book fill in what it knows; a list is taken as it is
  EditPlan(store::Book& book, const Common& common) : book_(book), common_(common) {}

  // The kind as people write it: with the owner's own fields, and for a tree what goes into other records (dbh_cm, measured_on;
  // elevation_m, zone and soil of a site that the list does not name).
  [[nodiscard]] const book::Kind& face_kind(const std::string& kind);

  // Edits of one group that add or change a record with `written`, whose names may be other names (app/field_names.h).
  [[nodiscard]] units::Result<std::vector<book::Edit>> edits(book::Edit::What what, const std::string& kind, const std::string& id,
                                                             const book::Fields& written, std::size_t group, From from = From::a_person);

  // What was taken but may be a slip: a line each.
  [[nodiscard]] const std::vector<std::string>& doubts() const { return doubts_; }

 private:
  friend std::optional<units::ZoneOffsets> zone_of_record(store::Book& book, const Common& common, const book::Record& record);
  // Edits that go with the one asked for.
  struct Parts {
    std::vector<book::Edit> before, after;
  };
  [[nodiscard]] std::optional<units::Fault> split_tree(book::Edit& edit, Parts& parts);
  [[nodiscard]] std::optional<units::Fault> split_site(book::Edit& edit, Parts& parts);
  [[nodiscard]] bool is_measured(const std::string& tree, const std::string& dbh_cm, const std::string& on);
  [[nodiscard]] std::optional<units::Fault> complete_treatment(book::Edit& edit, Parts& parts, From from);
  void date_treatment(book::Edit& edit);
  [[nodiscard]] std::optional<units::Fault> unbelievable(const book::Edit& edit);
  [[nodiscard]] std::optional<units::Fault> to_utc(book::Edit& edit);
  // The zone of the tree that a record is about; empty where it is not known.
  [[nodiscard]] std::optional<units::ZoneOffsets> zone_of(const book::Edit& edit);
  [[nodiscard]] std::string linked(const std::string& kind, const std::string& id, const std::string& field);
  [[nodiscard]] std::string today(const book::Edit& edit);

  void doubt_diameter(const std::string& tree, const std::string& dbh_cm);

  store::Book& book_;
  const Common& common_;
  std::vector<std::string> doubts_;
  std::set<std::string> asked_species_;
  std::map<std::string, book::Kind> face_kinds_;
  std::map<std::string, std::string> zone_of_site_;
};

// The zone of the site that a record is about; empty where it is not known.
[[nodiscard]] std::optional<units::ZoneOffsets> zone_of_record(store::Book& book, const Common& common, const book::Record& record);

// From 1970 to twelve years after `now`.
[[nodiscard]] std::optional<units::ZoneOffsets> zone_named(const std::string& name, units::UtcTime now);

}  // namespace app
