#include "cli/plan_calls.h"

#include "app/plan_answer.h"
#include "app/plan_calendar.h"
#include "app/plan_command.h"
#include "cli/weather_options.h"

namespace cli {
namespace {

using app::Common;
using app::WhatIf;
using Directory = std::filesystem::path;

void add_search(CLI::App& command, app::PlanRequest& request) {
  add_weather(command, request.weather, true);
  add_office(command, request.office, true);
  command.add_option("--rain", request.rain, "what a rain gauge caught, by day (CSV)")->type_name("FILE");
  command.add_option("--draws", request.draws, "possible trees to try (default 256)")
      ->check(whole_number_between(64, 65536))
      ->type_name("N");
  const auto seconds = command.add_option("--seconds", request.seconds, "time to search (default by the number of jobs)")
                           ->check(CLI::Range(0.05, 3600.0))
                           ->type_name("S");
  command.add_option("--iterations", request.iterations, "moves to try instead: the same plan on every machine")
      ->check(whole_number_between(1, 1'000'000'000))
      ->type_name("N")
      ->excludes(seconds);
}

// ID, or ID@DATE.
const CLI::Validator with_day = expects("an id, or an id and a day: C2@2026-07-08", [](const std::string& text) {
  const auto at = text.rfind('@');
  return !text.empty() && at != 0 && (at == std::string::npos || units::parse_day(text.substr(at + 1)).has_value());
});

void add_if(CLI::App& command, app::PlanRequest& request, const char* name, WhatIf::What what, const char* help) {
  const auto option = command.add_option_function<std::vector<std::string>>(
      name,
      [&request, what](const std::vector<std::string>& all) {
        for (const std::string& text : all) {
          const auto at = what == WhatIf::What::stays ? std::string::npos : text.rfind('@');
          WhatIf one{what, text.substr(0, at)};
          if (at != std::string::npos) one.day = units::parse_day(text.substr(at + 1));
          request.ifs.push_back(one);
        }
      },
      help);
  option->take_all()->allow_extra_args(false)->type_name(what == WhatIf::What::stays ? "JOB" : "ID[@DATE]");
  if (what != WhatIf::What::stays)
    option->each([](const std::string& text) {
      if (const std::string fault = with_day(const_cast<std::string&>(text)); !fault.empty()) throw CLI::ValidationError(fault);
    });
}

void add_search_command(CLI::App& plan, Given& given, const char* name, app::PlanRequest::What what, const char* help) {
  CLI::App& command = *plan.add_subcommand(name, help);
  const auto request = std::make_shared<app::PlanRequest>();
  request->what = what;
  add_search(command, *request);
  command.add_flag("--look-only", request->look_only, "keep no proposal in the book");
  on_call(command, given, request, false, [](const Common& common, const app::PlanRequest& asked, const Directory&) {
    return on_place(asked, [&] { return app::plan_command(common, asked); });
  });
}

void add_what_if(CLI::App& plan, Given& given) {
  CLI::App& command = *plan.add_subcommand("what-if", "the plan if a crew is out, a rig is down, a job stays; keeps nothing");
  const auto request = std::make_shared<app::PlanRequest>();
  add_search(command, *request);
  add_if(command, *request, "--crew-out", WhatIf::What::crew_out, "a crew does not work, on one day or on all; repeatable");
  add_if(command, *request, "--rig-down", WhatIf::What::rig_down, "a rig is out of order, on one day or on all; repeatable");
  add_if(command, *request, "--stays", WhatIf::What::stays, "a job stays where it is booked; repeatable");
  on_call(command, given, request, false, [](const Common& common, const app::PlanRequest& asked, const Directory&) {
    if (asked.ifs.empty()) return app::Outcome{app::Exit::wrong_use, "", {"sapdraw: what-if: expected --crew-out, --rig-down or --stays"}};
    return on_place(asked, [&] { return app::what_if_command(common, asked); });
  });
}

void add_answer(CLI::App& plan, Given& given, bool accept) {
  CLI::App& command = *plan.add_subcommand(accept ? "accept" : "refuse", accept ? "moves of the open proposal, into the bookings"
                                                                                : "moves of the open proposal: the jobs stay as booked");
  const auto request = std::make_shared<app::PlanAnswerRequest>();
  request->accept = accept;
  const auto moves = command.add_option("moves", request->moves, "their ids")->type_name("MOVE");
  command.add_flag("--all", request->all, accept ? "all that cannot wait" : "all")->excludes(moves);
  if (accept) command.add_flag("--waiting", request->waiting, "with --all: those too that can wait");
  command.add_option("--why", request->why, "why")->type_name("TEXT");
  on_call(command, given, request, false, [](const Common& common, const app::PlanAnswerRequest& asked, const Directory&) {
    if (asked.moves.empty() && !asked.all) return app::Outcome{app::Exit::wrong_use, "", {"sapdraw: expected ids of moves, or --all"}};
    return app::plan_answer_command(common, asked);
  });
}

void add_show(CLI::App& plan, Given& given) {
  CLI::App& command = *plan.add_subcommand("show", "bookings as they stand: trees by days, with hours, odds and crew");
  const auto request = std::make_shared<app::PlanShowRequest>();
  add_weather(command, request->plan.weather, true);
  add_office(command, request->plan.office, true);
  command.add_flag("--by-crew", request->by_crew, "each crew's days instead");
  on_call(command, given, request, false, [](const Common& common, const app::PlanShowRequest& asked, const Directory&) {
    return on_place(asked.plan, [&] { return app::plan_show_command(common, asked); });
  });
}

void add_calendar(CLI::App& plan, Given& given) {
  CLI::App& command = *plan.add_subcommand("calendar", "confirmed jobs as an iCalendar file (RFC 5545)");
  const auto request = std::make_shared<app::PlanCalendarRequest>();
  command.add_option("--crew", request->crew, "of one crew")->type_name("ID");
  on_call(command, given, request, false, [](const Common& common, const app::PlanCalendarRequest& asked, const Directory&) {
    return app::plan_calendar_command(common, asked);
  });
}

}  // namespace

void add_plan_calls(CLI::App& app, Given& given) {
  CLI::App& plan = *app.add_subcommand("plan", "book jobs, and rework the bookings after new weather");
  plan.footer(of_every_command);
  plan.fallthrough();
  plan.require_subcommand(1, 1);
  add_search_command(plan, given, "propose", app::PlanRequest::What::propose,
                     "days and crews for wanted jobs and due trees; promises stay");
  add_search_command(plan, given, "rework", app::PlanRequest::What::rework,
                     "after new weather: the fewest broken promises, each with its reason");
  add_what_if(plan, given);
  add_answer(plan, given, true);
  add_answer(plan, given, false);
  add_show(plan, given);
  add_calendar(plan, given);
}

}  // namespace cli
