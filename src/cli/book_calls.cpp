#include "cli/book_calls.h"

#include <algorithm>
#include <map>

#include "app/application_report.h"
#include "app/book_command.h"
#include "app/due_command.h"
#include "app/field_names.h"
#include "app/record_command.h"
#include "app/record_export.h"
#include "app/record_import.h"
#include "book/kind.h"

namespace cli {
namespace {

using app::Common;
using book::Edit;
using book::Field;
using book::Kind;
using Directory = std::filesystem::path;

std::string option_of(std::string name) {
  std::ranges::replace(name, '_', '-');
  return "--" + name;
}

// Fields that people give with a tree and that the book keeps elsewhere (app/edit_plan.h).
std::vector<Field> options_of(const Kind& kind) {
  std::vector<Field> fields = kind.fields;
  if (kind.name == "tree")
    for (const auto& [other, name] : {std::pair{"diameter", "dbh_cm"},
                                      {"diameter", "measured_on"},
                                      {"diameter", "forks"},
                                      {"site", "elevation_m"},
                                      {"site", "zone"},
                                      {"site", "soil"}})
      fields.push_back(*book::kind(other).field(name));
  return fields;
}

// What stands behind an option in its help.
std::string placeholder(const Field& field) {
  switch (field.type) {
    case book::FieldType::whole:
    case book::FieldType::number:
      return book::shortest(field.lowest) + ".." + book::shortest(field.highest);
    case book::FieldType::day:
      return "DATE";
    case book::FieldType::clock:
      return "HH:MM";
    case book::FieldType::instant:
      return "TIME";
    case book::FieldType::yes_no:
      return "yes|no";
    case book::FieldType::link:
      return "ID";
    default:
      return "TEXT";
  }
}

std::string described(const Field& field) {
  std::string text = field.help;
  for (std::size_t i = 0; i < field.choices.size(); ++i) text += (i == 0 ? ": " : ", ") + field.choices[i];
  return text;
}

// A field by its option, or by --set.
void give(app::EditRequest& request, const std::string& name, const std::string& value) {
  if (const auto [there, is_new] = request.set.try_emplace(name, value); !is_new && there->second != value)
    throw CLI::ValidationError(option_of(name), "'" + value + "': expected it once, it is '" + there->second + "' too");
}

// An option a field, under each of its names.
void add_fields(CLI::App& command, const Kind& kind, const std::shared_ptr<app::EditRequest>& request) {
  const auto add = [&](const std::string& name, const std::string& help, const std::string& type) {
    command
        .add_option_function<std::string>(
            option_of(name), [request, name](const std::string& value) { give(*request, name, value); }, help)
        ->type_name(type);
  };
  for (const Field& field : options_of(kind)) {
    add(field.name, described(field), placeholder(field));
    for (const app::OtherName& other : app::other_names(field)) add(other.name, "the same as " + option_of(field.name), "NUMBER");
  }
  command
      .add_option_function<std::vector<std::string>>(
          "--set",
          [request](const std::vector<std::string>& pairs) {
            for (const std::string& pair : pairs) {
              const auto equals = pair.find('=');
              if (equals == std::string::npos) throw CLI::ValidationError("--set", "'" + pair + "': expected FIELD=VALUE");
              give(*request, pair.substr(0, equals), pair.substr(equals + 1));
            }
          },
          "any field, the owner's own (own_NAME) too")
      ->type_name("FIELD=VALUE")
      ->take_all()
      ->allow_extra_args(false);
}

CLI::App& edit(CLI::App& parent, Given& given, const Kind& kind, Edit::What what, const char* name, const std::string& help) {
  CLI::App& command = *parent.add_subcommand(name, help);
  const auto request = std::make_shared<app::EditRequest>();
  request->what = what;
  request->kind = kind.name;
  const auto id =
      command.add_option("id", request->id, what == Edit::What::add ? "its id (default the next number)" : "its id")->type_name("ID");
  if (what != Edit::What::add) {
    id->required();
    command.add_option("--seen", request->seen, "the version you looked at: refused where another is there by now")->type_name("VERSION");
  }
  if (what == Edit::What::add || what == Edit::What::change) add_fields(command, kind, request);
  command.add_option("--why", request->why, "why")->type_name("TEXT");
  on_call(command, given, request, false,
          [](const Common& common, const app::EditRequest& asked, const Directory&) { return app::edit_command(common, asked); });
  return command;
}

void show(CLI::App& parent, Given& given, const Kind& kind) {
  CLI::App& command = *parent.add_subcommand("show", "one " + kind.name + " with all that leans on it");
  const auto request = std::make_shared<app::ShowRequest>();
  request->kind = kind.name;
  command.add_option("id", request->id, "its id")->type_name("ID")->required();
  command.add_flag("--history", request->history, "every change of it: who, when, what");
  on_call(command, given, request, false,
          [](const Common& common, const app::ShowRequest& asked, const Directory&) { return app::show_command(common, asked); });
}

void list(CLI::App& parent, Given& given, const Kind& kind) {
  CLI::App& command = *parent.add_subcommand("list", kind.plural + " of the book");
  const auto request = std::make_shared<app::ListRequest>();
  request->kind = kind.name;
  command.add_option("--where", request->where, "only those with this value; repeat for more")
      ->type_name("FIELD=VALUE")
      ->take_all()
      ->allow_extra_args(false);
  command.add_option("--holds", request->holds, "only those with this text in a field")->type_name("FIELD=TEXT");
  command.add_flag("--removed", request->removed, "removed ones too");
  command.add_option("--limit", request->limit, "at most so many, 0 for all (default 100)")
      ->check(whole_number_between(0, 100'000'000))
      ->type_name("N");
  on_call(command, given, request, false,
          [](const Common& common, const app::ListRequest& asked, const Directory&) { return app::list_command(common, asked); });
}

void import(CLI::App& parent, Given& given, const Kind& kind) {
  CLI::App& command = *parent.add_subcommand("import", kind.plural + " from a CSV or GeoJSON file: all rows, or none");
  const auto request = std::make_shared<app::ImportRequest>();
  request->kind = kind.name;
  command.add_option("file", request->file, "CSV with a header, or GeoJSON points")->type_name("FILE")->required();
  command.add_option("--map", request->map, "where a field, or id, stands under another name; repeat for more")
      ->type_name("FIELD=COLUMN")
      ->take_all()
      ->allow_extra_args(false);
  command.add_option("--set", request->set, "a value for every row that has none; repeat for more")
      ->type_name("FIELD=VALUE")
      ->take_all()
      ->allow_extra_args(false);
  command.add_flag("--dry-run", request->dry_run, "only tell what is wrong with which row");
  command.add_flag("--leave-out-bad", request->leave_out_bad, "take the good rows though others are bad");
  command.add_flag("--change-known", request->change_known, "a row whose id is in the book changes that record");
  on_call(command, given, request, false,
          [](const Common& common, const app::ImportRequest& asked, const Directory&) { return app::import_command(common, asked); });
}

void write_out(CLI::App& parent, Given& given, const Kind& kind) {
  CLI::App& command = *parent.add_subcommand("export", kind.plural + " as CSV that import takes back");
  const auto request = std::make_shared<app::ExportRequest>();
  request->kind = kind.name;
  if (kind.field("lat") != nullptr || kind.name == "tree") command.add_flag("--geojson", request->geojson, "as GeoJSON points (RFC 7946)");
  on_call(command, given, request, true,
          [](const Common& common, const app::ExportRequest& asked, const Directory&) { return app::export_command(common, asked); });
}

void add_kind(CLI::App& parent, Given& given, const Kind& kind) {
  edit(parent, given, kind, Edit::What::add, "add", "add a " + kind.name);
  edit(parent, given, kind, Edit::What::change, "change",
       kind.corrected ? "correct a " + kind.name + ": the first version stays in its history" : "change a " + kind.name);
  edit(parent, given, kind, Edit::What::remove, "remove", "take it out of lists and due dates; its history stays");
  edit(parent, given, kind, Edit::What::bring_back, "bring-back", "undo a removal");
  show(parent, given, kind);
  list(parent, given, kind);
  import(parent, given, kind);
  write_out(parent, given, kind);
}

// A command without options of its own beyond one text.
template <class Run>
void on_text(CLI::App& parent, Given& given, const char* name, const std::string& help, const char* argument, Run run) {
  CLI::App& command = *parent.add_subcommand(name, help);
  const auto text = std::make_shared<std::string>();
  if (*argument != '\0') command.add_option(argument, *text, argument)->required();
  on_call(command, given, text, false,
          [run](const Common& common, const std::string& given_text, const Directory&) { return run(common, given_text); });
}

void add_due(CLI::App& tree, Given& given) {
  CLI::App& command = *tree.add_subcommand("due", "trees due for their next treatment, overdue first");
  const auto request = std::make_shared<app::DueRequest>();
  command.add_option("--limit", request->limit, "at most so many, 0 for all (default 50)")
      ->check(whole_number_between(0, 100'000'000))
      ->type_name("N");
  on_call(command, given, request, true,
          [](const Common& common, const app::DueRequest& asked, const Directory&) { return app::due_command(common, asked); });
}

void add_inspection(CLI::App& record, Given& given) {
  CLI::App& command = *record.add_subcommand("find", "by date, client, product: a line each, CSV, or a page to print");
  const auto request = std::make_shared<app::ApplicationsRequest>();
  command.add_option("id", request->id, "only this record")->type_name("ID");
  command.add_option("--from", request->from, "first day")->check(date())->type_name("DATE");
  command.add_option("--to", request->until, "last day")->check(date())->type_name("DATE");
  command.add_option("--client", request->client, "id of a client")->type_name("ID");
  command.add_option("--product", request->product, "text in a product's name")->type_name("TEXT");
  command.add_flag("--incomplete", request->incomplete, "only those that miss something");
  command.add_option("--page", request->page, "write a page to print (HTML)")->type_name("FILE");
  on_call(command, given, request, true, [](const Common& common, const app::ApplicationsRequest& asked, const Directory&) {
    return app::applications_command(common, asked);
  });
}

void add_whole_book(CLI::App& command, Given& given) {
  on_text(command, given, "backup", "a verified copy of the whole book as a file, while others work", "file",
          [](const Common& common, const std::string& file) { return app::backup_command(common, file); });
  on_text(command, given, "restore", "make the book what a backup holds; the present one is backed up first", "file",
          [](const Common& common, const std::string& file) { return app::restore_command(common, file); });
  on_text(command, given, "check", "whether the book is sound", "",
          [](const Common& common, const std::string&) { return app::check_command(common); });
  on_text(command, given, "export", "everything as CSV files in a new folder", "folder",
          [](const Common& common, const std::string& folder) { return app::export_book_command(common, folder); });
  on_text(command, given, "import", "what export wrote, into a book that holds nothing yet", "folder",
          [](const Common& common, const std::string& folder) { return app::import_book_command(common, folder); });
  CLI::App& history = *command.add_subcommand("history", "the latest changes: who, when, what");
  const auto request = std::make_shared<app::HistoryRequest>();
  history.add_option("--last", request->last, "so many, 0 for all (default 50)")
      ->check(whole_number_between(0, 100'000'000))
      ->type_name("N");
  on_call(history, given, request, false,
          [](const Common& common, const app::HistoryRequest& asked, const Directory&) { return app::history_command(common, asked); });
}

void add_client_rights(CLI::App& client, Given& given) {
  on_text(client, given, "data", "everything the book holds of a client, as JSON", "id",
          [](const Common& common, const std::string& id) { return app::client_data_command(common, id); });
  CLI::App& erase = *client.add_subcommand("erase", "take a client's personal data out of records and history, for good");
  struct Request {
    std::string id, why;
    bool for_good = false;
  };
  const auto request = std::make_shared<Request>();
  erase.add_option("id", request->id, "its id")->type_name("ID")->required();
  erase.add_option("--why", request->why, "why")->type_name("TEXT");
  erase.add_flag("--for-good", request->for_good, "do it; without this it only tells what would go");
  on_call(erase, given, request, false, [](const Common& common, const Request& asked, const Directory&) {
    return app::erase_client_command(common, asked.id, asked.why, asked.for_good);
  });
}

}  // namespace

void add_book_calls(CLI::App& app, Given& given) {
  const std::map<std::string, std::string> about{{"site", "places: client, zone, soil, water, gate, utilities ticket"},
                                                 {"tree", "trees and their diameters; which are due"},
                                                 {"client", "clients, their consent, their data"},
                                                 {"crew", "crews, members, licences, days off, depots, rigs, tanks"},
                                                 {"booking", "jobs: wanted, booked, done; whether they may lawfully go"},
                                                 {"record", "records of applications, with tank fills and ports"},
                                                 {"book", "backup, restore, check, export; the owner's rules and fields"}};
  for (const char* name : {"site", "tree", "client", "crew", "booking", "record", "book"}) {
    CLI::App& command = *app.add_subcommand(name, about.at(name));
    command.footer(of_every_command);
    command.fallthrough();
    command.require_subcommand(1, 1);
    for (const Kind& kind : book::kinds()) {
      if (kind.command != name) continue;
      if (kind.part.empty()) {
        add_kind(command, given, kind);
        continue;
      }
      CLI::App& part = *command.add_subcommand(kind.part, kind.help);
      part.fallthrough();
      part.require_subcommand(1, 1);
      add_kind(part, given, kind);
    }
    if (std::string_view{name} == "tree") add_due(command, given);
    if (std::string_view{name} == "record") add_inspection(command, given);
    if (std::string_view{name} == "client") add_client_rights(command, given);
    if (std::string_view{name} == "book") add_whole_book(command, given);
  }
}

}  // namespace cli
