// Open-Meteo forecast, archive and ensemble JSON.
//
// Time: with timezone=GMT or timeformat=unixtime labels are UTC. Otherwise the server writes every label of a reply with the one
// offset it states (utc_offset_seconds), even across a change of clocks, so UTC = label - offset; in zones off the full hour it reads
// the data at the offset cut to whole hours, so a label that would fall between hours belongs to the next full hour (Adelaide,
// offset 9:30: label 00:00 is 15:00 UTC, not 14:30). A warning says where a reader of wall clocks would have gone wrong.
// Hours: labels end the hour for radiation (mean), precipitation (sum), gusts and chance (maximum); all else is an instant.
// Members: columns `..._memberNN` become Forecast::members, rising NN; a member has only the columns of its own run.
// Soil: by the depths in the column's name. Where the three top layers 0-1, 1-3, 3-9 cm are equal at every hour they are one layer of a
// coarser model: merged to 0-10 cm (and 9-27 to 10-40, 27-81 to 40-100) with a warning.
// Thunder: weather code 95-99 is 100 %, any other 0. Vapour pressure deficit and reference evapotranspiration are not read: we compute
// them.
#pragma once
#include <vector>

#include "feeds/json_node.h"
#include "feeds/read.h"

namespace feeds {

[[nodiscard]] bool is_open_meteo(const JsonNode& root);
[[nodiscard]] units::Result<std::vector<weather::Forecast>> read_open_meteo(const JsonNode& root, const ReadOptions& options);

}  // namespace feeds
