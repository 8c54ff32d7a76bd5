// From what a person writes about one record to the edits that the book keeps: a tree with its diameter and, where a list names no site,
// its site; wall clock at the tree to UTC; an application record with what the book knows already.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "app/request.h"
#include "store/book.h"

namespace app {

class EditPlan {
 public:
  EditPlan(store::Book& book, const Common& common) : book_(book), common_(common) {}

  // The kind as people write it: with the owner's own fields, and for a tree what goes into other records (dbh_cm, measured_on;
  // elevation_m, zone and soil of a site that the list does not name).
  [[nodiscard]] const book::Kind& face_kind(const std::string& kind);

  // Edits of one group that add or change a record with `written`, whose names may be other names (app/field_names.h).
  [[nodiscard]] units::Result<std::vector<book::Edit>> edits(book::Edit::What what, const std::string& kind, const std::string& id,
                                                             const book::Fields& written, std::size_t group);

 private:
  friend std::optional<units::ZoneOffsets> zone_of_record(store::Book& book, const Common& common, const book::Record& record);
  void split_tree(book::Edit& edit, std::vector<book::Edit>& edits);
  [[nodiscard]] bool is_measured(const std::string& tree, const std::string& dbh_cm, const std::string& on);
  void complete_treatment(book::Edit& edit, std::vector<book::Edit>& edits);
  [[nodiscard]] std::optional<units::Fault> to_utc(book::Edit& edit);
  // The zone of the tree that a record is about; empty where it is not known.
  [[nodiscard]] std::optional<units::ZoneOffsets> zone_of(const book::Edit& edit);
  [[nodiscard]] std::string linked(const std::string& kind, const std::string& id, const std::string& field);
  [[nodiscard]] std::string today(const book::Edit& edit);

  store::Book& book_;
  const Common& common_;
  std::map<std::string, book::Kind> face_kinds_;
  std::map<std::string, std::string> zone_of_site_;
};

// The zone of the site that a record is about; empty where it is not known.
[[nodiscard]] std::optional<units::ZoneOffsets> zone_of_record(store::Book& book, const Common& common, const book::Record& record);

// Twelve years before and after `now`.
[[nodiscard]] std::optional<units::ZoneOffsets> zone_named(const std::string& name, units::UtcTime now);

}  // namespace app
