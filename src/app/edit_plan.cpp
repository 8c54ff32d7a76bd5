#include "app/edit_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdio>

#include "app/field_names.h"
#include "app/typed.h"
#include "app/wording.h"
#include "feeds/time_zone.h"
#include "params/lookup.h"
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

// "7/9/2026" as 2026-07-09; anything else as it is.
std::string iso_day(std::string_view written) {
  const std::string text{units::trimmed(written)};
  int month = 0, day = 0, year = 0, read = 0;
  if (std::sscanf(text.c_str(), "%2d/%2d/%4d%n", &month, &day, &year, &read) != 3 || static_cast<std::size_t>(read) != text.size() ||
      year < 1000)
    return text;
  return fmt::format("{:04}-{:02}-{:02}", year, month, day);
}

// A wall clock with its day ("2026-07-09 9:30", "7/9/2026 9:30 am"), without zone.
std::optional<units::LocalTime> wall_clock(std::string_view written) {
  std::string text{units::trimmed(written)};
  if (text.size() > 10 && text[10] == 'T') text[10] = ' ';
  const auto blank = text.find(' ');
  if (blank == std::string::npos) return std::nullopt;
  const auto typed = typed_time(iso_day(text.substr(0, blank)) + text.substr(blank));
  if (!typed || !typed->day || typed->instant) return std::nullopt;
  return units::LocalTime{*typed->day} + typed->clock;
}

// Days and clocks in the ways that people write them, as the book does.
void as_people_write(Edit& edit) {
  const book::Kind* kind = book::find_kind(edit.kind);
  for (auto& [name, value] : edit.set) {
    const book::Field* field = kind == nullptr ? nullptr : kind->field(name);
    if (field == nullptr) continue;
    if (field->type == book::FieldType::day) value = iso_day(value);
    const auto typed = field->type == book::FieldType::clock ? typed_time(units::trimmed(value)) : std::nullopt;
    if (typed && !typed->day && !typed->instant) value = fmt::format("{:02}:{:02}", typed->clock.count() / 60, typed->clock.count() % 60);
  }
}

}  // namespace

std::optional<units::ZoneOffsets> zone_named(const std::string& name, units::UtcTime now) {
  // Whatever a record's age, it must read the same whenever it is looked at.
  const auto first = std::chrono::sys_days{std::chrono::year{1970} / 1 / 1};
  const auto zone = feeds::load_zone(name, first, std::max<units::UtcTime>(now, first) + std::chrono::hours{24 * 366 * 12});
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
                                                 std::size_t group, From from) {
  auto own = in_own_names(face_kind(kind), written);
  if (!own) return tl::make_unexpected(own.error());
  for (auto& [field, value] : *own) value = std::string{units::trimmed(value)};
  Edit edit{what, kind, id, std::move(*own), {}, group};
  Parts parts;
  if (kind == "tree")
    if (const auto fault = split_tree(edit, parts)) return tl::make_unexpected(*fault);
  if (kind == "job" && what == Edit::What::add) edit.set.try_emplace("state", "wanted");
  if (kind == "treatment" && what == Edit::What::add)
    if (const auto fault = complete_treatment(edit, parts, from)) return tl::make_unexpected(*fault);
  as_people_write(edit);
  for (auto* list : {&parts.before, &parts.after})
    for (Edit& part : *list) as_people_write(part);
  if (const auto fault = to_utc(edit)) return tl::make_unexpected(*fault);
  if (kind == "treatment" && text(edit.set, "day").empty()) date_treatment(edit);
  for (const auto* list : {&parts.before, &parts.after})
    for (const Edit& part : *list)
      if (const auto fault = unbelievable(part)) return tl::make_unexpected(*fault);
  if (const auto fault = unbelievable(edit)) return tl::make_unexpected(*fault);
  std::vector<Edit> edits = std::move(parts.before);
  edits.push_back(std::move(edit));
  edits.insert(edits.end(), std::make_move_iterator(parts.after.begin()), std::make_move_iterator(parts.after.end()));
  return edits;
}

