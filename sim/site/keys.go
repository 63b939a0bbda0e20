package site

import (
	"strings"

	"mottle/sim/crop"
)

// Keys is the list of the field file's keys with what may stand there, what
// stands in when a key is left out, and what it means. Values carry their unit;
// any unit of the kind will do ("1.1 m", "3.5 ft"). Of farm, yields, prices, costs and
// terms may each be a list of a low, a likely and a high value ("[4 USD/bu, 4.50 USD/bu,
// 6 USD/bu]"); what is left out then is the likely one of such a range. The columns are parted by two
// spaces or more.
var Keys = strings.Replace(keys, "CROPS", strings.Join(crop.Names(), ", "), 1)

const keys = `key                                   value            left out       meaning
name                                  text             -              name of the field
place                                 text             -              where it lies
invented                              true             false          the data are made up
latitude                              47 deg           weather's      north, 25 to 70
elevation                             300 m            weather's      above the sea
rain_read_at                          7 h              weather's      hour at which the gauge is read, 24 is midnight
soil.restrictive_layer                2 m              3 m            depth of the dense layer that ends the column
soil.relation                         cosby            saxton-rawls   from texture to water and conductivity: saxton-rawls, cosby
soil.conductivity_factor              0.5              1              factor on every conductivity
soil.lateral_over_vertical            2                1              conductivity along the layers over that across
soil.horizons[].name                  Ap               -              name of the horizon
soil.horizons[].from                  0 cm             needed         its top; each begins where the one above ends
soil.horizons[].to                    20 cm            needed         its bottom; the last reaches the restrictive layer
soil.horizons[].sand                  40 %             from others    share of the fine earth by mass; two of three are needed
soil.horizons[].silt                  40 %             from others    the same
soil.horizons[].clay                  20 %             from others    the same
soil.horizons[].organic_matter        3 %              1 %            share by mass
soil.horizons[].bulk_density          1.35 g/cm3       derived        dry mass over volume
soil.horizons[].ksat                  0.3 m/d          derived        saturated conductivity of the whole soil
soil.horizons[].structure             5                derived        ksat over the conductivity of the matrix
soil.horizons[].ece                   1 dS/m           0.5 dS/m       salinity of the saturation extract at the start
soil.horizons[].theta_r               0.05             derived        measured retention curve of van Genuchten: residual water
soil.horizons[].theta_s               0.45             derived        water at saturation; give all four and ksat, or none
soil.horizons[].alpha                 1.2 1/m          derived        inverse of the entry suction
soil.horizons[].n                     1.3              derived        exponent
soil.horizons[].water_33kpa           31 %             derived        measured water content at 33 kPa; give both or neither
soil.horizons[].water_1500kpa         17 %             derived        the same at 1500 kPa
surface.standing_water                15 mm            12 mm          depth that stands before it runs off
surface.crust                         2 mm/h           none           conductivity of a surface crust, or none
surface.residue                       30 %             40 %           ground under crop residue
surface.snow                          sheltered        open           what wind leaves: open, sheltered, swept
groundwater.kind                      seepage          regional       regional, seepage, closed: what lies below and around
groundwater.outside_level             1.4 m            1.4 m          regional: depth of the water outside
groundwater.resistance                1500 d           1500 d         regional, or with run_on: between the field and the water outside
groundwater.salinity                  2 dS/m           2 dS/m         regional, or with run_on: of ground water that comes in
groundwater.seepage                   0.5 mm/d         0.5 mm/d       seepage: the steady loss downwards
run_on                                none             none           surface water from land above a wet spot
run_on.area_ratio                     3                needed         area of that land over area of the field
run_on.standing_water                 5 mm             5 mm           depth that stands there before it runs off
run_on.outside_level                  2.5 m            2.5 m          depth of the water outside, below that land
run_on.horizons                       list             needed         its soil, keys as in soil.horizons
ditch                                 none             none           natural or dug outlet at a distance, kept with and without tile
ditch.depth                           1.2 m            needed         depth of its water level
ditch.distance                        150 m            needed         from the middle of the field
old_tile                              none             none           tile that lies there already, keys as in tile
tile                                  none             as below       tile to be judged
tile.depth                            3.5 ft           1.1 m          to the centre of the pipe
tile.spacing                          50 ft            15 m           between laterals
tile.diameter                         4 in             4 in           nominal, 75 to 152 mm (3 to 6 in)
tile.envelope                         sock             none           none, sock
tile.drainage_coefficient             0.5 in/d         0.5 in/d       what the outlet can carry off the area, or none for no limit
tile.outlet_water                     1.5 m            none           depth of the water level at the outlet, or none for a free fall
tile.weir                             none             -              list of periods in which a crest holds the outlet, or none
tile.weir[].from                      10-15            needed         first day, month-day
tile.weir[].to                        04-15            needed         last day
tile.weir[].crest                     0.4 m            needed         depth of the crest below the surface
crop                                  [corn, soybean]  corn, soybean  one crop, or a list by year: CROPS
evapotranspiration.method             hargreaves       auto           auto, penman-monteith, hargreaves
evapotranspiration.hargreaves_factor  0.88             0.88           factor on the published coefficient
storms.seed                           1                1              of the random storms that daily rain is spread over
storms.draw                           0                0              which draw of them
rain_salinity                         0.02 dS/m        0.02 dS/m      electrical conductivity of rain
farm.drained_area                     12 ac            10 ha          ground under the laterals
farm.field_area                       160 ac           -              the whole field, of which that is the wet spot
farm.crops.corn.best_yield            11 t/ha          by crop        what well drained ground bears; t/ha, corn and soybean also bu/ac; other crops likewise
farm.crops.corn.price                 165 USD/t        by crop        what it brings; USD/t, corn and soybean also USD/bu; of others none is known
farm.crops.corn.extra_cost            14 USD/t         by crop        of an added tonne or bushel: nutrients, hauling, drying; likewise
farm.laterals                         1.10 USD/ft      1.25 USD/ft    lateral of 4 in, installed; take a bid
farm.size_exponent                    1.8              1.8            price of installed pipe grows with diameter to this power
farm.mains                            list             -              mains and submains; without them mains_share stands for them
farm.mains[].length                   600 ft           needed         of a pipe of one size
farm.mains[].diameter                 6 in             needed         inside
farm.mains[].grade                    0.2 %            -              its fall; with it check says whether it carries the water
farm.mains[].submain                  true             false          it leads to another main
farm.mains_share                      20 %             25 %           mains, outlet and structures over the cost of laterals, where no mains are listed
farm.outlet                           3000 USD         1000 USD       outlet pipe, guard and riprap, each, where mains are listed
farm.outlets                          1                1              their number, where mains are listed
farm.lift                             none             none           pumps that raise the water to the outlet
farm.lift.height                      2 m              needed         through which they raise it
farm.lift.stations                    1                1              their number
farm.lift.station                     30000 USD        30000 USD      each, with its power
farm.lift.efficiency                  60 %             60 %           work done on the water over electricity taken in
farm.lift.electricity                 0.12 USD/kWh     0.12 USD/kWh   price of electricity
farm.control_structures               1                0              their number; 1 where tile has a weir
farm.control_structure                1000 USD         1000 USD       each
farm.engineering                      5 %              5 %            design and supervision over the cost of construction
farm.permits                          2000 USD         2000 USD       permits and survey
farm.upkeep                           0.75 %           0.75 %         of the first cost, a year
farm.interest                         5 %              5 %            a year, real: that of the loan, or of the next best use, less inflation
farm.life                             30 years         30 years       over which the system is judged
farm.replanting                       60 USD/ac        60 USD/ac      seed and passes on ground whose stand was drowned
`
