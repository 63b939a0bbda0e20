package trial

// Keys is the list of the case file's keys: what may stand there, what stands in
// when a key is left out, and what it means. The columns are parted by two spaces
// or more.
const Keys = `key                        value        left out   meaning
title                      text         -          what the case is
horizons[].to              40 cm        needed     bottom of the layer, from the surface
horizons[].form            exponential  needed     van genuchten, brooks-corey, haverkamp
horizons[].theta_r         0.05         0          residual water
horizons[].theta_s         0.43         needed     water at saturation
horizons[].ksat            0.25 m/d     needed     saturated conductivity
horizons[].alpha           3.6 1/m      needed     van genuchten, exponential
horizons[].n               1.56         needed     van genuchten: exponent
horizons[].l               0.5          0.5        van genuchten: Mualem's exponent
horizons[].air_entry       2 cm         0 cm       suction; brooks-corey needs it
horizons[].lambda          0.33         needed     brooks-corey: pore-size index
horizons[].a               1611000      needed     haverkamp, for suction in cm
horizons[].b               3.96         needed     haverkamp: exponent
horizons[].log             true         false      haverkamp: theta by ln of suction
horizons[].ka              1175000      needed     haverkamp: A of conductivity
horizons[].kb              4.74         needed     haverkamp: its exponent
horizons[].sand            40 %         40 %       share of fine earth, for heat
horizons[].organic_matter  1 %          1 %        share by mass, for heat
horizons[].ece             2 dS/m       0 dS/m     saturation extract, at the start
grid.cells                 40           -          equal cells; or the three below
grid.thinnest              5 mm         -          cell at the surface
grid.thickest              10 cm        -          cell at which growth ends
grid.growth                1.25         -          ratio of a cell to the one above
initial.water_table        1 m          -          one of four: hydrostatic about a table
initial.head               -3 m         -          one head everywhere
initial.water              0.2          -          one water content everywhere
initial.heads[].depth      0 m          -          heads by depth, linear between
initial.heads[].head       -1 m         -          the same
initial.temperature        5 C          -          turns frost on; needs top[].surface
standing_water             0 mm         0 mm       depth that stands before it runs off
top[].until                10 h         -          end of the period; the last has none
top[].rain                 5 mm/h       -          one of three: what arrives
top[].head                 -20 cm       -          held head
top[].evaporation          5 mm/d       -          what the air asks for
top[].driest               -150 m       no limit   with evaporation: driest surface head
top[].surface              -10 C        -          temperature of the surface, for frost
base.kind                  gravity      needed     gravity, closed, head, water table
base.head                  -1 m         needed     with head: held head
base.depth                 1.5 m        needed     with water table: its depth, held
drain.depth                1 m          needed     to its centre; no section, no drain
drain.spacing              15 m         needed     between drains
drain.radius               5 mm         needed     effective radius
times                      [1 h, 2 h]   needed     when the state is written
`
