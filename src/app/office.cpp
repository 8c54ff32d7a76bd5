#include "app/office.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/files.h"
#include "net/budget.h"
#include "net/cache.h"
#include "net/curl_transport.h"
#include "settings/key.h"

namespace app {
namespace {

// Where nobody is to be asked.
class NoCalls : public net::Transport {
 public:
  tl::expected<net::Reply, net::Failure> get(const net::Request& request) override {
    return tl::make_unexpected(net::Failure{net::Trouble::local, 0, fmt::format("{}: not asked: --offline", request.service), false, {}});
  }
};

units::Result<settings::Settings> settings_of(const std::filesystem::path& config, bool given) {
  std::error_code error;
  if (!given && !std::filesystem::exists(config, error)) return settings::Settings{};
  const auto content = read_file(config);
  if (!content) return tl::make_unexpected(content.error());
  return settings::read_settings(config.filename().string(), *content);
}

std::optional<OfficeWeather> refused(const units::Fault& fault, Outcome& outcome) {
  outcome.refuse(fault);
  return std::nullopt;
}

}  // namespace

const sources::CellWeather* OfficeWeather::of(const units::Site& site) const {
  const auto found = std::ranges::find(cells, sources::cell_of(site), [](const auto& weather) { return weather.cell.cell; });
  return found == cells.end() ? nullptr : &*found;
}

std::optional<OfficeWeather> office_weather(const Common& common, const OfficeRequest& request, const std::vector<sources::PlacedSite>& sites,
                                            Outcome& outcome) {
  const Surroundings& around = *common.around;
  const auto places = settings::find_places({request.config, request.history, request.cache}, around.environment);
  if (!places) return refused(places.error(), outcome);
  const auto settings = settings_of(places->config, request.config.has_value());
  if (!settings) return refused(settings.error(), outcome);
  auto chosen = sources::choose(*settings);
  if (!chosen) return refused(chosen.error(), outcome);
  const auto key = settings::key_of(std::string{settings::open_meteo}, *settings, around.environment);
  if (!key) return refused(key.error(), outcome);
  if (settings->open_meteo == settings::OpenMeteoUse::paid && !*key && !request.offline)
    return refused({"config.toml: weather.open_meteo", "paid", "expected a key: SAPDRAW_OPEN_METEO_KEY or weather.key_file"}, outcome);

  net::CurlTransport::Settings transport;
  if (!settings->contact.empty()) transport.user_agent = fmt::format("sapdraw/{} ({})", around.version, settings->contact);
  transport.ca_file = settings->ca_file;
  net::CurlTransport curl{transport};
  NoCalls nobody;
  net::Cache cache{places->cache / "weather", settings->cache_mb << 20};
  net::Budgets budgets{places->cache / "budget"};
  net::Fetcher fetcher{request.offline ? static_cast<net::Transport&>(nobody) : curl, cache, budgets, around.machine, sources::rates(*settings)};
  if (request.tell_calls) fetcher.on_log([&outcome](const std::string& line) { outcome.err.push_back("call: " + line); });
  const sources::History history{places->history};

  OfficeWeather office;
  std::optional<net::KeyHeader> header;
  if (*key) header = net::KeyHeader{"X-Api-Key", net::Secret{**key}};
  const sources::Means means{fetcher, cache, history, *settings, *chosen, header,
                             std::chrono::hours{static_cast<long>(common.models.practice.decision.oldest_forecast_h)}};
  office.cells = sources::gather(sources::cells_of(sites), means, common.now, around.on_progress);
  office.chosen = std::move(*chosen);
  office.spent = fetcher.spent();
  return office;
}

}  // namespace app