std::optional<units::Fault> EditPlan::split_tree(Edit& edit, Parts& parts) {
  if (const auto fault = split_site(edit, parts)) return fault;
  const std::string dbh = taken(edit.set, "dbh_cm"), forks = taken(edit.set, "forks");
  std::string on = taken(edit.set, "measured_on");
  if (units::trimmed(dbh).empty()) {
    if (units::trimmed(forks).empty() && (units::trimmed(on).empty() || edit.what == Edit::What::add)) return std::nullopt;
    return units::Fault{units::trimmed(forks).empty() ? "measured_on" : "forks",
                        units::for_message(units::trimmed(forks).empty() ? on : forks), "expected dbh_cm beside it"};
  }
  if (edit.what == Edit::What::change && is_measured(edit.id, dbh, on)) return std::nullopt;
  if (edit.what == Edit::What::change) doubt_diameter(edit.id, dbh);
  if (units::trimmed(on).empty()) on = today(edit);
  Edit diameter{Edit::What::add, "diameter", "", {{"tree", edit.id}, {"dbh_cm", dbh}, {"measured_on", on}, {"forks", forks}}, {},
                edit.group};
  if (edit.what == Edit::What::add) diameter.follows["tree"] = "tree";
  parts.after.push_back(std::move(diameter));
  return std::nullopt;
}

// Elevation, zone and soil are the site's. A list without sites makes one for each tree; there they change with the list, elsewhere they
// must agree.
std::optional<units::Fault> EditPlan::split_site(Edit& edit, Parts& parts) {
  Fields ground;
  for (const char* field : {"elevation_m", "zone", "soil"})
    if (const std::string value = taken(edit.set, field); !units::trimmed(value).empty()) ground[field] = units::trimmed(value);
  const bool adds = edit.what == Edit::What::add;
  std::string site = text(edit.set, "site");
  if (site.empty() && !adds) site = linked("tree", edit.id, "site");
  if (site.empty() && adds && !ground.empty()) {
    ground["name"] = text(edit.set, "name").empty() ? edit.id : text(edit.set, "name");
    for (const char* field : {"lat", "lon"}) ground[field] = taken(edit.set, field);
    parts.before.push_back({Edit::What::add, "site", edit.id, ground, {}, edit.group});
    edit.follows["site"] = "site";
    return std::nullopt;
  }
  const auto there = book_.find("site", site);
  if (!there) return std::nullopt;
  const bool own_site = site == edit.id;
  if (own_site)
    for (const char* field : {"lat", "lon"})
      if (const std::string value = taken(edit.set, field); !units::trimmed(value).empty()) ground[field] = units::trimmed(value);
  Fields moved;
  for (const auto& [field, value] : ground) {
    const auto canonical = book::canonical(*book::kind("site").field(field), value);
    if (!canonical) return canonical.error();
    if (*canonical == there->text(field)) continue;
    if (!own_site)
      return units::Fault{field, units::for_message(value),
                          "expected what site " + site + " has, '" + there->text(field) + "': change it there (sapdraw site change)"};
    moved[field] = value;
  }
  if (!moved.empty()) parts.before.push_back({Edit::What::change, "site", site, moved, {}, edit.group});
  // A place that is the site's own is no place of the tree's.
  if (text(edit.set, "lat") == there->text("lat") && text(edit.set, "lon") == there->text("lon")) {
    edit.set.erase("lat");
    edit.set.erase("lon");
  }
  return std::nullopt;
}

// Trunks neither shrink nor leap: a slip of the keyboard is likelier.
void EditPlan::doubt_diameter(const std::string& tree, const std::string& dbh_cm) {
  const auto latest = book_.latest_diameters(tree);
  const auto now = units::parse_number(units::trimmed(dbh_cm)), was = latest.empty() ? std::nullopt : latest.front().number("dbh_cm");
  if (now && was && (*now < common_.models.office.trunk_shrinks_to * *was || *now > common_.models.office.trunk_leaps_to * *was))
    doubts_.push_back(
        fmt::format("tree {}: dbh {:.4g} cm, it was {:.4g} cm on {}: is that so?", tree, *now, *was, latest.front().text("measured_on")));
}

// A list that is brought in again must not measure every tree anew.
bool EditPlan::is_measured(const std::string& tree, const std::string& dbh_cm, const std::string& on) {
  const auto latest = book_.latest_diameters(tree);
  const auto number = units::parse_number(units::trimmed(dbh_cm));
  return !latest.empty() && number && latest.front().number("dbh_cm") == number &&
         (units::trimmed(on).empty() || latest.front().text("measured_on") == units::trimmed(on));
}

