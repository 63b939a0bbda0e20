package worth

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"mottle/sim/crop"
)

// warn lists the cautions that follow from the field and its results. They are no
// legal advice; rules change, and local codes and licensed practice decide.
func (r *Result) warn() {
	f := r.Field
	wet := 0.0
	for _, s := range r.AsItLies {
		wet += float64(s.Saturated) / float64(len(r.AsItLies))
	}
	salty := false
	for _, h := range f.Horizons {
		salty = salty || h.SalinityEC >= 4
	}
	lost := func(seasons []Season, c crop.Cause) (sum float64) {
		for _, s := range seasons {
			sum += s.Yield.Lost[c] / float64(len(seasons))
		}
		return sum
	}
	thirstier := lost(r.WithTile, crop.Dry) > lost(r.AsItLies, crop.Dry)+0.01
	alfalfa := slices.ContainsFunc(f.Rotation, func(k crop.Kind) bool { return k.Name == "alfalfa" })
	built := len(f.Farm.Mains) > 0 || f.Farm.LiftStations > 0
	main := mainFor(&f.Farm, f.Tile.Coefficient)
	small := len(f.Farm.Mains) > 0 && main > f.Farm.Mains[0].Diameter+1e-6
	noRelation := map[string]bool{}
	for _, s := range r.AsItLies {
		for _, loss := range s.Yield.Without {
			noRelation[s.Crop+" to "+loss] = true
		}
	}
	const ponded, trench, deepTrench = 14, 1.2, 1.5 // d, m, m

	add := func(when, strong bool, topic, text, rule string) {
		if when {
			r.Cautions = append(r.Cautions, Caution{topic, text, rule, strong})
		}
	}
	add(true, wet >= ponded || f.Runon != nil, "Wetland", "Before any tile near a wet spot, ask the federal conservation service for a certified determination; cropping ground drained after the rules' dates can end farm-program and crop-insurance help on all land farmed.", "16 U.S.C. 3821-3824; 7 CFR Part 12")
	add(true, false, "Setback", "Tile beside a wetland drains it sideways. The lateral distance printed here is a screening figure; the agency's own determination and tables decide.", "7 CFR 12.30")
	add(true, false, "Permits and drainage law", "Ask county, watershed or drainage district first: some want a permit above an area, a petition or a fee. Work in waters may need a federal permit.", "state drainage codes; Clean Water Act section 404")
	add(true, false, "Outlet", "The water needs a lawful outlet, and those below may have rights or have to grant an easement. Guard it against rodents, erosion and crushed pipe, and look at it every spring.", "state drainage law; conservation practice 606")
	add(true, false, "Utilities", "Have public lines located some days before digging (811), and private ones by yourself.", "state one-call laws")
	add(f.Tile.Depth >= trench, f.Tile.Depth >= deepTrench, "Trench", "From 1.2 m (4 ft) on a trench needs a way out, from 1.5 m (5 ft) a slope, shores or a shield, spoil set back and a competent person's look each day. Pits for connections are trenches too.", "29 CFR 1926.650-652")
	add(built, f.Farm.LiftStations > 0, "Engineer", "Mains, outlets into public water and pumps want the design of a licensed engineer.", "local codes")
	add(small, true, "Main too small", fmt.Sprintf("The first main listed carries less than the drainage coefficient asks off this area at its grade; %.0f mm would. The pair is run as if it did carry it.", main*1000), "Manning; conservation practice 606")
	add(len(noRelation) > 0, true, "Losses without a relation", "Nobody has published what these lose, and here they lose nothing: "+strings.Join(slices.Sorted(maps.Keys(noRelation)), "; ")+". The gain by tile is so much too small.", "")
	add(f.Old != nil, true, "Old tile", "The bill lays every lateral anew over the whole area. Where new ones only split the spacing of old ones, less is laid; old lines cut by the trench have to be joined.", "conservation practice 606")
	add(len(r.Years) < 15, true, "Short record", "Fewer than fifteen years hold neither the wettest nor the driest that are to be expected: the chances are those of these years.", "")
	add(true, false, "Costs not counted", "A crop that was never planted, or drowned and was not sown again, is charged in full: seed, fertilizer and passes saved are not credited. Pumps are not replaced within the years judged.", "")
	add(true, false, "Nitrate", "Drain water carries nitrate; the limit of drinking water is 10 mg N/L. Controlled drainage, buffers and bioreactors keep part of it back.", "40 CFR 141.62; practices 554, 604, 605")
	add(salty || f.Base.EC >= 4, salty, "Salt and sodium", "Test EC and SAR to 1.2 m before tiling. Rain on sodic soil freed of its salt seals it, and tile stops working: calcium first. This model has no sodium in it.", "Handbook 60; extension")
	add(alfalfa, false, "Roots", "Roots of perennial crops and of trees clog perforated pipe: wrap it, or lay it tight there.", "extension")
	add(thirstier, false, "Dry years", "Here dryness costs more with tile than without; a control structure keeps water back in dry years.", "practice 554")
	add(true, false, "Climate", "The past is no promise: spring rain and fieldwork days have shifted (Iowa from 48 to 35 days, 1964-2019).", "federal crop progress, as told by Iowa State University extension (2020)")
}
