// sapdraw-skill FIT.csv --lat --lon --elevation-m --label starts|ends [--no-soil-water] --out PRED.csv
// Fits the demand of src/sapflow to `target` where it is given, and writes 10 %, 50 % and 90 % for every hour with enough weather.
#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>

#include "app/files.h"
#include "app/outcome.h"
#include "app/sapflow_record.h"
#include "params/directory.h"
#include "sapflow/predict.h"

namespace {

struct Options {
  std::string record, out, label = "ends", vpd = "jarvis", coupling = "big-leaf", soil = "probe";
  double lat = 0.0, lon = 0.0, elevation_m = 0.0;
  bool no_soil_water = false, no_lag = false, one_level = false, show = false;
};

int refuse(const units::Fault& fault) {
  std::cerr << fault.line() << '\n';
  return static_cast<int>(app::Exit::bad_input);
}

void show(const sapflow::Demand& d) {
  std::cout << "conductance " << d.conductance_cm_s << " aerodynamic " << d.aerodynamic_cm_s << " slope " << d.vpd_slope << " floor "
            << d.vpd_floor << " g1 " << d.medlyn_g1_sqrt_kpa << " half " << d.jarvis_half_kpa << " steepness " << d.jarvis_steepness
            << " light " << d.light_half_w_m2 << " temp_low " << d.temp_low_c << " knee " << d.rew_knee << " dark " << d.dark_share
            << " lag " << d.lag_h << '\n';
}

int run(const Options& options) {
  const auto directory = params::find_models_directory({std::nullopt, std::filesystem::read_symlink("/proc/self/exe").parent_path()});
  if (!directory) return refuse(directory.error());
  auto models = params::load_models(*directory);
  if (!models) return refuse(models.error());
  const auto content = app::read_file(options.record);
  if (!content) return refuse(content.error());
  app::RecordOptions asked;
  asked.site = {units::Degrees{options.lat}, units::Degrees{options.lon}, units::Metres{options.elevation_m}};
  asked.labels_start_hour = options.label == "starts";
  asked.soil_water = options.no_soil_water       ? app::SoilWater::none
                     : options.soil == "balance" ? app::SoilWater::balance
                                                 : app::SoilWater::probe_or_balance;
  const auto record = app::read_sapflow_record(options.record, *content, *models, asked);
  if (!record) return refuse(record.error());
  sapflow::Form form;
  form.vpd = options.vpd == "oren" ? tree::VpdForm::oren : options.vpd == "medlyn" ? tree::VpdForm::medlyn : tree::VpdForm::jarvis;
  form.coupling = options.coupling == "stirred" ? sapflow::Coupling::stirred : sapflow::Coupling::big_leaf;
  form.soil_water = !options.no_soil_water;
  form.lag = !options.no_lag;
  if (options.one_level) models->sapflow.noise.drift_ln_sd = models->sapflow.noise.tree_season_ln_sd = 0.0;
  const auto prediction = sapflow::predict(models->tree.stomata, models->sapflow, form, record->hours, record->samples);
  if (options.show) show(prediction.demand);
  if (const auto written = app::write_file(options.out, app::sapflow_csv(*record, prediction)); !written) return refuse(written.error());
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  Options options;
  CLI::App app{"Fits a sap-flow record's demand and writes a range for every hour."};
  app.add_option("record", options.record, "what score.py prepare writes")->required();
  app.add_option("--lat", options.lat)->required();
  app.add_option("--lon", options.lon)->required();
  app.add_option("--elevation-m", options.elevation_m)->required();
  app.add_option("--label", options.label, "whether a row's time starts or ends its hour")->check(CLI::IsMember({"starts", "ends"}));
  app.add_flag("--no-soil-water", options.no_soil_water, "hold relative extractable water at 1");
  app.add_option("--out", options.out)->required();
  app.add_option("--vpd", options.vpd, "form of the response to dry air")->check(CLI::IsMember({"oren", "medlyn", "jarvis"}));
  app.add_option("--coupling", options.coupling)->check(CLI::IsMember({"stirred", "big-leaf"}));
  app.add_option("--soil", options.soil, "the record's own probe, or the water balance of a loam")
      ->check(CLI::IsMember({"probe", "balance"}));
  app.add_flag("--no-lag", options.no_lag, "flow follows the leaves at once");
  app.add_flag("--one-level", options.one_level, "no drift of the level");
  app.add_flag("--show", options.show, "print the fitted parameters");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& wrong) {
    return app.exit(wrong) == 0 ? 0 : static_cast<int>(app::Exit::wrong_use);
  }
  return run(options);
}
