#include "cli/call.h"

#include <CLI/CLI.hpp>
#include <memory>

#include "app/air_command.h"
#include "app/days_command.h"
#include "app/demand_command.h"
#include "app/models_command.h"
#include "app/reading_command.h"
#include "app/sheet.h"
#include "app/typed.h"
#include "app/weather_command.h"
#include "cli/book_calls.h"
#include "cli/morning_calls.h"
#include "cli/options.h"
#include "cli/plan_calls.h"
#include "cli/text_calls.h"
#include "cli/weather_options.h"

namespace cli {
namespace {

using app::Common;
using app::Outcome;
using Directory = std::filesystem::path;

Nothing wrong_use(const std::string& line) { return {{app::Exit::wrong_use, "", {"sapdraw: " + line}}}; }

void add_air(CLI::App& app, Given& given) {
  CLI::App& command = *app.add_subcommand("air", "how dry the air is: for one state, or by hour for a weather file (CSV)");
  const auto request = std::make_shared<app::AirRequest>();
  command.add_option("--temp-c", request->temp_c, "air temperature")->type_name("C");
  command.add_option("--rh", request->rh_pct, "relative humidity")->type_name("PERCENT");
  command.add_option("--pressure-kpa", request->pressure_kpa, "air pressure (default 101.3)")->type_name("KPA");
  add_weather(command, request->weather, false);
  on_call(command, given, request, true, [](const Common& common, const app::AirRequest& asked, const Directory&) {
    return on_place(asked, [&] { return app::air_command(common, asked); });
  });
}

void add_demand(CLI::App& app, Given& given) {
  CLI::App& command = *app.add_subcommand("demand", "what a tree's leaves ask of its roots, by hour (CSV)");
  const auto request = std::make_shared<app::DemandRequest>();
  add_weather(command, request->weather, true);
  command.get_option("--weather")->required();
  command.add_option("--trees", request->trees, "tree list (CSV; default the book)")->type_name("FILE");
  command.add_option("--tree", request->tree, "id of the tree in the list")->type_name("ID")->required();
  on_call(command, given, request, true, [](const Common& common, const app::DemandRequest& asked, const Directory&) {
    return on_place(asked, [&] { return app::demand_command(common, asked); });
  });
}

void add_days(CLI::App& app, Given& given) {
  struct Request : app::DaysRequest {
    bool strict = false;
  };
  CLI::App& command = *app.add_subcommand("days", "for each tree: days ranked, hours as a range, odds to finish, holds");
  const auto request = std::make_shared<Request>();
  add_weather(command, request->weather, true);
  add_office(command, request->office, true);
  command.add_option("--rain", request->rain, "what a rain gauge caught, by day (CSV): wins over modelled rain")->type_name("FILE");
  command.add_option("--trees", request->trees, "tree list (CSV; default the book)")->type_name("FILE");
  command.add_option("--tree", request->only_tree, "only this tree of the list")->type_name("ID");
  command.add_option("--draws", request->draws, "possible trees to try, more for steadier odds (default 256)")
      ->check(whole_number_between(64, 65536))
      ->type_name("N");
  command.add_flag("--strict", request->strict, "exit 1 when no tree has a GO day");
  on_call(command, given, request, true, [](const Common& common, const Request& asked, const Directory&) {
    return on_place(asked, [&] { return app::days_command(common, asked, asked.strict); });
  });
}

void add_weather_command(CLI::App& app, Given& given) {
  CLI::App& command = *app.add_subcommand("weather", "bring forecasts and past rain of all sites into the cache");
  const auto request = std::make_shared<app::WeatherRefreshRequest>();
  command.add_option("--trees", request->trees, "tree list (CSV): its places are the sites (default the book)")->type_name("FILE");
  add_office(command, request->office, true);
  command.footer(of_every_command);
  command.fallthrough();
  command.require_subcommand(0, 1);

  CLI::App& show = *command.add_subcommand("show", "what is known of one tree's weather: who said it, how long ago, the coming days");
  const auto shown = std::make_shared<app::WeatherShowRequest>();
  show.add_option("tree", shown->tree, "id of the tree in the list")->type_name("ID")->required();
  show.add_option("--trees", shown->trees, "tree list (CSV; default the book)")->type_name("FILE");
  add_office(show, shown->office, false);
  on_call(show, given, shown, false, [](const Common& common, const app::WeatherShowRequest& asked, const Directory&) {
    return app::weather_show_command(common, asked);
  });

  CLI::App& past = *command.add_subcommand("past", "what the weather was at a tree, as a station CSV that --weather takes");
  const auto was = std::make_shared<app::WeatherPastRequest>();
  past.add_option("tree", was->tree, "id of the tree in the list")->type_name("ID")->required();
  past.add_option("--trees", was->trees, "tree list (CSV; default the book)")->type_name("FILE");
  past.add_option("--from", was->from, "first day")->check(date())->type_name("DATE")->required();
  past.add_option("--to", was->until, "last day")->check(date())->type_name("DATE")->required();
  add_office(past, was->office, true);
  on_call(past, given, was, false, [](const Common& common, const app::WeatherPastRequest& asked, const Directory&) {
    return app::weather_past_command(common, asked);
  });

  CLI::App& find = *command.add_subcommand("find", "places of a name: latitude, longitude, elevation, zone");
  const auto found = std::make_shared<app::PlaceNameRequest>();
  find.add_option("name", found->name, "name of a town")->type_name("NAME")->required();
  add_office(find, found->office, true);
  on_call(find, given, found, false, [](const Common& common, const app::PlaceNameRequest& asked, const Directory&) {
    return app::weather_find_command(common, asked);
  });

  command.callback([&given, &command, request] {
    if (!command.get_subcommands().empty()) return;
    given.has_csv = false;
    given.command = [request](const Common& common, const Directory&) { return app::weather_command(common, *request); };
  });
}

void add_sheet(CLI::App& app, Given& given) {
  CLI::App& command = *app.add_subcommand("sheet", "set-up sheet of one tree: dose, ports, water, time, order of work");
  const auto request = std::make_shared<app::SheetRequest>();
  command.add_option("--trees", request->trees, "tree list (CSV; default the book)")->type_name("FILE");
  const auto tree = command.add_option("--tree", request->tree, "id of the tree in the list or the book")->type_name("ID");
  command.add_option("--job", request->job, "a job of the book: its tree and its day")->type_name("ID")->excludes(tree);
  command
      .add_option_function<std::string>(
          "--day", [request](const std::string& text) { request->day = units::parse_day(text); }, "day of the job (default the best ahead)")
      ->check(date())
      ->type_name("DATE");
  command.add_option("--ports", request->ports, "old ports and bad wood of the flare (CSV): new ports keep away")->type_name("FILE");
  command.add_option("--page", request->page, "write a page for print there too, with the flare drawn (HTML)")->type_name("FILE");
  add_weather(command, request->weather, true);
  on_call(command, given, request, false, [](const Common& common, const app::SheetRequest& asked, const Directory&) {
    if (asked.tree.empty() && asked.job.empty()) return wrong_use("--tree or --job is required").outcome;
    return on_place(asked, [&] { return app::sheet_command(common, asked); });
  });
}

void add_reading(CLI::App& app, Given& given) {
  const auto time = expects("a local time such as 9:05, 2:30 pm or 2026-07-06 9:05, or an instant",
                            [](const std::string& text) { return app::typed_time(text).has_value(); });
  const auto amount = expects("gallons or litres such as 12gal or 45L",
                              [](const std::string& text) { return app::typed_amount(text, app::UnitSystem::us).has_value(); });
  const auto reading = expects("a local time and gallons or litres such as '10:00 12gal'",
                               [](const std::string& text) { return app::typed_reading(text, app::UnitSystem::us).has_value(); });
  CLI::App& command = *app.add_subcommand("reading", "gallons taken at the tree: new finish time, what is normal, mix or not");
  const auto request = std::make_shared<app::ReadingRequest>();
  add_weather(command, request->weather, true);
  add_office(command, request->office, true);
  const auto list = command.add_option("--trees", request->trees, "tree list (CSV; default the book)")->type_name("FILE");
  const auto tree = command.add_option("--tree", request->tree, "id of the tree in the list or the book")->type_name("ID");
  command.add_option("--job", request->job, "a job of the book: readings are kept there, and those before count")
      ->type_name("ID")
      ->excludes(tree)
      ->excludes(list);
  command.add_option("--opened", request->opened, "when the valves opened on mix, by the tree's clock (default the job's)")
      ->check(time)
      ->type_name("TIME");
  command.add_option("--taken", request->taken, "reading of what has gone in: time and amount; repeatable")
      ->check(reading)
      ->type_name("READING")
      ->expected(1)
      ->take_all()
      ->allow_extra_args(false);
  const auto filled = command.add_option("--filled", request->filled, "mix put into the tank so far")->check(amount)->type_name("AMOUNT");
  command.add_option("--left", request->left, "reading of what is left of --filled; repeatable")
      ->check(reading)
      ->type_name("READING")
      ->expected(1)
      ->take_all()
      ->allow_extra_args(false)
      ->needs(filled);
  command.add_option("--shut-by", request->shut_by, "when the valves must be shut (default by leave-by or the work day)")
      ->check(time)
      ->type_name("TIME");
  command.add_option("--draws", request->draws, "possible trees to try, more for a steadier answer (default 4096)")
      ->check(whole_number_between(64, 65536))
      ->type_name("N");
  on_call(command, given, request, false, [](const Common& common, const app::ReadingRequest& asked, const Directory&) {
    if (asked.tree.empty() && asked.job.empty()) return wrong_use("--tree or --job is required").outcome;
    return on_place(asked, [&] { return app::reading_command(common, asked); });
  });
}

void add_models(CLI::App& app, Given& given) {
  CLI::App& command = *app.add_subcommand("models", "every parameter with value, unit, range, source and confidence");
  const auto request = std::make_shared<app::ModelsRequest>();
  command.add_flag("--facts", request->facts, "the facts that the model must reproduce, and whether it does");
  on_call(command, given, request, true, [](const Common& common, app::ModelsRequest asked, const Directory& models) {
    asked.directory = models;
    return app::models_command(common, asked);
  });
}

std::variant<Call, Nothing> finished(const Given& given) {
  if (given.json && given.csv) return wrong_use("--json, --csv: expected one of them");
  if (given.csv && !given.has_csv) return wrong_use("--csv: this command prints text or JSON");
  Call call;
  call.globals.units = given.units == "si" ? app::UnitSystem::si : app::UnitSystem::us;
  call.globals.format = given.json ? app::Format::json : given.csv ? app::Format::csv : app::Format::text;
  if (!given.now.empty()) call.globals.now = units::parse_instant(given.now);
  call.globals.seed = given.seed;
  call.globals.threads = given.threads;
  const auto path = [](const std::string& text) { return text.empty() ? std::nullopt : std::optional<std::filesystem::path>{text}; };
  call.globals.models = path(given.models);
  call.globals.owner_file = path(given.owner);
  call.globals.out = path(given.out);
  call.globals.book = given.book;
  call.globals.by = given.by;
  call.command = given.command;
  return call;
}

}  // namespace

std::variant<Call, Nothing> read_call(int count, const char* const* arguments) {
  CLI::App app{"sapdraw: which day, and how long, for a large tree to drink its dose", "sapdraw"};
  Given given;
  app.fallthrough();
  app.footer("sapdraw COMMAND --help tells more.");
  add_globals(app, given);
  add_days(app, given);
  add_weather_command(app, given);
  add_sheet(app, given);
  add_reading(app, given);
  add_air(app, given);
  add_demand(app, given);
  add_plan_calls(app, given);
  add_text_calls(app, given);
  add_morning(app, given);
  add_book_calls(app, given);
  add_models(app, given);
  app.require_subcommand(0, 1);
  try {
    app.parse(count, arguments);
  } catch (const CLI::Success& help) {
    std::ostringstream text, unused;
    app.exit(help, text, unused);
    return Nothing{{app::Exit::done, text.str(), {}}};
  } catch (const CLI::Error& error) {
    return wrong_use(error.what());
  }
  if (!given.command) return Nothing{{app::Exit::wrong_use, app.help(), {"sapdraw: expected a command"}}};
  return finished(given);
}

}  // namespace cli
