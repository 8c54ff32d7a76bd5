#include "app/edit_plan.h"

#include <algorithm>
#include <array>

#include "app/field_names.h"
#include "feeds/time_zone.h"
#include "units/text.h"

namespace app {
namespace {

using book::Edit;
using book::Fields;

// Takes `name` out of `fields`; empty where it is not there.
std::string taken(Fields& fields, const std::string& name) {
  const auto node = fields.extract(name);
  return node.empty() ? std::string{} : node.mapped();
}

std::string text(const Fields& fields, const std::string& name) {
  const auto found = fields.find(name);
  return found == fields.end() ? std::string{} : found->second;
}

// "2026-07-09 9:30" or with T: a wall clock without zone, as an ISO text with Z that is still to be moved.
std::optional<units::LocalTime> wall_clock(std::string_view written) {
  std::string iso{units::trimmed(written)};
  if (iso.size() == 15 && iso[12] == ':') iso.insert(11, "0");
  const auto as_if_utc = iso.size() == 16 ? units::parse_instant(iso + "Z") : std::nullopt;
  return as_if_utc ? std::optional{units::LocalTime{as_if_utc->time_since_epoch()}} : std::nullopt;
}

}  // namespace

std::optional<units::ZoneOffsets> zone_named(const std::string& name, units::UtcTime now) {
  const auto years = std::chrono::hours{24 * 366 * 12};
  const auto zone = feeds::load_zone(name, now - years, now + years);
  return zone ? std::optional{*zone} : std::nullopt;
}

std::optional<units::ZoneOffsets> zone_of_record(store::Book& book, const Common& common, const book::Record& record) {
  return EditPlan{book, common}.zone_of({book::Edit::What::change, record.kind, record.id, record.fields});
}

const book::Kind& EditPlan::face_kind(const std::string& kind) {
  const auto known = face_kinds_.find(kind);
  if (known != face_kinds_.end()) return known->second;
  book::Kind face = book_.kind_with_own(kind);
  if (kind == "tree") {
    for (const char* field : {"dbh_cm", "measured_on", "forks"}) face.fields.push_back(*book::kind("diameter").field(field));
    for (const char* field : {"elevation_m", "zone", "soil"}) face.fields.push_back(*book::kind("site").field(field));
    for (book::Field& field : face.fields) field.required = field.name == "species";
  }
  return face_kinds_.emplace(kind, std::move(face)).first->second;
}

units::Result<std::vector<Edit>> EditPlan::edits(Edit::What what, const std::string& kind, const std::string& id, const Fields& written,
                                                 std::size_t group) {
  auto own = in_own_names(face_kind(kind), written);
  if (!own) return tl::make_unexpected(own.error());
  Edit edit{what, kind, id, std::move(*own), {}, group};
  std::vector<Edit> edits;
  if (kind == "tree") split_tree(edit, edits);
  if (kind == "job" && what == Edit::What::add) edit.set.try_emplace("state", "wanted");
  if (kind == "treatment" && what == Edit::What::add) complete_treatment(edit, edits);
  if (const auto fault = to_utc(edit)) return tl::make_unexpected(*fault);
  const auto before_diameter = std::ranges::find(edits, "diameter", &Edit::kind);
  edits.insert(before_diameter, std::move(edit));
  return edits;
}

void EditPlan::split_tree(Edit& edit, std::vector<Edit>& edits) {
  const std::string elevation = taken(edit.set, "elevation_m"), zone = taken(edit.set, "zone"), soil = taken(edit.set, "soil");
  if (edit.what == Edit::What::add && text(edit.set, "site").empty() && !(elevation.empty() && zone.empty() && soil.empty())) {
    const std::string& called = text(edit.set, "name").empty() ? edit.id : text(edit.set, "name");
    edits.push_back({Edit::What::add,
                     "site",
                     edit.id,
                     {{"name", called},
                      {"lat", taken(edit.set, "lat")},
                      {"lon", taken(edit.set, "lon")},
                      {"elevation_m", elevation},
                      {"zone", zone},
                      {"soil", soil}},
                     {},
                     edit.group});
    edit.set["site"] = edit.id;
  }
  const std::string dbh = taken(edit.set, "dbh_cm"), forks = taken(edit.set, "forks");
  std::string on = taken(edit.set, "measured_on");
  if (units::trimmed(dbh).empty()) return;
  if (edit.what == Edit::What::change && is_measured(edit.id, dbh, on)) return;
  if (units::trimmed(on).empty()) on = today(edit);
  edits.push_back(
      {Edit::What::add, "diameter", "", {{"tree", edit.id}, {"dbh_cm", dbh}, {"measured_on", on}, {"forks", forks}}, {}, edit.group});
}

// A list that is brought in again must not measure every tree anew.
bool EditPlan::is_measured(const std::string& tree, const std::string& dbh_cm, const std::string& on) {
  const auto latest = book_.latest_diameters(tree);
  const auto number = units::parse_number(units::trimmed(dbh_cm));
  return !latest.empty() && number && latest.front().number("dbh_cm") == number &&
         (units::trimmed(on).empty() || latest.front().text("measured_on") == units::trimmed(on));
}

// What the book knows of the tree and its client is written into the record, which must stand when both have changed.
void EditPlan::complete_treatment(Edit& edit, std::vector<Edit>& edits) {
  const auto fill = [&](const char* field, const std::string& known) {
    if (text(edit.set, field).empty() && !known.empty()) edit.set[field] = known;
  };
  const std::string job = text(edit.set, "job");
  if (!job.empty()) {
    fill("tree", linked("job", job, "tree"));
    fill("day", linked("job", job, "day"));
    fill("started_at", linked("job", job, "opened_at"));
    if (book_.find("job", job))
      edits.push_back(
          {Edit::What::change, "job", job, {{"state", text(edit.set, "outcome") == "done" ? "done" : "stopped"}}, {}, edit.group});
  }
  const std::string tree = text(edit.set, "tree"), site = linked("tree", tree, "site"), client = linked("site", site, "client");
  fill("for_name", linked("client", client, "name"));
  fill("for_address", linked("client", client, "address"));
  fill("location", linked("site", site, "address"));
  if (const std::string species = linked("tree", tree, "species"); !species.empty()) fill("treated", species + " (tree)");
  fill("flare_cm", linked("tree", tree, "flare_cm"));
  if (text(edit.set, "day").empty() && text(edit.set, "started_at").size() >= 10)
    edit.set["day"] = text(edit.set, "started_at").substr(0, 10);
}

std::optional<units::Fault> EditPlan::to_utc(Edit& edit) {
  for (const book::Field& field : book::kind(edit.kind).fields) {
    const auto found = edit.set.find(field.name);
    if (field.type != book::FieldType::instant || found == edit.set.end()) continue;
    const auto wall = wall_clock(found->second);
    if (!wall) continue;  // with a zone, empty, or no time at all: the book will say
    const auto zone = zone_of(edit);
    if (!zone)
      return units::Fault{field.name, found->second,
                          "expected an instant with its zone, such as 2026-07-09T14:30Z: the site's is not known here"};
    found->second = units::to_text(zone->to_utc(*wall));
  }
  return std::nullopt;
}

std::optional<units::ZoneOffsets> EditPlan::zone_of(const Edit& edit) {
  const auto value = [&](const char* field) {
    const std::string written = text(edit.set, field);
    return written.empty() && !edit.id.empty() ? linked(edit.kind, edit.id, field) : written;
  };
  std::string site = edit.kind == "site" ? edit.id : std::string{};
  if (edit.kind == "site" && !value("zone").empty()) return zone_named(value("zone"), common_.now);
  std::string tree = edit.kind == "tree" ? edit.id : value("tree");
  if (tree.empty()) tree = linked("job", value("job"), "tree");
  if (site.empty()) site = edit.kind == "tree" && !value("site").empty() ? value("site") : linked("tree", tree, "site");
  const auto [zone, is_new] = zone_of_site_.try_emplace(site);
  if (is_new) zone->second = linked("site", site, "zone");
  return zone->second.empty() ? std::nullopt : zone_named(zone->second, common_.now);
}

std::string EditPlan::linked(const std::string& kind, const std::string& id, const std::string& field) {
  if (id.empty()) return {};
  const auto record = book_.find(kind, id);
  return record ? record->text(field) : std::string{};
}

std::string EditPlan::today(const Edit& edit) {
  const auto zone = zone_of(edit);
  return units::to_text(zone ? zone->day_of(common_.now) : units::ZoneOffsets::utc().day_of(common_.now));
}

}  // namespace app
