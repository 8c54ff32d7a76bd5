// How long a draw takes to drink: the innermost loop of the program, from the opening of the valves through ten hours of a good day.
//   bench-uptake                    runs the benchmarks (Google Benchmark's own options apply)
//   bench-uptake --case FILE DRAWS  writes what the loop is given and what it gives, as doubles, for tests/bench/uptake_ratio.py
#include <benchmark/benchmark.h>

#include <cstdio>
#include <cstdlib>
#include <cstring>

#include "uptake/bench.h"
#include "uptake/ensemble.h"

namespace {

using units::Lanes;

constexpr std::size_t opens_h = 4, drinks_h = 10;

// A large elm on a good day, with a dose that never ends, so that every draw takes every step.
bench::Case elm() {
  bench::Case c{bench::subject(120), bench::loam(), bench::hours({}, 5, opens_h + drinks_h)};
  c.subject.dose = units::Litres{1e9};
  return c;
}

uptake::Ensemble ensemble(const bench::Case& c, std::size_t draws) {
  uptake::Ensemble e{c.subject, c.curve, uptake::sample_draws(c.subject.source, draws, 1), draws};
  const uptake::Scenario as_forecast{c.hours, std::vector<uptake::Shift<Lanes>>(c.hours.size())};
  e.set_hours({&as_forecast, 1}, 0.0);
  return e;
}

void drink(benchmark::State& state) {
  const auto draws = static_cast<std::size_t>(state.range(0));
  auto e = ensemble(elm(), draws);
  benchmark::DoNotOptimize(e.finish(opens_h, 1.0));  // the undrilled tree is followed once, whatever number of starts is asked for
  for (auto _ : state) benchmark::DoNotOptimize(e.finish(opens_h, drinks_h));
  const double steps = static_cast<double>(draws * drinks_h * uptake::steps_per_hour);
  state.counters["ns_per_draw_step"] =
      benchmark::Counter(steps * 1e-9, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}
BENCHMARK(drink)->Arg(64)->Arg(256)->Arg(512)->Arg(4096)->Unit(benchmark::kMicrosecond);

void prepare(benchmark::State& state) {
  const bench::Case c = elm();
  const auto draws = static_cast<std::size_t>(state.range(0));
  uptake::Ensemble e{c.subject, c.curve, uptake::sample_draws(c.subject.source, draws, 1), draws};
  const uptake::Scenario as_forecast{c.hours, std::vector<uptake::Shift<Lanes>>(c.hours.size())};
  for (auto _ : state) e.set_hours({&as_forecast, 1}, 0.0);
  const double hours = static_cast<double>(draws * c.hours.size());
  state.counters["ns_per_draw_hour"] =
      benchmark::Counter(hours * 1e-9, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}
BENCHMARK(prepare)->Arg(256)->Unit(benchmark::kMicrosecond);

// One array a line of the numpy version, each `draws` long: constants of a draw, then those of every hour, then the volume at the end.
class CaseFile {
 public:
  CaseFile(const char* path, std::size_t draws) : file_(std::fopen(path, "wb")), draws_(draws) {
    if (file_ == nullptr) std::exit(2);
  }
  ~CaseFile() { std::fclose(file_); }
  CaseFile(const CaseFile&) = delete;
  CaseFile& operator=(const CaseFile&) = delete;

  template <class Of>
  void write(Of of) {
    for (std::size_t draw = 0; draw < draws_; ++draw) {
      const double value = of(draw / Lanes::count)[static_cast<int>(draw % Lanes::count)];
      if (std::fwrite(&value, sizeof value, 1, file_) != 1) std::exit(2);
    }
  }

 private:
  std::FILE* file_;
  std::size_t draws_;
};

void write_case(const char* path, std::size_t draws) {
  const bench::Case c = elm();
  const auto sampled = uptake::sample_draws(c.subject.source, draws, 1);
  std::vector<uptake::Day<Lanes>> days;
  std::vector<uptake::Water<Lanes>> begin, end;
  for (const auto& draw : sampled) {
    days.push_back(bench::day(c, draw));
    auto water = uptake::at_rest(days.back());
    uptake::rest(days.back(), 0, opens_h * uptake::steps_per_hour, water, bench::unseen);
    begin.push_back(water);
    uptake::drink(days.back(), opens_h * uptake::steps_per_hour, days.back().steps(), water, bench::unseen);
    end.push_back(water);
  }
  CaseFile out{path, draws};
  const auto of_tree = [&](Lanes uptake::Coefficients<Lanes>::*member) { out.write([&, member](std::size_t b) { return days[b].coefficients.*member; }); };
  of_tree(&uptake::Coefficients<Lanes>::base_store_l_mpa);
  of_tree(&uptake::Coefficients<Lanes>::crown_store_l_mpa);
  of_tree(&uptake::Coefficients<Lanes>::lift_mpa);
  of_tree(&uptake::Coefficients<Lanes>::per_p50);
  of_tree(&uptake::Coefficients<Lanes>::vulnerability_slope);
  of_tree(&uptake::Coefficients<Lanes>::per_psi_half);
  of_tree(&uptake::Coefficients<Lanes>::closure_slope);
  out.write([&](std::size_t b) { return days[b].plant.port_l_h_mpa; });
  out.write([&](std::size_t b) { return days[b].plant.lumens_l; });
  out.write([&](std::size_t b) { return days[b].plant.pressure_mpa; });
  out.write([&](std::size_t b) { return days[b].draw.slow_hours; });
  out.write([&](std::size_t b) { return days[b].draw.fast_hours; });
  out.write([&](std::size_t b) { return days[b].draw.fast_share; });
  out.write([&](std::size_t b) { return days[b].draw.lumens_hours; });
  out.write([&](std::size_t b) { return uptake::open_at_drilling(days[b].hours[opens_h], days[b].draw, begin[b]); });
  out.write([&](std::size_t b) { return begin[b].base_mpa; });
  out.write([&](std::size_t b) { return begin[b].crown_mpa; });
  out.write([&](std::size_t b) { return begin[b].crown_mpa_h; });
  for (std::size_t hour = opens_h; hour < opens_h + drinks_h; ++hour) {
    const auto of_hour = [&](Lanes uptake::Hour<Lanes>::*member) {
      out.write([&, member](std::size_t b) { return days[b].hours[hour].*member; });
    };
    of_hour(&uptake::Hour<Lanes>::demand_l_h);
    of_hour(&uptake::Hour<Lanes>::cuticle_l_h);
    of_hour(&uptake::Hour<Lanes>::root_l_h_mpa);
    of_hour(&uptake::Hour<Lanes>::backflow_l_h_mpa);
    of_hour(&uptake::Hour<Lanes>::soil_mpa);
    of_hour(&uptake::Hour<Lanes>::xylem_l_h_mpa);
    of_hour(&uptake::Hour<Lanes>::port_fluidity);
  }
  out.write([&](std::size_t b) { return end[b].volume_l; });
}

}  // namespace

int main(int count, char** arguments) {
  if (count == 4 && std::strcmp(arguments[1], "--case") == 0) {
    write_case(arguments[2], std::strtoul(arguments[3], nullptr, 10));
    return 0;
  }
  benchmark::Initialize(&count, arguments);
  if (benchmark::ReportUnrecognizedArguments(count, arguments)) return 1;
  benchmark::RunSpecifiedBenchmarks();
  benchmark::Shutdown();
  return 0;
}
