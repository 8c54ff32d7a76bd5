#include "app/office.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>

#include "app/settings_file.h"
#include "feeds/read.h"
#include "net/budget.h"
#include "net/cache.h"
#include "net/curl_transport.h"
#include "settings/key.h"
#include "sources/calls.h"

namespace app {
namespace {

// Where nobody is to be asked.
class NoCalls : public net::Transport {
 public:
  std::optional<net::Failure> refusal(const net::Request&) const override {
    return net::Failure{net::Trouble::local, 0, {}, false, {}};  // nothing to be told: it was asked for
  }
  net::Answer get(const net::Request& request) override { return tl::make_unexpected(*refusal(request)); }
};

}  // namespace

const sources::CellWeather* OfficeWeather::of(const units::Site& site) const {
  const auto found = std::ranges::find(cells, sources::cell_of(site), [](const auto& weather) { return weather.cell.cell; });
  return found == cells.end() ? nullptr : &*found;
}

void tell_troubles(const OfficeWeather& office, Outcome& outcome) {
  std::map<std::string, std::size_t> times;  // by line
  std::vector<std::string> in_order;
  const auto tell = [&](const std::string& line) {
    if (!line.empty() && times[line]++ == 0) in_order.push_back(line);
  };
  for (const auto& cell : office.cells) {
    for (const auto& told : cell.told) tell(told.failure);
    for (const auto& warning : cell.warnings) tell(warning);
  }
  for (const std::string& line : in_order) outcome.warn(times[line] > 1 ? fmt::format("{} (for {} places)", line, times[line]) : line);
}

namespace {

// Everything a call goes through, set up from settings and places.
struct Way {
  settings::Settings settings;
  settings::Places places;
  sources::Chosen chosen;
  std::optional<net::KeyHeader> key;
  std::unique_ptr<net::Transport> transport;
  std::unique_ptr<net::Cache> cache;
  std::unique_ptr<net::Budgets> budgets;
  std::unique_ptr<net::Fetcher> fetcher;
};

std::optional<Way> way_out(const Common& common, const OfficeRequest& request, Outcome& outcome) {
  const auto refused = [&outcome](const units::Fault& fault) {
    outcome.refuse(fault);
    return std::nullopt;
  };
  const Surroundings& around = *common.around;
  auto places = settings::find_places({request.config, request.history, request.cache}, around.environment);
  if (!places) return refused(places.error());
  auto settings = settings_of(places->config, request.config.has_value());
  if (!settings) return refused(settings.error());
  auto chosen = sources::choose(*settings);
  if (!chosen) return refused(chosen.error());
  // A key is read, and sent, only where it has been said that there is one.
  const bool has_key =
      settings->open_meteo == settings::OpenMeteoUse::paid || settings->key_file.contains(std::string{settings::open_meteo});
  const bool needs_key = has_key && settings->open_meteo != settings::OpenMeteoUse::none && !request.offline;
  const auto key = needs_key ? settings::key_of(std::string{settings::open_meteo}, *settings, around.environment)
                             : units::Result<std::optional<std::string>>{std::nullopt};
  if (!key) return refused(key.error());
  if (settings->open_meteo == settings::OpenMeteoUse::paid && !*key && !request.offline)
    return refused({"config.toml: weather.open_meteo", "paid", "expected a key: SAPDRAW_OPEN_METEO_KEY or weather.key_file"});

  Way way{std::move(*settings), std::move(*places), std::move(*chosen), {}, {}, {}, {}, {}};
  if (*key) way.key = net::KeyHeader{"X-Api-Key", net::Secret{**key}};
  if (request.offline) {
    way.transport = std::make_unique<NoCalls>();
  } else {
    net::CurlSettings transport;
    if (!way.settings.contact.empty()) transport.user_agent = fmt::format("sapdraw/{} ({})", around.version, way.settings.contact);
    transport.ca_file = way.settings.ca_file;
    way.transport = std::make_unique<net::CurlTransport>(transport);
  }
  way.cache = std::make_unique<net::Cache>(way.places.cache / "weather", way.settings.cache_mb << 20);
  way.budgets = std::make_unique<net::Budgets>(way.places.cache / "budget");
  way.fetcher = std::make_unique<net::Fetcher>(*way.transport, *way.cache, *way.budgets, around.machine, sources::rates(way.settings));
  if (request.tell_calls) way.fetcher->on_log([&outcome](const std::string& line) { outcome.err.push_back("call: " + line); });
  return way;
}

}  // namespace

std::optional<OfficeWeather> office_weather(const Common& common, const OfficeRequest& request,
                                            const std::vector<sources::PlacedSite>& sites, Outcome& outcome) {
  const auto way = way_out(common, request, outcome);
  if (!way) return std::nullopt;
  const sources::History history{way->places.history};
  const sources::Means means{*way->fetcher,
                             *way->cache,
                             history,
                             way->settings,
                             way->chosen,
                             way->key,
                             std::chrono::hours{static_cast<long>(common.models.practice.decision.oldest_forecast_h)}};
  OfficeWeather office;
  office.cells = sources::gather(sources::cells_of(sites), means, common.now, common.around->on_progress);
  office.chosen = way->chosen;
  office.spent = way->fetcher->spent();
  return office;
}

namespace {

// One reply of a service that needs Open-Meteo's ground; `what` ends the line that says why not.
std::optional<net::Got> ask_open_meteo(const Way& way, std::string_view service, net::Want want, const char* what, Outcome& outcome) {
  if (way.settings.open_meteo == settings::OpenMeteoUse::own_server && !way.settings.address.contains(std::string{service})) {
    outcome.refuse({fmt::format("config.toml: weather.address.{}", service), "", "expected the address of your own server"});
    return std::nullopt;
  }
  if (!way.chosen.open_meteo) {
    outcome.refuse(
        {"config.toml: weather.open_meteo", "none",
         fmt::format("expected non-commercial, paid or own-server: {} at Open-Meteo, whose free service is not for businesses", what)});
    return std::nullopt;
  }
  want.request.key = way.key;
  net::Got got = way.fetcher->get_all({std::move(want)}).front();
  if (got.came != net::Came::failed) return got;
  outcome.err.push_back(got.failure->line);
  outcome.exit = Exit::service_failed;
  return std::nullopt;
}

}  // namespace

std::optional<std::vector<feeds::PlaceName>> office_places(const Common& common, const OfficeRequest& request, const std::string& name,
                                                           Outcome& outcome) {
  const auto way = way_out(common, request, outcome);
  if (!way) return std::nullopt;
  const auto got =
      ask_open_meteo(*way, settings::place_names, sources::place_names(sources::address_of(settings::place_names, way->settings), name),
                     "places are looked up", outcome);
  if (!got) return std::nullopt;
  auto places = feeds::read_places("place names", got->body);
  if (!places) {
    outcome.refuse(places.error());
    return std::nullopt;
  }
  return std::move(*places);
}

std::optional<weather::Forecast> office_past(const Common& common, const OfficeRequest& request, const sources::PlacedSite& site,
                                             units::LocalDay from, units::LocalDay until, Outcome& outcome) {
  const auto way = way_out(common, request, outcome);
  if (!way) return std::nullopt;
  const auto cell = sources::cells_of({site}).front();
  const auto got =
      ask_open_meteo(*way, settings::open_meteo_archive,
                     sources::open_meteo_archive(sources::address_of(settings::open_meteo_archive, way->settings), cell, from, until),
                     "past weather is looked up", outcome);
  if (!got) return std::nullopt;
  feeds::ReadOptions options{common.now};
  options.elevation = site.site.elevation;
  auto read = feeds::read_weather("Open-Meteo archive", got->body, options);
  if (!read) {
    outcome.refuse(read.error());
    return std::nullopt;
  }
  return std::move(read->front());
}

}  // namespace app
