// Reference evapotranspiration of every hour of a record, from five columns of weather, site and time.
#include <benchmark/benchmark.h>

#include "bench/et_kernel.h"
#include "bench/et_plain.h"

namespace {

void run(benchmark::State& state, void (*et)(const bench::Record&, double, std::span<double>, std::span<double>)) {
  const bench::Record record = bench::record(static_cast<std::size_t>(state.range(0)));
  std::vector<double> fao56(record.hours()), asce(record.hours());
  for (auto _ : state) {
    et(record, 0.6, fao56, asce);
    benchmark::DoNotOptimize(fao56.data());
    benchmark::DoNotOptimize(asce.data());
    benchmark::ClobberMemory();
  }
}

BENCHMARK_CAPTURE(run, et_kernel, bench::et_kernel)->Arg(2016)->Arg(4000008);
BENCHMARK_CAPTURE(run, et_plain, bench::et_plain)->Arg(2016)->Arg(4000008);

}  // namespace
