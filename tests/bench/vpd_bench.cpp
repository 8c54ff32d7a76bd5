// Saturation pressure and vapour pressure deficit of every element of two columns.
#include <benchmark/benchmark.h>

#include "air/vapour_hours.h"
#include "bench/et_plain.h"

namespace {

void run(benchmark::State& state, void (*vapour)(std::span<const double>, std::span<const double>, std::span<double>, std::span<double>)) {
  const bench::Record record = bench::record(static_cast<std::size_t>(state.range(0)));
  std::vector<double> saturation(record.hours()), vpd(record.hours());
  for (auto _ : state) {
    vapour(record.temp_c, record.rh_pct, saturation, vpd);
    benchmark::DoNotOptimize(saturation.data());
    benchmark::DoNotOptimize(vpd.data());
    benchmark::ClobberMemory();
  }
}

BENCHMARK_CAPTURE(run, vpd_kernel, air::vapour_hours)->Arg(2016)->Arg(4000008);
BENCHMARK_CAPTURE(run, vpd_plain, bench::vapour_plain)->Arg(2016)->Arg(4000008);

}  // namespace
