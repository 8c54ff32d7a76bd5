// sapdraw-soil-skill FIT.csv --out PRED.csv [--generic | --texture CLASS]
// Follows the water of the ground at every station of the record and writes it seven days after each issue day.
#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <optional>

#include "app/files.h"
#include "app/outcome.h"
#include "app/plot_records.h"
#include "params/directory.h"

namespace {

struct Options {
  std::string record, out;
  std::optional<std::filesystem::path> models;
  std::string texture;
  bool generic = false;
};

int refuse(const units::Fault& fault) {
  std::cerr << fault.line() << '\n';
  return static_cast<int>(app::Exit::bad_input);
}

int run(const Options& options) {
  const auto directory = params::find_models_directory({options.models, std::filesystem::read_symlink("/proc/self/exe").parent_path()});
  if (!directory) return refuse(directory.error());
  const auto models = params::load_models(*directory);
  if (!models) return refuse(models.error());
  const auto content = app::read_file(options.record);
  if (!content) return refuse(content.error());
  const auto stations = app::read_plot_records(options.record, *content);
  if (!stations) return refuse(stations.error());
  const app::PlotFit fit = !options.texture.empty() ? app::PlotFit::texture : options.generic ? app::PlotFit::generic : app::PlotFit::own;
  std::string text = "station,date,swc_0_35\n";
  for (const app::Station& station : *stations) {
    const auto theta = app::week_ahead(*models, station, fit, options.texture.empty() ? "loam" : options.texture);
    if (!theta) return refuse({"station " + station.name + ": " + theta.error().where, theta.error().found, theta.error().expected});
    text += app::week_ahead_csv(station, *theta);
  }
  if (const auto written = app::write_file(options.out, text); !written) return refuse(written.error());
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  Options options;
  CLI::App app{"Fits soil-moisture records and writes the water of the ground seven days after each issue day."};
  app.add_option("record", options.record, "what score.py prepare writes")->required();
  app.add_option("--out", options.out)->required();
  app.add_option("--texture", options.texture, "a texture class for all stations, whatever range they showed");
  app.add_flag("--generic", options.generic, "parameters common to all stations")->excludes("--texture");
  app.add_option("--models", options.models, "folder of the parameters");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& wrong) {
    return app.exit(wrong) == 0 ? 0 : static_cast<int>(app::Exit::wrong_use);
  }
  return run(options);
}
