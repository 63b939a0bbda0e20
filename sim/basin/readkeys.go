package basin

// Keys is the list of the basin file's keys: what may stand there, what stands in
// when a key is left out, and what it means. Keys that say "as in the field file"
// hold the keys that stand there. Paths are relative to the basin file. Lists of
// texts may also be one text with entries parted by commas or semicolons. The columns
// are parted by two spaces or more.
const Keys = `key                            value              left out         meaning
name                           text               -                name of the basin
place                          text               -                where it lies
invented                       true               false            the data are made up
latitude                       47 deg             weather's        as in the field file
elevation                      300 m              weather's        as in the field file
rain_read_at                   7 h                weather's        as in the field file
evapotranspiration             keys               as there         as in the field file
storms                         keys               as there         as in the field file
rain_salinity                  0.02 dS/m          as there         as in the field file
units                          units.csv          needed           table of land units: CSV, or GeoJSON with the same names
ignore                         [OBJECTID, notes]  -                columns of that table that serve other uses
reaches                        reaches.csv        none             table of ditches and streams, or a list with keys as its columns
soils[].name                   lake clay          needed           by which units name it
soils[].soil                   keys               one of three     horizons and all else, as in the field file
soils[].file                   clay.yaml          one of three     a field file: its soil, surface, groundwater, ditch
soils[].survey                 survey.csv         one of three     a soil survey's table of horizons
soils[].map_unit               100234             the first        with survey: key or name of the map unit
soils[].component              Example            the largest      with survey: key or name of the component
soils[].surface                keys               as there         as in the field file, not with file
soils[].groundwater            keys               as there         as in the field file, not with file
soils[].ditch                  keys               none             as in the field file, not with file
stations[].name                north              needed           by which units name it
stations[].weather             north.csv          needed           a daily record, or demo
stations[].station             USW00000000        the only one     of a record that holds several
stations[].hourly              north-hours.csv    none             hours of rain beside the daily record
defaults.tile                  keys               as there         what units and scenarios lay, as in the field file
defaults.cover                 [corn, soybean]    -                crops by year of units that name none
defaults.station               north              the only one     station of units that name none
scenarios[].name               proposed           needed           what the results are called by
scenarios[].drained            listed             today            today, none, all, wettest first, lowest first, listed
scenarios[].drained_share      60 %               needed           with wettest, lowest first: share of the drainable land
scenarios[].drained_units      [U12, north]       needed           with listed: ids or groups, beside those drained today
scenarios[].tile               keys               the unit's       what is laid where none lies, as in the field file
scenarios[].controlled_units   [U12, north]       none             ids or groups that get a weir where they are drained
scenarios[].controlled_share   50 %               none             or a share of the drained land, the flattest first
scenarios[].weir               list               needed           with either: its calendar, as tile.weir in the field file
scenarios[].wetland_units      [U40, hollows]     none             ids or groups without tile, under grass, that store water
scenarios[].wetland_storage    0.3 m              needed           with wetland_units: depth that stands there
`

// Columns is the list of the columns of units and of reaches. A quantity carries
// its unit in the column's name (area_ha), or the column has the plain name and each
// cell its unit (40 ac). Columns are parted by two spaces or more.
const Columns = `of units            or                              left out        meaning
id                  -                               needed          of the unit; reaches have other ones
group               -                               -               any word by which scenarios name several units
area                area_ha _ac _m2 _km2 _mi2       the outline's   of the land
soil                -                               needed          a name under soils
cover               crop                            the default     crops by year, parted by ; or ,
slope               slope_percent                   needed          of the land along the way of the water
drained             -                               needed          yes, no: whether tile lies there today
tile_depth          tile_depth_m _cm _mm _ft _in    the default     of that tile, or of tile that a scenario lays
tile_spacing        tile_spacing_m _ft              the default     the same
storage             storage_m _cm _mm _ft _in       the soil's      depth that stands before it runs off
to                  drains_to                       needed          a unit, a reach, or outlet
length              length_m _ft                    needed          way of the water to there
station             -                               the default     a name under stations
elevation           elevation_m _ft                 -               needed where a scenario drains the lowest first

of reaches          or                              left out        meaning
id                  -                               needed          of the reach
to                  drains_to                       needed          a reach, or outlet
length              length_m _ft                    needed          of the bed
slope               slope_percent                   needed          of the bed
width               width_m _ft                     needed          of the bed
roughness           -                               needed          Manning's n
pond_area           pond_area_ha _ac _m2 _km2 _mi2  no pond         water surface of a pond at the lower end
pond_depth          pond_depth_m _ft                with a pond     from its outlet to the brim
pond_outlet         pond_outlet_m3_s _cfs           with a pond     what its outlet carries when it is full
outlet_capacity     outlet_capacity_m3_s _cfs       no limit        most that leaves at the lower end
outlet_coefficient  outlet_coefficient_mm_d _in_d   no limit        the same by the land above
`
