#include "plan/ascent.h"

#include <algorithm>
#include <limits>

#include "plan/pricing.h"

namespace plan {
namespace {

// Of each shared thing, what is left over at the prices: negative where more is taken than there is.
struct Rest {
  std::vector<double> job;
  std::vector<double> rig;
};

class Ask {
 public:
  Ask(const Ground& ground, Prices& prices) : ground_(ground), prices_(prices) {
    bound_ = ground.left_out();
    rest_.job.assign(prices.job.size(), 1.0);
    for (std::size_t job = 0; job < prices.job.size(); ++job) bound_ += prices.job[job];
    for (std::size_t day = 0; day < prices.rig.size(); ++day) {
      rest_.rig.push_back(ground.rigs(static_cast<int>(day)));
      bound_ += prices.rig[day] * rest_.rig.back();
    }
  }

  void slot(int slot) {
    constexpr double anything = -1e300;
    const bool must = ground_.locked_in(slot).count > 0;
    const auto offers = price_slot(ground_, slot, prices_, {must ? anything : 0.0, 1, 0});
    auto& price = prices_.slot[static_cast<std::size_t>(slot)];
    price = 0.0;
    if (offers.best.empty()) return;
    price = offers.best.front().margin;
    bound_ += price;
    const Column& column = offers.best.front().column;
    for (const int job : column.stops.jobs()) rest_.job[static_cast<std::size_t>(job)] -= 1.0;
    if (column.rig) rest_.rig[static_cast<std::size_t>(ground_.day_of(slot))] -= 1.0;
  }

  [[nodiscard]] double bound() const { return bound_; }
  [[nodiscard]] const Rest& rest() const { return rest_; }

 private:
  const Ground& ground_;
  Prices& prices_;
  double bound_ = 0.0;
  Rest rest_;
};

// What is left over without a price pulls at nothing: its price cannot fall.
double pull(const std::vector<double>& price, const std::vector<double>& rest) {
  double sum = 0.0;
  for (std::size_t i = 0; i < price.size(); ++i)
    if (price[i] > 0.0 || rest[i] < 0.0) sum += rest[i] * rest[i];
  return sum;
}

void step(std::vector<double>& price, const std::vector<double>& rest, double length) {
  for (std::size_t i = 0; i < price.size(); ++i) price[i] = std::max(0.0, price[i] - length * rest[i]);
}

}  // namespace

Priced move_prices(const Ground& ground, const Prices& from, double objective, double worst, int rounds,
                   const std::function<bool()>& stop) {
  constexpr int patience = 8;
  Priced best{std::numeric_limits<double>::infinity(), from};
  const auto answer = [&] {
    best.bound = std::min(best.bound, worst);
    return best;
  };
  Prices prices = from;
  double boldness = 1.0;
  int in_vain = 0;
  for (int round = 0; round < rounds; ++round) {
    Ask ask(ground, prices);
    for (int slot = 0; slot < ground.slots(); ++slot) {
      if (stop && stop()) return answer();
      ask.slot(slot);
    }
    if (ask.bound() < best.bound) {
      best = {ask.bound(), prices};
      in_vain = 0;
    } else if (++in_vain == patience) {
      prices = best.prices;
      boldness *= 0.5;
      in_vain = 0;
      continue;
    }
    const Rest& rest = ask.rest();
    const double pulls = pull(prices.job, rest.job) + pull(prices.rig, rest.rig);
    if (pulls <= 0.0) return answer();
    const double length = boldness * std::max(0.0, ask.bound() - objective) / pulls;
    step(prices.job, rest.job, length);
    step(prices.rig, rest.rig, length);
  }
  return answer();
}

}  // namespace plan
