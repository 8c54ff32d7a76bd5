#include "sources/gather.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <mutex>
#include <thread>

#include "feeds/daily_rain.h"
#include "feeds/nws_alerts.h"
#include "feeds/nws_observations.h"
#include "feeds/nws_points.h"
#include "feeds/nws_stations.h"
#include "feeds/rain_stations.h"
#include "feeds/read.h"
#include "feeds/time_zone.h"
#include "net/address.h"
#include "net/durable_file.h"
#include "sources/calls.h"
#include "weather/blend.h"
#include "weather/daily_record.h"
#include "weather/gaps.h"
#include "weather/history.h"
#include "weather/keep.h"
#include "weather/nearest.h"

namespace sources {
namespace {

using namespace std::chrono_literals;
using net::Came;
using net::Got;
using net::Want;
using units::UtcTime;

constexpr int longest_past_d = 92;
constexpr std::size_t rain_stations_used = 2;  // the second fills what the nearest did not report

// A call, the cell it is for, and what becomes of its reply.
struct Errand {
  std::size_t cell;
  std::string what;
  Want want;
  std::function<void(const Got&)> take;         // called where there is a body
  std::function<void(const Got&)> missed = {};  // called where the service failed, whether an older body serves or not
};

class Gathering {
 public:
  Gathering(const std::vector<CellSite>& cells, const Means& means, UtcTime now, const OnProgress& progress)
      : means_(means), now_(now), progress_(progress) {
    for (const CellSite& cell : cells) {
      CellWeather& weather = all_.emplace_back();
      weather.cell = cell;
      auto recalled = means.history.recall(cell.cell);
      weather.kept = std::move(recalled.series);
      if (recalled.fault) weather.warnings.push_back(recalled.fault->line());
    }
    records_.resize(all_.size());
  }

  std::vector<CellWeather> run() {
    for (std::size_t i = 0; i < all_.size(); ++i) first_calls(i);
    // Each service's calls follow from its own replies only, so no service waits for another.
    std::vector<std::thread> services;
    for (auto& [service, errands] : next_) services.emplace_back([this, &service = service] { ask(service); });
    for (std::thread& service : services) service.join();
    for (std::size_t i = 0; i < all_.size(); ++i) settle(i);
    return std::move(all_);
  }

 private:
  struct Records {
    std::map<std::string, weather::Forecast> by_service;
    std::optional<weather::Forecast> station;
    std::map<units::LocalDay, weather::DayRecord> days;
  };

  void add(std::size_t cell, std::string what, Want want, std::function<void(const Got&)> take,
           std::function<void(const Got&)> missed = {}) {
    const std::string service = want.request.service;
    next_[service].push_back({cell, std::move(what), std::move(want), std::move(take), std::move(missed)});
    ++total_.total;
  }

  // Runs a service's errands until its replies add no more.
  void ask(const std::string& service) {
    for (;;) {
      std::vector<Errand> errands;
      {
        const std::lock_guard lock{taking_};
        errands = std::exchange(next_.at(service), {});
      }
      if (errands.empty()) return;
      std::vector<Want> wants;
      for (const Errand& errand : errands) wants.push_back(errand.want);
      std::size_t done = 0, calls = 0;
      const std::vector<Got> all = means_.fetcher.get_all(wants, [&](const net::Progress& progress) {
        const std::lock_guard lock{taking_};
        total_.done += progress.done - std::exchange(done, progress.done);
        total_.calls += progress.calls - std::exchange(calls, progress.calls);
        total_.service = progress.service;
        if (progress_) progress_(total_);
      });
      const std::lock_guard lock{taking_};
      total_.done += errands.size() - done;  // addresses that several cells share
      for (std::size_t i = 0; i < errands.size(); ++i) take(errands[i], all[i]);
    }
  }

  void take(const Errand& errand, const Got& got) {
    const bool served = got.came != Came::failed;
    all_[errand.cell].told.push_back({errand.want.request.service, errand.what, got.came, served ? got.fetched_at : UtcTime{},
                                      got.failure ? got.failure->line : std::string{}});
    if (served) errand.take(got);
    if (got.failure && errand.missed) errand.missed(got);
  }

