#include "net/fetcher.h"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <thread>

#include "net/address.h"
#include "net/durable_file.h"

namespace net {

using std::chrono::milliseconds;
using units::UtcTime;
using Instant = std::chrono::sys_time<milliseconds>;

// Spaces the beginnings of one service's calls.
class Fetcher::Pace {
 public:
  explicit Pace(double per_second) : apart_(static_cast<long>(std::ceil(1000.0 / per_second))) {}

  // How long to wait before the next call may begin; the place in the queue is taken.
  milliseconds take_turn(Instant now) {
    const std::lock_guard lock{mutex_};
    // A clock that jumps back must not make anybody wait longer than the queue is.
    ++queued_;
    next_ = std::clamp(next_, now, now + apart_ * queued_);
    const milliseconds wait = next_ - now;
    next_ += apart_;
    return wait;
  }
  void begun() {
    const std::lock_guard lock{mutex_};
    --queued_;
  }

  // Addresses in a row for which the service could not be brought to answer.
  [[nodiscard]] int silent_for() const { return silent_; }
  void note(bool answers) { silent_ = answers ? 0 : silent_ + 1; }
  // It does not want us: nothing more of it in this run.
  void refused(int silent_then_none) { silent_ = silent_then_none; }

 private:
  std::mutex mutex_;
  milliseconds apart_;
  int queued_ = 0;
  std::atomic<int> silent_{0};
  Instant next_{};
};

Fetcher::Fetcher(Transport& transport, Cache& cache, Budgets& budgets, Machine machine, std::map<std::string, Rates> rates,
                 Patience patience)
    : transport_(transport),
      cache_(cache),
      budgets_(budgets),
      machine_(std::move(machine)),
      rates_(std::move(rates)),
      patience_(patience) {}

UtcTime Fetcher::now() const { return std::chrono::floor<std::chrono::seconds>(machine_.now()); }

const Rates& Fetcher::rates_of(const std::string& service) const {
  static const Rates careful;
  const auto found = rates_.find(service);
  return found == rates_.end() ? careful : found->second;
}

Fetcher::Pace& Fetcher::pace_of(const std::string& service) {
  const std::lock_guard lock{mutex_};
  auto& pace = paces_[service];
  if (!pace) pace = std::make_shared<Pace>(rates_of(service).per_second);
  return *pace;
}

void Fetcher::log(const std::string& line) {
  const std::lock_guard lock{mutex_};
  if (log_) log_(line);
}

std::vector<Spent> Fetcher::spent() const {
  std::vector<std::string> services;
  {
    const std::lock_guard lock{mutex_};
    for (const auto& [service, pace] : paces_) services.push_back(service);
  }
  std::vector<Spent> all;
  for (const std::string& service : services) all.push_back(budgets_.spent(service, rates_of(service), now()));
  return all;
}

std::optional<Failure> Fetcher::wait_for_leave(const Want& want, Instant give_up) {
  const std::string& service = want.request.service;
  for (;;) {
    const Budgets::Grant grant = budgets_.reserve(service, rates_of(service), want.request.weight, now());
    if (grant.granted) return std::nullopt;
    if (Instant{grant.again} > give_up)
      return Failure{
          Trouble::budget,
          0,
          fmt::format("{}: not asked until {}: its limit is reached, or it told us to wait", service, units::to_text(grant.again)),
          false,
          {}};
    machine_.sleep(std::max(milliseconds{100}, Instant{grant.again} - machine_.now()));
  }
}

Answer Fetcher::ask(const Want& want, const std::optional<Entry>& cached, int& calls) {
  Request request = want.request;
  if (cached && cached->status == 200 && !cached->etag.empty()) request.headers.push_back({"If-None-Match", cached->etag});
  if (cached && cached->status == 200 && !cached->last_modified.empty())
    request.headers.push_back({"If-Modified-Since", cached->last_modified});
  const Instant give_up = machine_.now() + patience_.in_all;
  // Where the line is down or a service is out, the first addresses have the patience and the rest need not wait for it.
  const int silent_for = pace_of(request.service).silent_for();
  if (silent_for >= patience_.silent_then_none)
    return tl::make_unexpected(Failure{
        Trouble::connect, 0, fmt::format("{}: {}: not asked any more in this run", request.service, host_of(request.url)), false, {}});
  const int tries = silent_for >= patience_.silent_then_one ? 1 : patience_.tries;
  for (int attempt = 0;; ++attempt) {
    if (auto refused = wait_for_leave(want, give_up)) return tl::make_unexpected(*refused);
    Pace& pace = pace_of(request.service);
    if (const milliseconds turn = pace.take_turn(machine_.now()); turn > milliseconds{0}) machine_.sleep(turn);
    pace.begun();
    ++calls;
    Answer answer = transport_.get(request);
    std::optional<Failure> failed = answer ? failure_of(want, *answer, now()) : answer.error();
    log(fmt::format("{} {} {}", request.service, host_of(request.url), failed ? failed->line : fmt::format("{}", answer->status)));
    if (!failed) {
      pace.note(true);
      return answer;
    }
    const double spread_ms =
        std::min(static_cast<double>(patience_.longest.count()), static_cast<double>(patience_.first.count()) * std::pow(2.0, attempt));
    // A service that says 'now' gets a pause all the same.
    const milliseconds pause = std::max(milliseconds{failed->wait.value_or(std::chrono::seconds{0})},
                                        milliseconds{static_cast<long>(machine_.uniform() * spread_ms)});
    const bool too_late = machine_.now() + pause > give_up;
    // Nobody else of this office shall ask meanwhile.
    if (failed->retry && failed->wait && failed->binding) budgets_.wait_until(request.service, now() + *failed->wait);
    if (!failed->retry || too_late || attempt + 1 >= tries) {
      if (failed->status == 401 || failed->status == 403)
        pace.refused(patience_.silent_then_none);
      else
        pace.note(!failed->retry);
      return tl::make_unexpected(*failed);
    }
    machine_.sleep(pause);
  }
}

Got Fetcher::get(const Want& want) {
  const std::string& url = want.request.url;
  const auto fresh = [&](const Entry& entry) { return is_fresh(entry, now()); };
  const auto from = [](const Entry& entry, Came came) {
    return Got{came, entry.status, entry.body, entry.fetched_at, entry.fresh_until, {}, 0};
  };
  auto cached = cache_.read(url);
  if (cached && fresh(*cached) && !want.renew) return from(*cached, Came::kept);
  // Who asks nobody waits for nobody.
  if (auto refused = transport_.refusal(want.request)) {
    Got got = cached ? from(*cached, Came::stale) : Got{};
    got.failure = std::move(*refused);
    return got;
  }
  // One at a time for an address: who comes second finds the first one's reply.
  const FileLock lock{cache_.lock_of(url)};
  const UtcTime before = cached ? cached->fetched_at : UtcTime{};
  cached = cache_.read(url);
  if (cached && fresh(*cached) && (!want.renew || cached->fetched_at > before)) return from(*cached, Came::kept);

  int calls = 0;
  Answer answer = ask(want, cached, calls);
  // A 304 to a question without conditions answers nothing.
  if (answer && answer->status == 304 && !cached)
    answer = tl::make_unexpected(Failure{
        Trouble::status, 304, fmt::format("{}: {}: says 'unchanged' to a first question", want.request.service, host_of(url)), false, {}});
  if (!answer) {
    Got got = cached ? from(*cached, Came::stale) : Got{};
    got.failure = answer.error();
    got.calls = calls;
    return got;
  }
  const bool unchanged = answer->status == 304;
  Entry entry = unchanged ? *cached : Entry{url, answer->status, answer->content_type, std::move(answer->body), {}, {}, {}, {}};
  if (const auto etag = answer->header("etag")) entry.etag = *etag;
  if (const auto modified = answer->header("last-modified")) entry.last_modified = *modified;
  entry.fetched_at = now();
  entry.fresh_until = fresh_until(want, *answer, now());
  Got got = from(entry, unchanged ? Came::unchanged : Came::fetched);
  got.calls = calls;
  if (const auto put = cache_.put(entry); !put) got.failure = Failure{Trouble::local, 0, put.error().line(), false, {}};
  return got;
}

std::vector<Got> Fetcher::get_all(const std::vector<Want>& wants, const std::function<void(const Progress&)>& progress) {
  // Each address once, in the order in which it was first asked for.
  std::map<std::string, std::size_t> first_of;
  std::map<std::string, std::vector<std::size_t>> queues;
  std::vector<std::size_t> same_as(wants.size());
  for (std::size_t i = 0; i < wants.size(); ++i) {
    same_as[i] = first_of.emplace(wants[i].request.url, i).first->second;
    if (same_as[i] == i) queues[wants[i].request.service].push_back(i);
  }
  std::vector<Got> all(wants.size());
  std::mutex telling;
  Progress told{0, first_of.size(), 0, {}};
  std::vector<std::thread> workers;
  std::map<std::string, std::shared_ptr<std::atomic<std::size_t>>> next;
  for (const auto& [service, queue] : queues) {
    next[service] = std::make_shared<std::atomic<std::size_t>>(0);
    const auto at_once = static_cast<std::size_t>(std::max(1, rates_of(service).at_once));
    for (std::size_t w = 0; w < std::min(at_once, queue.size()); ++w)
      workers.emplace_back([&, &queue = queue, &at = *next[service], &service = service] {
        for (std::size_t n = at++; n < queue.size(); n = at++) {
          const std::size_t i = queue[n];
          all[i] = get(wants[i]);
          const std::lock_guard lock{telling};
          ++told.done;
          told.calls += static_cast<std::size_t>(all[i].calls);
          told.service = service;
          if (progress) progress(told);
        }
      });
  }
  for (std::thread& worker : workers) worker.join();
  for (std::size_t i = 0; i < wants.size(); ++i)
    if (same_as[i] != i) {
      all[i] = all[same_as[i]];
      all[i].calls = 0;
    }
  return all;
}

}  // namespace net
