package hood

import (
	"math"
	"math/rand/v2"
	"os"
	"sort"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// apartBy returns the least distance of two paths, by points of the first
// every half millimeter.
func apartBy(a, b arc.Path) float64 {
	best := math.Inf(1)
	for i := range a.NumSegments() {
		s := a.Segment(i)
		n := 1 + int(2*s.Length())
		for j := range n + 1 {
			p, _ := s.At(s.Length() * float64(j) / float64(n))
			best = math.Min(best, b.Distance(p))
		}
	}
	return best
}

// middles returns the middles of slots and tabs of a part across the hood.
func middles(p Part, name string) []float64 {
	var out []float64
	for _, e := range p.Edges {
		if e.Name == name {
			b := e.Show.Bounds()
			out = append(out, p.Pose.Point(r2.Scale(0.5, r2.Add(b.Min, b.Max)), 0).X)
		}
	}
	sort.Float64s(out)
	return out
}

// Where tabs and pins are, from the text of the keys: the deck of the demo is
// 1012 mm wide between the sides; a tab's slot keeps half a board, or three
// reliefs for the tab's own, from them.
func TestPlacesOfTabsAndPins(t *testing.T) {
	s := registered()
	d, err := Build(s)
	require.NoError(t, err)
	deck, _ := d.Part("deck")
	back, _ := d.Part("back")
	r := 9.525 / 2 * 1.01
	end := 506 - 18 - 0.1 - math.Max(9.5, 3*r)
	n := math.Ceil(2 * end / 240)
	var want []float64
	for i := range int(n) + 1 {
		want = append(want, end*(2*float64(i)/n-1))
	}
	assert.InDeltaSlice(t, want, middles(deck, "tab"), 1e-9)
	assert.InDeltaSlice(t, want, middles(back, "slot"), 1e-9)

	// Five pins or more in the middle of the 61 mm of cleat above its bevel.
	cleat, _ := d.Part("cleat")
	half := 506 - 10.1/2 - 9.5
	count := int(math.Ceil(2*half/260)) + 1
	require.Len(t, cleat.Work.Pockets, count)
	require.Len(t, back.Work.Pockets, count)
	for i, k := range cleat.Work.Pockets {
		b := k.Area.Bounds()
		at := cleat.Pose.Point(r2.Scale(0.5, r2.Add(b.Min, b.Max)), 19)
		assert.InDelta(t, half*(2*float64(i)/float64(count-1)-1), at.X, 1e-9)
		assert.InDelta(t, 860-19-61./2, at.Y, 1e-9)
		assert.InDelta(t, 19, at.Z, 1e-9) // the back's rear face
		assert.InDelta(t, 10.1, b.Max.X-b.Min.X, 1e-9)
		assert.Equal(t, 8.0, k.Depth)
	}
	// None: nothing of it.
	s.Tabs, s.Pins = Tabs{Clearance: 0.2, Spacing: 300}, Pins{Depth: 8, Spacing: 200}
	d, err = Build(s)
	require.NoError(t, err)
	for _, p := range d.Parts {
		assert.Empty(t, middles(p, "tab"))
		assert.Empty(t, middles(p, "slot"))
		if p.Name == "back" || p.Name == "cleat" || p.Name == "liner-shelf" {
			assert.Empty(t, p.Work.Pockets)
		}
	}
}

// A tab whose slot would meet an opening is moved by an eighth of the spacing,
// and where that does not help left out.
func TestTabsGiveWayToOpenings(t *testing.T) {
	s := registered()
	d, err := Build(s)
	require.NoError(t, err)
	shelf, _ := d.Part("liner-shelf")
	free := middles(shelf, "tab")
	pitch := free[1] - free[0]
	at := free[2]
	s.Back.Openings = append(s.Back.Openings, Opening{Shape: "circle", X: at, Y: 61, Diameter: 3}) // over the shelf
	d, err = Build(s)
	require.NoError(t, err)
	shelf, _ = d.Part("liner-shelf")
	moved := middles(shelf, "tab")
	require.Len(t, moved, len(free))
	assert.InDelta(t, at+pitch/8, moved[2], 1e-7, "clear of a cable and its wood by an eighth of the spacing")
	s.Back.Openings[1] = Opening{Shape: "circle", X: at, Y: 105, Diameter: 90}
	d, err = Build(s)
	require.NoError(t, err)
	shelf, _ = d.Part("liner-shelf")
	assert.Len(t, middles(shelf, "tab"), len(free)-1)
	deck, _ := d.Part("deck")
	assert.Len(t, middles(deck, "tab"), len(free), "the deck's are not concerned")

	// An opening across the whole back leaves no place for any.
	s.Back.Openings[1] = Opening{Shape: "rectangle", Y: 80, Width: 1000, Height: 40}
	_, err = Build(s)
	assert.Contains(t, params(err), "tabs.width")
}

// Around every slot and hole there is wood, by brute force, wherever openings
// are.
func TestWoodAroundSlotsAndHoles(t *testing.T) {
	n := 60
	if testing.Short() {
		n = 12
	}
	if os.Getenv("SAGITTA_FULL") == "1" {
		n = 1500
	}
	r := rand.New(rand.NewPCG(5, 9))
	built, slots, holes := 0, 0, 0
	for range n {
		s := registeredSpecs()[r.IntN(6)]
		s.Back.Openings = nil
		for range 1 + r.IntN(4) {
			size := 15 + 100*r.Float64()
			low, high := 60+size/2, 640-size/2 // between shelf and cleats, near the shelf rather
			o := Opening{Shape: "circle", X: (r.Float64() - 0.5) * 700, Y: low + (high-low)*math.Pow(r.Float64(), 3), Diameter: size}
			if r.IntN(2) == 0 {
				o = Opening{Shape: "rectangle", X: o.X, Y: o.Y, Width: 15 + 100*r.Float64(), Height: size}
			}
			s.Back.Openings = append(s.Back.Openings, o)
		}
		d, err := Build(s)
		if err != nil {
			var f Faults
			require.ErrorAs(t, err, &f)
			continue
		}
		built++
		wood := s.Board.Thickness/2 - 1e-9
		for _, p := range d.Parts {
			if p.Name != "back" && p.Name != "liner-shelf" && p.Name != "cleat" && p.Name != "deck" {
				continue
			}
			var edges []arc.Path // every cut, openings of the spec last
			edges = append(edges, p.Outline.Outer)
			asked := len(s.Back.Openings)
			if p.Name != "back" {
				asked = len(p.Outline.Holes)
			}
			openings := p.Outline.Holes[:asked]
			var own []arc.Path
			own = append(own, p.Outline.Holes[asked:]...)
			for _, k := range p.Work.Pockets {
				own = append(own, k.Area.Outer)
			}
			slots += len(own)
			edges = append(edges, openings...)
			for i, a := range own {
				for _, b := range append(edges, own[:i]...) {
					assert.GreaterOrEqual(t, apartBy(a, b), wood, p.Name)
				}
			}
			for _, e := range p.Edges { // open slots, and tabs with the wood behind them
				if e.Name != "slot" && e.Name != "tab" {
					continue
				}
				holes++
				for _, b := range append(openings[:len(openings):len(openings)], own...) {
					assert.GreaterOrEqual(t, apartBy(e.Show, b), wood, "%s %s", p.Name, e.Name)
				}
			}
		}
	}
	t.Logf("%d of %d built, %d slots and holes, %d open slots and tabs", built, n, slots, holes)
	assert.Greater(t, built, n/3)
	assert.Greater(t, slots, 2*n)
}