  void first_calls(std::size_t i) {
    if (means_.chosen.uses(settings::open_meteo)) call_open_meteo(i);
    if (means_.chosen.uses(settings::met_norway))
      add_forecast(i, settings::met_norway, met_norway_forecast(base(settings::met_norway), all_[i].cell));
    if (means_.chosen.uses(settings::nws)) call_nws(i);
    if (means_.chosen.ensemble) call_ensemble(i);
    if (!means_.chosen.uses(settings::open_meteo)) call_daily_rain(i);
  }

  [[nodiscard]] std::string base(std::string_view service) const { return address_of(service, means_.settings); }
  [[nodiscard]] std::string name(std::size_t i, std::string_view service) const {
    return fmt::format("{} {}", terms_of(service).name, all_[i].cell.cell.text());
  }
  // What a reply of `heard_at` says of later hours stays a forecast, however long ago they have passed.
  [[nodiscard]] feeds::ReadOptions options(std::size_t i, UtcTime heard_at) const {
    feeds::ReadOptions options{std::min(now_, heard_at)};
    options.elevation = all_[i].cell.elevation;
    return options;
  }

  [[nodiscard]] bool fresh(const Want& want) const {
    const auto entry = means_.cache.read(want.request.url);
    return entry && net::is_fresh(*entry, now_);
  }

  // A reply is good only if its reader can read it.
  template <class Read>
  static std::function<units::Result<void>(std::string_view)> readable(Read read) {
    return [read](std::string_view body) -> units::Result<void> {
      const auto result = read(body);
      if (!result) return tl::make_unexpected(result.error());
      return {};
    };
  }

  void add_forecast(std::size_t i, std::string_view service, Want want, std::function<void(const Got&)> missed = {}) {
    want.check = readable(
        [name = name(i, service), options = options(i, now_)](std::string_view body) { return feeds::read_weather(name, body, options); });
    add(
        i, "forecast", std::move(want),
        [this, i, service = std::string{service}](const Got& got) {
          auto read = feeds::read_weather(name(i, service), got.body, options(i, got.fetched_at));
          if (!read) return all_[i].warnings.push_back(read.error().line());
          weather::Forecast forecast = std::move(read->front());
          for (const auto& warning : forecast.warnings) all_[i].warnings.push_back(warning);
          if (!forecast.issued_at) forecast.issued_at = got.fetched_at;
          records_[i].by_service.insert_or_assign(service, std::move(forecast));
        },
        std::move(missed));
  }

  [[nodiscard]] Want keyed(Want want) const {
    want.request.key = means_.open_meteo_key;
    return want;
  }

  // The long past once; from then on only the days since. A long reply that is still fresh serves again.
  void call_open_meteo(std::size_t i) {
    const CellSite& cell = all_[i].cell;
    Want longest = keyed(open_meteo_forecast(base(settings::open_meteo), cell, longest_past_d));
    const int missing = days_missing(all_[i].kept);
    Want shorter = keyed(open_meteo_forecast(base(settings::open_meteo), cell, missing));
    const bool use_long = missing >= longest_past_d || (fresh(longest) && !fresh(shorter));
    add_forecast(i, settings::open_meteo, use_long ? std::move(longest) : std::move(shorter));
  }

  // Days back from now to which a model's past must be asked for, at least three: the analysis of the newest hours is still revised.
  [[nodiscard]] int days_missing(const weather::Series& kept) const {
    constexpr int least = 3;
    const auto told = [&](std::size_t hour) {
      const auto kind = kept[weather::Variable::rain].provenance(hour);
      return kind == weather::Provenance::observed || kind == weather::Provenance::analysed;
    };
    const auto oldest = std::chrono::floor<std::chrono::hours>(now_ - std::chrono::hours{24 * (longest_past_d - 7)});
    auto hour = kept.index_of(oldest);
    if (!hour) return longest_past_d;
    while (*hour < kept.hours() && told(*hour)) ++*hour;
    const auto gap = std::chrono::ceil<std::chrono::days>(now_ - UtcTime{kept.label(*hour)}).count();
    return static_cast<int>(std::clamp<long>(gap + 1, least, longest_past_d));
  }

