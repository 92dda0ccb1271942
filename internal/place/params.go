package place

// The settings of the search, found by trials on the open sets.
const (
	closeRange = 0.5  // how far around its place a copy is tried, as a part of its size
	kept       = 3    // samples that are improved
	coarseStep = 0.02 // last step of their improvement, as a part of the size
	fineStep   = 1e-3 // last step of the best one's improvement

	grow  = 1.2  // weight factor of a barely colliding pair per sweep
	grow2 = 1.5  // of the worst pair
	decay = 0.97 // of a free pair

	minPatience = 60 // sweeps of a separation without a better layout, where the budget is small
	maxPatience = 200
	patienceOf  = 40 // share of the budget's sweeps between these, inverse
	strikes     = 3  // how often, before it is given up

	reach      = 0.02 // where the severity of two circles begins to fade, by their items' mean size
	maxPoles   = 48   // circles of an item
	manyItems  = 100  // more than so many get
	fewPoles   = 20   // circles only,
	crowdItems = 300  // and more than so many, most of whose pairs meet but once or twice,
	leastPoles = 8    // so many
	poleShare  = 0.85 // of the area, where the circles need not cover more
	rasterRes  = 32   // cells along a pair table
)

// samples are the places tried per move: over the whole rectangle, on the rims
// of no-fit regions, around the present place.
type samples struct{ wide, rim, close int }

func (p *problem) draws() samples {
	if p.rims {
		return samples{15, 15, 15}
	}
	return samples{40, 0, 20}
}