// What the book knows of the tree and its client is written into the record, which must stand when both have changed. A record from
// elsewhere is left as it is: what the book knows today need not have been so then.
std::optional<units::Fault> EditPlan::complete_treatment(Edit& edit, Parts& parts, From from) {
  const auto fill = [&](const char* field, const std::string& known) {
    if (text(edit.set, field).empty() && !known.empty()) edit.set[field] = known;
  };
  const auto job = text(edit.set, "job").empty() ? std::nullopt : book_.find("job", text(edit.set, "job"));
  if (job) {
    fill("tree", job->text("tree"));
    if (text(edit.set, "tree") != job->text("tree"))
      return units::Fault{"tree", units::for_message(text(edit.set, "tree")),
                          "expected the tree of job " + job->id + ", " + job->text("tree")};
  }
  if (from == From::a_list) return std::nullopt;
  if (job) {
    fill("day", job->text("day"));
    fill("started_at", job->text("opened_at"));
    const std::string state = text(edit.set, "outcome") == "done" ? "done" : "stopped";
    parts.after.push_back({Edit::What::change, "job", job->id, {{"state", state}}, job->version, edit.group});
  }
  const std::string tree = text(edit.set, "tree"), site = linked("tree", tree, "site"), client = linked("site", site, "client");
  fill("for_client", client);
  fill("for_name", linked("client", client, "name"));
  fill("for_address", linked("client", client, "address"));
  fill("location", linked("site", site, "address"));
  if (const std::string species = linked("tree", tree, "species"); !species.empty()) fill("treated", species + " (tree)");
  fill("flare_cm", linked("tree", tree, "flare_cm"));
  return std::nullopt;
}

// The day of an application is the day at the tree.
void EditPlan::date_treatment(Edit& edit) {
  const auto begun = units::parse_instant(units::trimmed(text(edit.set, "started_at")));
  if (!begun || edit.what != Edit::What::add) return;
  edit.set["day"] = units::to_text(zone_of(edit).value_or(units::ZoneOffsets::utc()).day_of(*begun));
}

// What no field's limits catch: a zone that there is not, work that lies ahead.
std::optional<units::Fault> EditPlan::unbelievable(const Edit& edit) {
  if (const std::string species{units::trimmed(text(edit.set, "species"))};
      edit.kind == "tree" && !species.empty() && asked_species_.insert(species).second && !params::find_species(common_.models, species))
    doubts_.push_back("species '" + units::for_message(species) +
                      "' is none that days and sheet have answers for (sapdraw models lists them)");
  if (edit.kind == "site") {
    if (const std::string zone = text(edit.set, "zone"); !zone.empty() && !zone_named(std::string{units::trimmed(zone)}, common_.now))
      return units::Fault{"zone", units::for_message(zone), "expected an IANA time zone such as America/Chicago"};
    if (const std::string soil{units::trimmed(text(edit.set, "soil"))}; !soil.empty())
      if (const auto texture = params::find_texture(common_.models, soil); !texture) {
        units::Fault fault = texture.error();
        fault.where = "soil";
        return fault;
      }
  }
  if (edit.kind == "wording" && edit.what != Edit::What::remove) {
    book::Fields whole = edit.set;
    if (const auto present = book_.find("wording", edit.id)) whole.insert(present->fields.begin(), present->fields.end());
    if (auto fault = wording_fault(book_, edit.id, whole)) return fault;
  }
  if (edit.kind == "port") {
    const auto at = units::parse_number(text(edit.set, "clockwise_cm")),
               around = units::parse_number(linked("treatment", text(edit.set, "treatment"), "flare_cm"));
    if (at && around && *at > *around)
      return units::Fault{"clockwise_cm", text(edit.set, "clockwise_cm"),
                          "expected at most the flare's circumference then, " + book::shortest(*around) + " cm"};
  }
  const auto ahead = [&](int days) {
    return units::to_text(units::ZoneOffsets::utc().day_of(common_.now + std::chrono::hours{24 * days}));
  };
  const std::string tomorrow = ahead(1), next_year = ahead(366);
  for (const auto& [kind, field] : {std::pair{"treatment", "day"},
                                    {"treatment", "started_at"},
                                    {"treatment", "ended_at"},
                                    {"diameter", "measured_on"},
                                    {"reading", "at"}}) {
    const std::string written{units::trimmed(text(edit.set, field))};
    if (edit.kind != kind || !units::parse_day(written.substr(0, 10)) || written.substr(0, 10) <= tomorrow) continue;
    if (written.substr(0, 10) > next_year)
      return units::Fault{field, units::for_message(written), "expected no later than now: it has been done"};
    doubts_.push_back(fmt::format("{} {} lies ahead of now: is that so?", field, units::for_message(written)));
  }
  return std::nullopt;
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
    if (zone->to_local(zone->to_utc(*wall)) != *wall)
      return units::Fault{field.name, found->second, "expected a time that there was: the clocks went forward over it"};
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