  void call_ensemble(std::size_t i) {
    Want want = keyed(open_meteo_ensemble(base(settings::open_meteo_ensemble), all_[i].cell));
    want.check = readable([name = name(i, settings::open_meteo_ensemble), options = options(i, now_)](std::string_view body) {
      return feeds::read_weather(name, body, options);
    });
    add(i, "ensemble", std::move(want), [this, i](const Got& got) {
      auto read = feeds::read_weather(name(i, settings::open_meteo_ensemble), got.body, options(i, got.fetched_at));
      if (!read) return all_[i].warnings.push_back(read.error().line());
      all_[i].ensemble = std::move(read->front());
      if (!all_[i].ensemble->issued_at) all_[i].ensemble->issued_at = got.fetched_at;
    });
  }

  void call_nws(std::size_t i) {
    add(
        i, "place", place_wanted(i),
        [this, i](const Got& got) {
          if (got.status == 404) return;  // not its country
          const auto points = feeds::read_nws_point(name(i, settings::nws), got.body);
          if (!points) return all_[i].warnings.push_back(points.error().line());
          call_alerts(i);
          if (const auto grid = here(i, points->forecast_grid_url)) call_grid(i, *grid);
          if (const auto stations = points->stations_url ? here(i, *points->stations_url) : std::nullopt) call_station(i, *stations);
        },
        [this, i](const Got& missed) {
          // Whether people are warned there hangs on no grid.
          if (missed.came == Came::failed) call_alerts(i);
        });
  }

  [[nodiscard]] Want place_wanted(std::size_t i) const {
    Want want = nws_points(base(settings::nws), all_[i].cell.cell);
    want.check = readable([name = name(i, settings::nws)](std::string_view body) { return feeds::read_nws_point(name, body); });
    return want;
  }

  // Grids move without notice: one that is gone is looked up anew, once.
  void call_grid(std::size_t i, const std::string& url, bool again = false) {
    add_forecast(i, settings::nws, nws_grid(url), [this, i, url, again](const Got& gone) {
      if (again || gone.failure->status != 404) return;
      Want points = place_wanted(i);
      points.renew = true;
      add(i, "place", std::move(points), [this, i, url](const Got& got) {
        const auto moved = got.status == 404 ? units::fault("", "", "") : feeds::read_nws_point(name(i, settings::nws), got.body);
        const auto grid = moved ? here(i, moved->forecast_grid_url) : std::nullopt;
        if (grid && *grid != url) call_grid(i, *grid, true);
      });
    });
  }

  // An address that a reply gives: of the service itself, on the owner's own server where he has put one in its place. Any other host's is
  // not called.
  [[nodiscard]] std::optional<std::string> here(std::size_t i, const std::string& address) {
    const std::string own = base(settings::nws);
    for (const std::string& start : {std::string{terms_of(settings::nws).address} + "/", own + "/"})
      if (address.starts_with(start)) return own + "/" + address.substr(start.size());
    all_[i].warnings.push_back(fmt::format("{}: {}: expected an address of its own", name(i, settings::nws), net::host_of(address)));
    return std::nullopt;
  }

  void call_alerts(std::size_t i) {
    Want want = nws_alerts(base(settings::nws), all_[i].cell.cell);
    want.check = readable(
        [name = name(i, settings::nws) + " alerts", now = now_](std::string_view body) { return feeds::read_nws_alerts(name, body, now); });
    add(i, "alerts", std::move(want), [this, i](const Got& got) {
      auto alerts = feeds::read_nws_alerts(name(i, settings::nws) + " alerts", got.body, now_);
      if (!alerts) return all_[i].warnings.push_back(alerts.error().line());
      all_[i].alerts = std::move(*alerts);
      all_[i].alerts_known = now_ - got.fetched_at <= 1h;
    });
  }

