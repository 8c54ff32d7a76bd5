#include "plan/pricing.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "plan/tour.h"

namespace plan {

double Prices::margin(const Ground& ground, const Column& column) const {
  double sum = column.value;
  for (const int index : column.stops.jobs()) sum -= job[static_cast<std::size_t>(index)];
  if (column.rig) sum -= rig[static_cast<std::size_t>(ground.day_of(column.slot))];
  for (const auto& cut : cuts)
    if (holds_two(cut.jobs, column.stops)) sum -= cut.price;
  return sum;
}

namespace {

// Hours may be exceeded by so little (ground.cpp says why).
constexpr double rounding_h = 5e-7;

struct Stop {
  int job;
  double profit;  // gain less the job's price
  double net;     // less the least drive that a further stop costs
  double hours;   // on site
  double busy_h;  // with the least drive that it adds
  double depot_h;
  bool rig;
  double best_rate;                 // the most net per busy hour from here on
  std::vector<std::size_t> cuts{};  // that it is one of the three jobs of
};

class Walk {
 public:
  Walk(const Ground& ground, int slot, const Prices& prices, const Wanted& wanted)
      : ground_(ground),
        slot_(slot),
        wanted_(wanted),
        per_h_(ground.travel_per_h()),
        room_h_(ground.slot_hours(slot) + rounding_h),
        rig_price_(prices.rig[static_cast<std::size_t>(ground.day_of(slot))]),
        floor_(wanted.above) {
    for (const auto& [job, gain] : ground.candidates(slot)) add(job, gain - prices.job[static_cast<std::size_t>(job)]);
    std::ranges::sort(stops_, [](const Stop& a, const Stop& b) { return a.net != b.net ? a.net > b.net : a.job < b.job; });
    double rate = 0.0;
    for (auto stop = stops_.rbegin(); stop != stops_.rend(); ++stop) stop->best_rate = rate = std::max(rate, stop->net / stop->busy_h);
    add_cuts(prices);
    fixed_ = ground.locked_in(slot);
    for (const int job : fixed_.jobs()) {
      // Locked jobs stand in front, where the walk never goes; their indices are the first of `chosen_`.
      fixed_value_ += ground.gain(job, slot);
      fixed_hours_ += ground.hours(job, ground.day_of(slot));
      fixed_rig_ = fixed_rig_ || ground.rig(job);
    }
    if (!stops_.empty() && fixed_.count < ground.max_stops()) measure();
  }

  Offers run() {
    chosen_ = fixed_;
    const double tour_h = ground_.tour_h(ground_.crew_of(slot_), fixed_);
    const double value = fixed_value_ - (fixed_rig_ ? rig_price_ : 0.0);
    const double extra = ground_.extra(slot_, fixed_);
    if (fixed_.count > 0) offer(value - per_h_ * tour_h - extra);
    // A locked job alone may overrun its day; then nothing fits beside it.
    const bool full = fixed_.count == ground_.max_stops() || (fixed_.count > 0 && fixed_hours_ + tour_h > room_h_);
    if (!full && !stops_.empty()) extend(0, value, fixed_hours_, tour_h, extra, fixed_rig_);
    Offers offers;
    offers.complete = !gave_up_;
    std::ranges::sort(best_, [](const Found& a, const Found& b) { return a.margin > b.margin; });
    for (const auto& found : best_) offers.best.push_back({found.margin, column_of(ground_, slot_, found.stops)});
    return offers;
  }

 private:
  struct Found {
    double margin;
    Stops stops;
  };

  void add(int job, double profit) {
    const double net = profit - per_h_ * ground_.stop_h();
    if (net <= 0.0 && !wanted_.worse_too) return;
    const double hours = ground_.hours(job, ground_.day_of(slot_));
    const double depot_h = ground_.depot_h(ground_.crew_of(slot_), job);
    // Alone it costs the whole way; with others at least the legs' fixed time.
    stops_.push_back({job, profit, net, hours, std::max(1e-9, hours + ground_.stop_h()), depot_h, ground_.rig(job), 0.0});
  }

  void add_cuts(const Prices& prices) {
    for (const auto& cut : prices.cuts) {
      if (cut.price <= 0.0) continue;
      std::vector<Stop*> held;
      for (const int job : cut.jobs)
        if (const auto stop = std::ranges::find(stops_, job, &Stop::job); stop != stops_.end()) held.push_back(&*stop);
      if (held.size() < 2) continue;
      for (Stop* stop : held) stop->cuts.push_back(cut_prices_.size());
      cut_prices_.push_back(cut.price);
    }
    held_of_cut_.assign(cut_prices_.size(), 0);
  }

  void measure() {
    const std::size_t n = stops_.size();
    between_.resize(n * n);
    for (std::size_t a = 0; a < n; ++a)
      for (std::size_t b = 0; b < a; ++b) between_[a * n + b] = between_[b * n + a] = ground_.drive_h(stops_[a].job, stops_[b].job);
  }

