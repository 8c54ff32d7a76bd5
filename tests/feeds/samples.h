// Small invented inputs in the four shapes, for tests that need one whole input of each kind.
#pragma once
#include <string_view>

namespace samples {

inline constexpr std::string_view open_meteo =
    R"({"latitude":44.2,"longitude":-93.4,"utc_offset_seconds":0,"timezone":"GMT","elevation":300.0,
 "hourly_units":{"time":"unixtime","temperature_2m":"°F","relative_humidity_2m":"%","dew_point_2m":"°C","precipitation":"inch",
  "precipitation_probability":"%","cloud_cover":"%","shortwave_radiation":"W/m²","wind_speed_10m":"km/h","wind_gusts_10m":"mp/h",
  "surface_pressure":"hPa","weather_code":"wmo code","vapour_pressure_deficit":"kPa","cape":"J/kg",
  "soil_moisture_0_to_10cm":"m³/m³","soil_temperature_0_to_10cm":"°C","soil_moisture_10_to_40cm":"m³/m³"},
 "hourly":{"time":[1783335600,1783339200,1783342800],"temperature_2m":[68,null,77],"relative_humidity_2m":[60,55,50],
  "dew_point_2m":[12.0,11.5,-0],"precipitation":[0,0.1,null],"precipitation_probability":[5,10,null],"cloud_cover":[0,50,100],
  "shortwave_radiation":[500.5,600,700],"wind_speed_10m":[3.6,7.2,10.8],"wind_gusts_10m":[10,20,30],"surface_pressure":[980.0,981.5,982],
  "weather_code":[3,95,null],"vapour_pressure_deficit":[1,1,1],"cape":[0,0,0],
  "soil_moisture_0_to_10cm":[0.25,0.24,null],"soil_temperature_0_to_10cm":[20,21,22],"soil_moisture_10_to_40cm":[0.3,0.3,0.3]}})";

inline constexpr std::string_view nws_grid = R"({"type":"Feature",
 "geometry":{"type":"Polygon","coordinates":[[[-93.4,44.2],[-93.4,44.4],[-93.2,44.4],[-93.2,44.2],[-93.4,44.2]]]},
 "properties":{"updateTime":"2026-07-06T09:00:00+00:00","validTimes":"2026-07-06T06:00:00+00:00/P1D",
  "elevation":{"unitCode":"wmoUnit:m","value":300.5},"gridId":"MAP","gridX":"12","gridY":34,
  "temperature":{"uom":"wmoUnit:degC","values":[{"validTime":"2026-07-06T06:00:00+00:00/PT2H","value":18.5},{"validTime":"2026-07-06T08:00:00+00:00/P1DT1H","value":26.11111111111111}]},
  "dewpoint":{"uom":"unit:degC","values":[{"validTime":"2026-07-06T06:00:00+00:00/PT3H","value":0},{"validTime":"2026-07-06T09:00:00+00:00/PT1H","value":null}]},
  "relativeHumidity":{"uom":"wmoUnit:percent","values":[{"validTime":"2026-07-06T06:00:00+00:00/PT12H","value":77}]},
  "maxTemperature":{"uom":"wmoUnit:degC","values":[{"validTime":"2026-07-06T06:00:00+00:00/PT13H","value":99}]},
  "windSpeed":{"uom":"wmoUnit:km_h-1","values":[{"validTime":"2026-07-06T06:00:00+00:00/PT6H","value":18}]},
  "windGust":{"uom":"m_s-1","values":[{"validTime":"2026-07-06T06:00:00+00:00/PT2H","value":9}]},
  "skyCover":{"uom":"wmoUnit:percent","values":[]},
  "heatRisk":{"values":[{"validTime":"soon","value":"much"}]},
  "probabilityOfPrecipitation":{"uom":"wmoUnit:percent","values":[{"validTime":"2026-07-06T06:00:00+00:00/PT6H","value":30}]},
  "quantitativePrecipitation":{"uom":"wmoUnit:mm","values":[{"validTime":"2026-07-06T06:00:00+00:00/PT6H","value":3},{"validTime":"2026-07-06T12:00:00+00:00/PT1H","value":2}]},
  "probabilityOfThunder":{"values":[{"validTime":"2026-07-06T06:00:00+00:00/PT6H","value":15}]},
  "weather":{"values":[
   {"validTime":"2026-07-06T06:00:00+00:00/PT3H","value":[{"coverage":null,"weather":null,"intensity":null,"attributes":[]}]},
   {"validTime":"2026-07-06T09:00:00+00:00/PT3H","value":[{"coverage":"chance","weather":"rain_showers"},{"coverage":"chance","weather":"thunderstorms"}]},
   {"validTime":"2026-07-06T12:00:00+00:00/PT2H","value":[{"coverage":"areas","weather":"thunderstorms"}]}]}}})";

inline constexpr std::string_view met_norway = R"({"type":"Feature","geometry":{"type":"Point","coordinates":[-93.4,44.2,300]},
 "properties":{"meta":{"updated_at":"2026-07-06T10:30:00Z","units":{"air_pressure_at_sea_level":"hPa","air_temperature":"celsius","cloud_area_fraction":"%",
  "precipitation_amount":"mm","relative_humidity":"%","wind_speed":"m/s"}},"timeseries":[
  {"time":"2026-07-06T11:00:00Z","data":{"instant":{"details":{"air_pressure_at_sea_level":1013.0,"air_temperature":20,"cloud_area_fraction":10,"relative_humidity":60,"wind_speed":2}},
   "next_1_hours":{"summary":{"symbol_code":"fair_day"},"details":{"precipitation_amount":0.5}},"next_6_hours":{"summary":{"symbol_code":"heavyrainandthunder"},"details":{"precipitation_amount":60}}}},
  {"time":"2026-07-06T12:00:00Z","data":{"instant":{"details":{"air_temperature":22,"relative_humidity":55}},
   "next_6_hours":{"summary":{"symbol_code":"lightrainshowersandthunder_day"},"details":{"precipitation_amount":6}}}},
  {"time":"2026-07-06T18:00:00Z","data":{"instant":{"details":{"air_temperature":28,"relative_humidity":40}}}}]}})";

inline constexpr std::string_view station_csv =
    "# yard gauge, invented\n"
    "rain_mm,time_utc,temp_c,dew_point_c,shortwave_w_m2,wind_gust_m_s,soil_moisture_m3_m3\n"
    "0.2,2026-07-06T11:00Z,20.5,12,,4,0.21\n"
    ",2026-07-06T12:00,21,12.5,610.5,,\n"
    "0,2026-07-06T14:00:00+00:00,22,13,650,5,0.20\n";

inline constexpr std::string_view trees_csv =
    "tree,name,species,dbh_cm,lat,lon,elevation_m,zone,soil,dose_l,leave_by\n"
    "elm-1,\"The \"\"big\"\" elm, north\",Ulmus americana,95,44.2,-93.4,300,America/Chicago,clay_loam,,17:30\n"
    "oak-1,Front oak,red oak,62.5,44.2,-93.4,300,America/Chicago,loam,110,\n";

}  // namespace samples