  void call_station(std::size_t i, const std::string& stations_url) {
    Want list = nws_stations(stations_url);
    list.check = readable([name = name(i, settings::nws) + " stations", site = all_[i].cell.site()](std::string_view body) {
      return feeds::read_nws_stations(name, body, site);
    });
    add(i, "stations", std::move(list), [this, i](const Got& got) {
      const units::Site site = all_[i].cell.site();
      const auto stations = feeds::read_nws_stations(name(i, settings::nws) + " stations", got.body, site);
      if (!stations) return all_[i].warnings.push_back(stations.error().line());
      if (stations->empty()) return;
      const feeds::NwsStation& nearest = stations->front();
      if (units::distance({nearest.latitude, nearest.longitude, units::Metres{0.0}}, site) > weather::far_from_site) return;
      Want wanted = observations_wanted(i, nearest.id);
      feeds::ReadOptions station_options{now_};
      station_options.elevation = nearest.elevation;
      wanted.check = readable([name = name(i, settings::nws) + " observations", station_options](std::string_view body) {
        return feeds::read_nws_observations(name, body, station_options);
      });
      add(i, "station " + nearest.id, std::move(wanted), [this, i, station_options](const Got& reply) {
        auto record = feeds::read_nws_observations(name(i, settings::nws) + " observations", reply.body, station_options);
        if (!record) return all_[i].warnings.push_back(record.error().line());
        records_[i].station = std::move(*record);
      });
    });
  }

  // The service keeps about a week: all of it once, then from the day of the last hour that is kept. A reply that is still fresh serves
  // again, though the day has changed meanwhile.
  [[nodiscard]] Want observations_wanted(std::size_t i, const std::string& station) const {
    const std::string address = base(settings::nws);
    const Want week = nws_observations(address, station, now_ - 24h * 6);
    const weather::Series& kept = all_[i].kept;
    for (std::size_t hour = kept.hours(); hour-- > 0 && kept.label(hour) > now_ - 24h * 6;) {
      if (kept[weather::Variable::temperature].provenance(hour) != weather::Provenance::observed) continue;
      const Want since = nws_observations(address, station, kept.label(hour));
      for (const Want& earlier : {week, nws_observations(address, station, kept.label(hour) - 24h)})
        if (fresh(earlier)) return earlier;
      return since;
    }
    return week;
  }

  // The past weeks' rain of a gauge nearby, where no service gives a model's.
  void call_daily_rain(std::size_t i) {
    const auto zone = feeds::load_zone(all_[i].cell.zone, now_ - 24h * 200, now_ + 24h * 30);
    if (!zone) return all_[i].warnings.push_back(zone.error().line());
    const units::LocalDay today = zone->day_of(now_);
    // Whole months, so that the same stations are asked for until the month ends.
    const units::LocalDay from = today - std::chrono::days{longest_past_d};
    const auto month = std::chrono::year_month_day{from};
    const units::LocalDay first{month.year() / month.month() / 1};
    const std::string address = base(settings::daily_rain);
    const auto this_month = std::chrono::year_month_day{today};
    const units::LocalDay last{this_month.year() / this_month.month() / std::chrono::last};
    Want gauges = rain_stations(address, all_[i].cell.cell, first, last);
    gauges.check = readable([name = name(i, settings::daily_rain) + " stations", site = all_[i].cell.site()](std::string_view body) {
      return feeds::read_rain_stations(name, body, site);
    });
    add(i, "rain gauges", std::move(gauges), [this, i, address, first, today](const Got& got) {
      const units::Site site = all_[i].cell.site();
      const auto stations = feeds::read_rain_stations(name(i, settings::daily_rain) + " stations", got.body, site);
      if (!stations) return all_[i].warnings.push_back(stations.error().line());
      std::size_t used = 0;
      for (const auto& station : *stations) {
        if (used == rain_stations_used ||
            units::distance({station.latitude, station.longitude, units::Metres{0.0}}, site) > weather::far_from_site)
          break;
        ++used;
        Want days = daily_rain(address, station.id, first, today);
        days.check = readable([name = name(i, settings::daily_rain)](std::string_view body) { return feeds::read_daily_rain(name, body); });
        add(i, "daily rain " + station.id, std::move(days), [this, i, first, today](const Got& reply) {
          auto rows = feeds::read_daily_rain(name(i, settings::daily_rain), reply.body);
          if (!rows) return all_[i].warnings.push_back(rows.error().line());
          std::erase_if(*rows, [&](const feeds::DailyRain& row) { return row.day < first || row.day > today; });
          add_days(*rows, records_[i].days);
        });
      }
    });
  }

