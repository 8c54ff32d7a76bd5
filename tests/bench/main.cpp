// The benchmarks of this folder (Google Benchmark's own options apply), or, for tests/bench/compare.py, their values:
//   sapdraw-bench --case FILE HOURS   writes inputs and outputs as doubles, column after column
#include <benchmark/benchmark.h>

#include <cstdio>
#include <cstring>
#include <string>

#include "air/vapour_hours.h"
#include "bench/et_kernel.h"
#include "bench/et_plain.h"

namespace {

bool write_case(const char* path, std::size_t hours) {
  const bench::Record record = bench::record(hours);
  using Column = std::vector<double>;
  Column fao56(hours), asce(hours), fao56_plain(hours), asce_plain(hours), es(hours), vpd(hours), es_plain(hours), vpd_plain(hours);
  bench::et_kernel(record, 0.6, fao56, asce);
  bench::et_plain(record, 0.6, fao56_plain, asce_plain);
  air::vapour_hours(record.temp_c, record.rh_pct, es, vpd);
  bench::vapour_plain(record.temp_c, record.rh_pct, es_plain, vpd_plain);
  std::FILE* file = std::fopen(path, "wb");
  if (file == nullptr) return false;
  bool written = true;
  for (const Column* column : std::initializer_list<const Column*>{&record.temp_c, &record.rh_pct, &record.wind_2m_m_s,
                                                                   &record.pressure_kpa, &record.shortwave_w_m2, &fao56, &asce, &es, &vpd,
                                                                   &fao56_plain, &asce_plain, &es_plain, &vpd_plain}) {
    written = written && std::fwrite(column->data(), sizeof(double), hours, file) == hours;
  }
  return std::fclose(file) == 0 && written;
}

}  // namespace

int main(int count, char** arguments) {
  if (count == 4 && std::strcmp(arguments[1], "--case") == 0) return write_case(arguments[2], std::stoul(arguments[3])) ? 0 : 1;
  benchmark::Initialize(&count, arguments);
  if (benchmark::ReportUnrecognizedArguments(count, arguments)) return 1;
  benchmark::RunSpecifiedBenchmarks();
  benchmark::Shutdown();
  return 0;
}
