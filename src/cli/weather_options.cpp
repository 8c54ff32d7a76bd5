#include "cli/weather_options.h"

namespace cli {

void add_weather(CLI::App& command, app::WeatherRequest& weather, bool several) {
  const auto file = command.add_option("--weather", weather.files,
                                       several ? "weather file; repeat for more places or a station's record" : "weather file");
  file->type_name("FILE")->expected(1);
  if (several) file->take_all()->allow_extra_args(false);
  command.add_option("--lat", weather.latitude_deg, "latitude of the site, north positive")->type_name("DEG");
  command.add_option("--lon", weather.longitude_deg, "longitude of the site, east positive")->type_name("DEG");
  command.add_option("--elevation-m", weather.elevation_m, "elevation of the site")->type_name("M");
  command
      .add_option_function<std::string>(
          "--label", [&weather](const std::string& label) { weather.labels_start_hour = label == "starts"; },
          "whether a station file's times start or end the hour (default ends)")
      ->check(either("starts", "ends"))
      ->type_name("starts|ends");
  command.add_option("--wind-height-m", weather.wind_height_m, "height at which wind was measured (default 10)")->type_name("M");
}

void add_office(CLI::App& command, app::OfficeRequest& office, bool may_ask) {
  command.add_option("--config", office.config, "settings (default $XDG_CONFIG_HOME/sapdraw/config.toml)")->type_name("FILE");
  command.add_option("--history", office.history, "kept weather (default $XDG_DATA_HOME/sapdraw/history)")->type_name("DIR");
  command.add_option("--cache", office.cache, "replies (default $XDG_CACHE_HOME/sapdraw)")->type_name("DIR");
  if (!may_ask) return;
  command.add_flag("--offline", office.offline, "ask no weather service: use what is kept");
  command.add_flag("--tell-calls", office.tell_calls, "a line on stderr for every call");
}

}  // namespace cli