  void offer(double margin) {
    if (margin <= floor_) return;
    if (best_.size() == wanted_.most) {
      *std::ranges::min_element(best_, {}, &Found::margin) = {margin, chosen_};
    } else {
      best_.push_back({margin, chosen_});
    }
    if (best_.size() == wanted_.most) floor_ = std::ranges::min_element(best_, {}, &Found::margin)->margin;
  }

  [[nodiscard]] double tour_with(std::size_t next) const {
    const std::size_t n = stops_.size();
    const auto between = [&](std::size_t a, std::size_t b) { return between_[a * n + b]; };
    if (fixed_.count == 0) {
      const auto& p = path_;
      const double d = stops_[next].depot_h;
      switch (chosen_.count) {
        case 0:
          return 2.0 * d;
        case 1:
          return tour_of_two(stops_[p[0]].depot_h, between(p[0], next), d);
        case 2:
          return tour_of_three(stops_[p[0]].depot_h, stops_[p[1]].depot_h, d, between(p[0], p[1]), between(p[0], next),
                               between(p[1], next));
        default:
          break;
      }
      Legs legs;
      const std::array<std::size_t, 4> all{p[0], p[1], p[2], next};
      for (std::size_t a = 0; a < 4; ++a) {
        legs.depot[a] = stops_[all[a]].depot_h;
        for (std::size_t b = 0; b < a; ++b) legs.between[a][b] = legs.between[b][a] = between(all[a], all[b]);
      }
      return tour_of_four(legs);
    }
    Stops with = chosen_;
    with.add(stops_[next].job);
    return ground_.tour_h(ground_.crew_of(slot_), with);
  }

  // Everything that adds stops from `first` on to the chosen ones. `value`: their profits less the rig's price.
  // `extra`: what the rule takes off the chosen ones; further stops never lower it.
  void extend(std::size_t first, double value, double hours, double tour_h, double extra, bool rig) {
    const int room = ground_.max_stops() - chosen_.count;
    const double now = value - per_h_ * tour_h - extra;
    const double rest_h = room_h_ - hours - tour_h;
    const std::size_t n = stops_.size();
    for (std::size_t i = first; i < n; ++i) {
      const Stop& stop = stops_[i];
      // Nets fall: the next `room` of them are the most that can come.
      double further = 0.0;
      for (std::size_t k = i + 1; k < std::min(n, i + static_cast<std::size_t>(room)); ++k) further += std::max(0.0, stops_[k].net);
      if (now + stop.net + further <= floor_) return;
      if (stop.busy_h > rest_h) continue;
      const double later = i + 1 < n ? (rest_h - stop.busy_h) * stops_[i + 1].best_rate : 0.0;
      const double price = stop.rig && !rig ? rig_price_ : 0.0;
      if (now + stop.net - price + std::min(further, later) <= floor_) continue;
      const double longer_h = tour_with(i);
      if (hours + stop.hours + longer_h > room_h_) continue;
      if (wanted_.steps != 0 && ++steps_ > wanted_.steps) gave_up_ = true;
      if (gave_up_) return;
      path_[static_cast<std::size_t>(chosen_.count - fixed_.count)] = i;
      chosen_.add(stop.job);
      const double takes = ground_.extra(slot_, chosen_);
      if (!std::isfinite(takes)) {
        --chosen_.count;
        continue;
      }
      double with = value + stop.profit - price;
      for (const std::size_t cut : stop.cuts)
        if (++held_of_cut_[cut] == 2) with -= cut_prices_[cut];
      offer(with - per_h_ * longer_h - takes);
      if (room > 1 && i + 1 < n) extend(i + 1, with, hours + stop.hours, longer_h, takes, rig || stop.rig);
      --chosen_.count;
      for (const std::size_t cut : stop.cuts) --held_of_cut_[cut];
    }
  }

  const Ground& ground_;
  int slot_;
  Wanted wanted_;
  double per_h_;
  double room_h_;
  double rig_price_;
  double floor_;
  std::vector<Stop> stops_;
  std::vector<double> between_;
  std::vector<double> cut_prices_;
  std::vector<int> held_of_cut_;  // stops chosen of its three
  Stops fixed_;
  double fixed_value_ = 0.0;
  double fixed_hours_ = 0.0;
  bool fixed_rig_ = false;
  Stops chosen_;
  std::array<std::size_t, most_stops> path_{};
  std::vector<Found> best_;
  std::uint64_t steps_ = 0;
  bool gave_up_ = false;
};

}  // namespace

Offers price_slot(const Ground& ground, int slot, const Prices& prices, const Wanted& wanted) {
  return Walk(ground, slot, prices, wanted).run();
}

}  // namespace plan
