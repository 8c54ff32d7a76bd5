// The options of every command that asks for weather: files, the place that wins over theirs, where the office's own weather lies.
#pragma once
#include "app/office.h"
#include "app/weather_options.h"
#include "cli/options.h"

namespace cli {

// Options that say which weather; `several` files where a forecast and records go together.
void add_weather(CLI::App& command, app::WeatherRequest& weather, bool several);
// Where the office's own weather lies, and whether anybody may be asked for more.
void add_office(CLI::App& command, app::OfficeRequest& office, bool may_ask);

// Runs `run` unless the place that came with the weather cannot be.
template <class Request, class Run>
app::Outcome on_place(const Request& request, Run run) {
  if (const auto ok = app::check(request.weather); !ok) return app::refused(ok.error());
  return run();
}

}  // namespace cli
