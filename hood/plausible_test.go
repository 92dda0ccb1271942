package hood

import (
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// plausible draws a spec as a shop might write it, mm: sizes of kitchens, boards
// of the trade, and every optional key with probability one half.
func plausible(r *rand.Rand) Spec {
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	maybe := func() bool { return r.IntN(2) == 0 }
	s := Spec{
		Width: between(700, 1300), Height: between(650, 1050), Depth: between(450, 640),
		Board: Board{Material: []string{"mdf", "plywood", "birch plywood"}[r.IntN(3)], Thickness: pick3(r, 16, 18, 19)},
		Back:  Back{Material: "plywood", Thickness: pick3(r, 6, 9, 12)},
		Bend:  Bend{KerfWidth: pick3(r, 2.4, 3.175, 3.2), Web: pick3(r, 1.6, 2), Facet: pick3(r, 0.1, 0.2, 0.3)},
		Cut:   Cut{Gap: pick3(r, 8, 10, 12), Margin: 10, Tool: pick3(r, 6, 6.35, 8, 9.525)},
	}
	s.Neck.Depth = s.Depth * between(0.45, 0.75)
	if maybe() {
		s.Skirt = between(70, 200)
	}
	chord := s.Height - s.Skirt
	sweep := func() Sweep {
		w := Sweep{Shape: []string{"straight", "cove", "cove", "bow", "ogee", "reverse-ogee"}[r.IntN(6)]}
		if w.TakesSag() {
			w.Sag = chord * between(0.01, 0.09) / float64(len(w.Signs()))
		}
		return w
	}
	s.Sweep = sweep()
	if maybe() { // flared
		s.Neck.Width = s.Width * between(0.45, 0.9)
		s.SideSweep = sweep()
		if maybe() {
			s.LeftSweep = sweep()
		}
		if maybe() {
			s.Neck.Offset = (s.Width - s.Neck.Width) / 2 * between(-0.9, 0.9)
		}
	} else if maybe() {
		s.Corner = []string{"miter", "front-covers", "cheek-covers"}[r.IntN(3)]
	}
	if maybe() {
		s.Bend.Strain = between(0.006, 0.015)
	}
	if r.IntN(4) == 0 {
		s.Bend.Method, s.Bend.Ply = "laminate", Ply{Material: "mdf", Thickness: s.Board.Thickness / float64(3+r.IntN(4))}
		s.Bend.Strain = between(0.008, 0.015)
	}
	if maybe() {
		s.Back.Rabbet = between(0.3, 0.6) * s.Board.Thickness
	}
	if maybe() {
		s.Back.Clearance = between(0.2, 0.8)
	}
	if maybe() {
		s.Cleat = Cleat{Height: between(60, 100)}
	}
	if maybe() {
		s.Back.Openings = []Opening{{Shape: "circle", X: between(-60, 60), Y: s.Height * between(0.3, 0.75), Diameter: between(60, 160)}}
	}
	if maybe() {
		s.Duct.Diameter = pick3(r, 125, 150, 160)
	}
	if maybe() {
		s.Liner = Liner{Length: s.Width * between(0.5, 0.7), Width: s.Depth * between(0.45, 0.65)}
		if s.Skirt > 0 && maybe() {
			s.Liner.Y = between(15, 40)
		}
	}
	if maybe() {
		s.Ribs = Ribs{Spacing: between(250, 450), Depth: between(40, 70), Clearance: pick3(r, 0, 0.3)}
	}
	if s.Corner != "cheek-covers" && maybe() {
		s.Dado = Dado{Depth: between(3, 7), Clearance: pick3(r, 0, 0.3)}
	}
	if s.Skirt > s.Liner.Y+3*s.Board.Thickness && maybe() {
		s.Blocks = Blocks{Leg: between(40, 80)}
	}
	if maybe() {
		s.Tabs = Tabs{Width: between(30, 60), Clearance: pick3(r, 0, 0.2), Spacing: between(200, 400)}
	}
	if s.Cleat.Height > 0 && maybe() {
		s.Pins = Pins{Diameter: s.Cut.Tool * between(1.02, 1.3), Depth: 4, Clearance: pick3(r, 0, 0.1), Spacing: between(150, 400)}
	}
	if maybe() {
		s.Chimney.Height = between(200, 600)
	}
	if maybe() {
		s.Scribe.Allowance = between(5, 15)
	}
	if maybe() {
		s.Molding.Band = s.Skirt > 0
		s.Molding.Crown, s.Molding.Spring = s.Chimney.Height > 0, 0.66
	}
	if maybe() {
		s.Cooktop.Distance = between(650, 900)
	}
	return s
}

// Of plausible specs few are refused, and what a fault says of its field mends
// most of those.
func TestPlausibleSpecs(t *testing.T) {
	n := 400
	if os.Getenv("SAGITTA_FULL") == "1" {
		n = 20000
	}
	if v, err := strconv.Atoi(os.Getenv("SAGITTA_SPECS")); err == nil {
		n = v
	}
	r := rand.New(rand.NewPCG(20, 26))
	refused, mended := 0, 0
	why := map[string]int{}
	for range n {
		s := plausible(r)
		_, err := Build(s)
		if err == nil {
			continue
		}
		refused++
		if err = mendedTo(s, err); err == nil {
			mended++
			continue
		}
		why[regexp.MustCompile(`[0-9.]+(e-?[0-9]+)?`).ReplaceAllString(err.Error(), "#")]++
	}
	t.Logf("%d specs, %d refused (%.2f %%), %d of them mended by what the fault says", n, refused, 100*float64(refused)/float64(n), mended)
	var lines []string
	for k, v := range why {
		lines = append(lines, strconv.Itoa(v)+" "+k)
	}
	sort.Strings(lines)
	for _, l := range lines {
		t.Log(l)
	}
	assert.Less(t, float64(refused), 0.08*float64(n))
	assert.GreaterOrEqual(t, float64(mended), 0.9*float64(refused))
}

// mendedTo changes the fields that faults name as they say, a few times, and
// returns what is refused then.
func mendedTo(s Spec, err error) error {
	s.Back.Openings = slices.Clone(s.Back.Openings)
	for range 4 {
		var faults Faults
		if !errors.As(err, &faults) {
			return err
		}
		for _, f := range faults {
			if !heed(&s, f.Param, f.Need) {
				return err
			}
		}
		_, err = Build(s)
	}
	return err
}

var figure = regexp.MustCompile(`(-?[0-9]+(?:\.[0-9]+)?) ?(mm|%)?`)

// heed sets a field to the figure that a fault asks for, or to what it says where
// there is none.
func heed(s *Spec, param, need string) bool {
	v, found := 0.0, false
	if m := figure.FindStringSubmatch(strings.TrimPrefix(need, "at ")); m != nil {
		v, _ = strconv.ParseFloat(m[1], 64)
		found = true
	}
	fields := map[string]*float64{
		"duct.diameter": &s.Duct.Diameter, "duct.x": &s.Duct.X, "duct.z": &s.Duct.Z,
		"liner.x": &s.Liner.X, "liner.y": &s.Liner.Y, "liner.z": &s.Liner.Z, "liner.length": &s.Liner.Length, "liner.width": &s.Liner.Width,
		"ribs.depth": &s.Ribs.Depth, "ribs.spacing": &s.Ribs.Spacing, "tabs.width": &s.Tabs.Width, "blocks.leg": &s.Blocks.Leg,
		"joint": &s.Joint, "bend.facet": &s.Bend.Facet, "bend.strain": &s.Bend.Strain, "bend.web": &s.Bend.Web,
		"sweep.sag": &s.Sweep.Sag, "side_sweep.sag": &s.SideSweep.Sag, "left_sweep.sag": &s.LeftSweep.Sag,
		"cleat.height": &s.Cleat.Height, "cleat.short": &s.Cleat.Short, "neck.depth": &s.Neck.Depth, "neck.width": &s.Neck.Width,
		"bend.ply.thickness": &s.Bend.Ply.Thickness, "bend.kerf_width": &s.Bend.KerfWidth, "tabs.spacing": &s.Tabs.Spacing, "chimney.width": &s.Chimney.Width, "chimney.depth": &s.Chimney.Depth, "skirt": &s.Skirt, "pins.depth": &s.Pins.Depth,
	}
	if len(s.Back.Openings) > 0 {
		fields["back.openings[0].x"], fields["back.openings[0].y"] = &s.Back.Openings[0].X, &s.Back.Openings[0].Y
		fields["back.openings[0].diameter"] = &s.Back.Openings[0].Diameter
	}
	p, ok := fields[param]
	if !ok || !found {
		return false
	}
	if strings.HasPrefix(need, "less than") {
		v -= 0.5
	}
	if *p = v; param == "bend.ply.thickness" { // a whole number of them makes the board
		*p = s.Board.Thickness / math.Ceil(s.Board.Thickness/v-1e-9)
	}
	return true
}
