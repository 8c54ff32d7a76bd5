#include "cli/morning_calls.h"

#include "app/morning_command.h"
#include "cli/weather_options.h"

namespace cli {

void add_crew_texts(CLI::App& command, app::CrewTextsRequest& request) {
  add_weather(command, request.orders.weather, true);
  add_office(command, request.orders.office, true);
  command.add_option("--rain", request.orders.rain, "what a rain gauge caught, by day (CSV)")->type_name("FILE");
  command.add_option("--draws", request.orders.draws, "possible trees to try (default 256)")
      ->check(whole_number_between(64, 65536))
      ->type_name("N");
  command.add_option("--crew", request.orders.crew, "only this crew")->type_name("ID");
  add_day(command, "--day", request.orders.day, "the day (default today, in the evening tomorrow)");
}

CLI::Option* add_correction(CLI::App& command, app::CrewTextsRequest& request) {
  return command.add_flag_callback(
      "--correction", [&request] { request.occasion = app::Occasion::correction; },
      "of the day under way instead: only where something calls for action");
}

void add_day(CLI::App& command, const char* name, std::optional<units::LocalDay>& day, const char* help) {
  command
      .add_option_function<std::string>(
          name, [&day](const std::string& text) { day = units::parse_day(text); }, help)
      ->check(date())
      ->type_name("DATE");
}

void add_within(CLI::App& command, std::optional<std::chrono::seconds>& within) {
  command
      .add_option_function<unsigned>(
          "--within", [&within](unsigned seconds) { within = std::chrono::seconds{seconds}; }, "take up no further message after so long")
      ->check(whole_number_between(1, 86'400))
      ->type_name("S");
}

void add_morning(CLI::App& app, Given& given) {
  CLI::App& command = *app.add_subcommand("morning", "weather, hours, plan checked, crews told; safe to run twice");
  const auto request = std::make_shared<app::MorningRequest>();
  add_crew_texts(command, request->texts);
  const auto evening = command.add_flag_callback(
      "--evening", [request] { request->texts.occasion = app::Occasion::evening; }, "the evening before instead: the whole of tomorrow");
  add_correction(command, request->texts)->excludes(evening);
  command.add_option("--heartbeat", request->heartbeat, "write there how it ended, for a monitor (JSON)")->type_name("FILE");
  add_within(command, request->within);
  on_call(command, given, request, false, [](const app::Common& common, const app::MorningRequest& asked, const std::filesystem::path&) {
    return on_place(asked.texts.orders, [&] { return app::morning_command(common, asked); });
  });
}

}  // namespace cli
