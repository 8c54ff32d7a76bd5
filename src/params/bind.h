// From one file of models/ to the structs of the pure folders: names, units, and what must hold between values.
// Each leaves the first fault in `Section::reading`, and zeros where it stopped.
#pragma once
#include "params/section.h"

namespace params {

void bind_references(Section& file, std::vector<Reference>& references);
void bind_tree(Section& file, tree::Parameters& tree);
void bind_sapflow(Section& file, sapflow::Parameters& sapflow);
void bind_ports(Section& file, uptake::PortParameters& ports);
void bind_soils(Section& file, std::vector<soil::Texture>& textures, soil::Parameters& root_zone, soil::PlotParameters& plot);
void bind_practice(Section& file, days::Practice& practice, book::PlaceRules& port_places);
void bind_office(Section& file, book::OfficeTerms& office, book::DeliveryTerms& sending);
void bind_plan(Section& file, plan::Planning& planning);
void bind_holds(Section& file, days::HoldLimits& holds);
void bind_weather_error(Section& file, days::WeatherError& error);
// Species take P50 and Huber ratio from `tree` where the file gives them none.
void bind_species(Section& file, const tree::Parameters& tree, std::vector<tree::Species>& species, std::vector<Unanswered>& unanswered);

}  // namespace params
