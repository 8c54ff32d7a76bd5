#include "text/orders.h"

#include <array>
#include <chrono>

#include "units/random.h"

namespace orders {
namespace {

using namespace std::chrono_literals;

constexpr units::LocalDay tuesday{std::chrono::local_days{std::chrono::year{2026} / 7 / 7}};

// Draws of one order, one after the other.
class Luck {
 public:
  explicit Luck(std::uint64_t number) : number_(number) {}
  double share() { return units::hashed_uniform(number_, 77, next_++); }
  int below(int count) { return static_cast<int>(share() * count); }
  bool chance(double of) { return share() < of; }

 private:
  std::uint64_t number_, next_ = 0;
};

constexpr std::array names{"Oak Court elm",  "Elm St, north tree",
                           "Peña ranch",     "City Hall big elm by the fountain on the west lawn",
                           "Müller",         "St. Mary's",
                           "Hollis",         "Three Sisters (middle)",
                           "O’Brien – rear", "Żukowski"};

}  // namespace

units::LocalTime at(int hour, int minute) { return units::LocalTime{tuesday} + std::chrono::hours{hour} + std::chrono::minutes{minute}; }

text::Stop oak_court() {
  text::Stop s;
  s.name = "Oak Court elm";
  s.code = "OC-1";
  s.address = "12 Oak Ct";
  s.arrive = at(7, 30);
  s.off_site_by = at(17);
  s.valves = text::Valves{at(9), at(16)};
  s.verdict = days::Verdict::go;
  s.chance = 0.93;
  s.takes_h = {3.1, 4.5, 6.9};
  s.mix_l = 250.0;   // 66 gal
  s.flush_l = 19.0;  // 5 gal
  s.ports = 14;
  s.tanks = 3;
  s.water = "hydrant";
  s.gate = "4412";
  s.dog = "in yard";
  s.home = "Ann till 10";
  return s;
}

text::CrewOrder one_stop() {
  text::CrewOrder order;
  order.crew = "Crew B";
  order.date = tuesday;
  order.stops = {oak_court()};
  order.call = "555-0100";
  order.weather_age_h = 5.0;
  return order;
}

text::CrewOrder two_stops() {
  text::CrewOrder order = one_stop();
  text::Stop s = oak_court();
  s.name = "Hollis yard";
  s.code = "HO-2";
  s.address = "3 Mill Rd";
  s.arrive = at(10);
  s.valves = text::Valves{at(11, 30), at(16, 30)};
  s.off_site_by = at(18);
  s.verdict = days::Verdict::tight;
  s.chance = 0.72;
  s.mix_l = 151.4;  // 40 gal
  s.water = {};
  s.haul_l = 170.3;  // 45 gal
  s.gate = s.dog = s.home = "";
  order.stops.push_back(s);
  return order;
}

text::CrewOrder random_order(std::uint64_t number) {
  Luck luck{number};
  text::CrewOrder order;
  order.crew = luck.chance(0.8) ? std::string{"Crew "} + static_cast<char>('A' + luck.below(6)) : "Northside two";
  order.date = tuesday;
  order.units = luck.chance(0.7) ? units::UnitSystem::us : units::UnitSystem::si;
  if (luck.chance(0.9)) order.call = "555-01" + std::to_string(10 + luck.below(90));
  if (luck.chance(0.2)) order.changed = {"Elm St moved to Thu"};
  if (luck.chance(0.9)) order.weather_age_h = 1.0 + luck.below(20);
  order.weather_too_old = luck.chance(0.1);
  const double u = luck.share();
  const int stops = u < 0.4 ? 1 : u < 0.75 ? 2 : u < 0.9 ? 3 : 4;
  const bool thunder = luck.chance(0.3), gusts = luck.chance(0.1);
  const text::OrderHold storm{days::HoldCode::thunder, at(13 + luck.below(3)), at(17 + luck.below(4), 30 * luck.below(2)), 60.0};
  for (int i = 0; i < stops; ++i) {
    text::Stop s;
    s.name = names[static_cast<std::size_t>(luck.below(static_cast<int>(names.size())))];
    s.code = "T-" + std::to_string(100 + 10 * i + luck.below(9));
    if (luck.chance(0.8)) s.address = std::to_string(1 + luck.below(900)) + " Cedar Grove Road";
    s.arrive = at(6 + 2 * i, 5 * luck.below(12));
    s.off_site_by = at(15 + luck.below(5), 15 * luck.below(4));
    if (luck.chance(0.85)) s.valves = text::Valves{s.arrive + 45min + std::chrono::minutes{5 * luck.below(12)}, s.off_site_by - 40min};
    s.verdict = static_cast<days::Verdict>(luck.below(3));
    s.chance = luck.share();
    s.takes_h = {1.0 + 3.0 * luck.share(), 4.0 + 4.0 * luck.share(), {}};
    if (luck.chance(0.8)) s.takes_h.p90 = 9.0 + 9.0 * luck.share();
    s.mix_l = 60.0 + 600.0 * luck.share();
    s.flush_l = luck.chance(0.9) ? 8.0 + 30.0 * luck.share() : 0.0;
    s.ports = luck.below(40);
    s.tanks = luck.below(6);
    if (luck.chance(0.5)) s.water = "hydrant at the corner";
    if (luck.chance(0.4)) s.haul_l = s.mix_l;
    if (luck.chance(0.3)) s.gate = "code " + std::to_string(1000 + luck.below(9000));
    if (luck.chance(0.2)) s.dog = "in the back yard, call first";
    if (luck.chance(0.3)) s.home = "Mrs. Reyes";
    if (!s.valves && luck.chance(0.7)) s.prep = {"dig the flare", "lay out"};
    if (thunder) s.holds.push_back(storm);
    if (gusts && i == 0) s.holds.push_back({days::HoldCode::gusts, at(11), at(14), 13.0 + luck.below(6)});
    if (luck.chance(0.1)) s.safety = {"dead limb over the drive"};
    order.stops.push_back(s);
  }
  return order;
}

std::string nasty_text(std::uint64_t number) {
  Luck luck{number + 1'000'000};
  static const std::array<std::string, 16> pieces{"🌳",
                                                  "👩‍🌾",
                                                  "\r\nBcc: everyone@trees.example\r\n",
                                                  "{stops}",
                                                  "[{call}]",
                                                  "{{n}}",
                                                  std::string(200, 'w'),
                                                  "Вяз",
                                                  "大榆树",
                                                  "\xE2\x80\xAE"
                                                  "gnihton",
                                                  "\xff\xfe",
                                                  std::string("a\0b", 3),
                                                  "%s%n",
                                                  "Oak",
                                                  "\n.\n",
                                                  "\"},{\"to\":\"x"};
  std::string text;
  const int count = 1 + luck.below(5);
  for (int i = 0; i < count; ++i)
    text += pieces[static_cast<std::size_t>(luck.below(static_cast<int>(pieces.size())))] + (luck.chance(0.5) ? " " : "");
  return text;
}

}  // namespace orders