  // What earlier, nearer stations said of a day stands.
  static void add_days(const std::vector<feeds::DailyRain>& from, std::map<units::LocalDay, weather::DayRecord>& days) {
    for (const feeds::DailyRain& row : from) {
      weather::DayRecord& day = days.try_emplace(row.day, weather::DayRecord{row.day, {}, {}, {}}).first->second;
      if (!day.rain_mm) day.rain_mm = row.rain_mm;
      if (!day.temp_max_c && row.tmax_c && row.tmin_c && *row.tmax_c >= *row.tmin_c) {
        day.temp_max_c = row.tmax_c;
        day.temp_min_c = row.tmin_c;
      }
    }
  }

  [[nodiscard]] bool old(const weather::Forecast& forecast) const { return now_ - *forecast.issued_at > means_.limit; }

  void settle(std::size_t i) {
    CellWeather& weather = all_[i];
    Records& records = records_[i];
    std::ranges::stable_sort(weather.told, {}, &Told::service);  // whatever service was quicker
    forget_what_came_after_all(weather.told);
    for (const std::string& service : means_.chosen.by_trust)
      if (const auto found = records.by_service.find(service); found != records.by_service.end())
        weather.forecasts.push_back(std::move(found->second));
    std::ranges::stable_partition(weather.forecasts, [&](const weather::Forecast& forecast) { return !old(forecast); });
    remember(weather, records);
  }

  // A grid that had moved and was found again is no silence.
  static void forget_what_came_after_all(std::vector<Told>& told) {
    for (std::size_t n = 0; n < told.size(); ++n)
      for (std::size_t later = n + 1; later < told.size(); ++later)
        if (told[n].service == told[later].service && told[n].what == told[later].what && told[n].what == "forecast" &&
            told[later].came != Came::stale && told[later].came != Came::failed)
          told[n].came = Came::kept;
  }

  void remember(CellWeather& weather, Records& records) {
    const net::FileLock lock{means_.history.lock_of(weather.cell.cell)};
    auto recalled = means_.history.recall(weather.cell.cell);  // another run may have kept more meanwhile
    const bool anything_kept = recalled.series.hours() > 0;
    if (anything_kept) weather.kept = std::move(recalled.series);
    std::vector<weather::Series> bridged;
    for (const auto& forecast : weather.forecasts) {
      bridged.push_back(forecast.control);
      weather::bridge_gaps(bridged.back());
    }
    std::vector<const weather::Series*> by_trust;
    for (const auto& series : bridged) by_trust.push_back(&series);
    weather::Series seen = weather::blend(by_trust, now_).control;
    if (records.station && records.station->control.hours() > 0)
      seen = seen.hours() > 0 ? weather::with_record(seen, records.station->control) : records.station->control;
    if (!records.days.empty())
      if (const auto zone = feeds::load_zone(weather.cell.zone, now_ - 24h * 200, now_ + 24h * 30)) {
        std::vector<weather::DayRecord> days;
        for (const auto& [day, record] : records.days)
          if (zone->end_of(day) <= now_) days.push_back(record);
        if (!days.empty()) weather.kept = weather::keep(weather.kept, weather::hours_of(days, *zone), now_);
      }
    weather.kept = weather::keep(weather.kept, seen, now_);
    // A replay, or a run that heard nothing, has nothing to add.
    const bool heard =
        std::ranges::any_of(weather.told, [](const Told& told) { return told.came == Came::fetched || told.came == Came::unchanged; });
    if ((!heard && anything_kept) || !recalled.may_replace || weather.kept.hours() == 0) return;
    if (const auto kept = means_.history.keep(weather.cell.cell, weather.kept); !kept) weather.warnings.push_back(kept.error().line());
  }

  const Means& means_;
  UtcTime now_;
  const OnProgress& progress_;
  std::vector<CellWeather> all_;
  std::vector<Records> records_;
  std::map<std::string, std::vector<Errand>> next_;  // by service; the services are those of the first calls
  net::Progress total_;
  std::mutex taking_;  // of all that replies change
};

}  // namespace

std::vector<CellWeather> gather(const std::vector<CellSite>& cells, const Means& means, UtcTime now, const OnProgress& progress) {
  return Gathering{cells, means, now, progress}.run();
}

}  // namespace sources
