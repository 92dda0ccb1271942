package hood

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"sort"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood/spec"
)

// randomSpec draws a spec a client might ask for.
func randomSpec(r *rand.Rand) Spec {
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	pick := func(w ...string) string { return w[r.IntN(len(w))] }
	s := Spec{
		Width: between(600, 1500), Height: between(500, 1100), Depth: between(450, 650),
		Board: Board{Material: pick("mdf", "plywood"), Thickness: pick3(r, 12, 15, 18, 19)},
		Back:  Back{Material: "plywood", Thickness: pick3(r, 6, 9, 12), Rabbet: pick3(r, 0, 6, 9), Clearance: pick3(r, 0, 0.2)},
		Bend:  Bend{KerfWidth: pick3(r, 2.4, 3.2), Web: pick3(r, 1.6, 2), Facet: pick3(r, 0.1, 0.2, 0.3), Strain: pick3(r, 0, 0.01, 0.015)},
		Cut:   Cut{Gap: 10, Margin: 10, Tool: pick3(r, 0, 6.35, 9.525)},
		Duct:  Duct{Diameter: pick3(r, 0, 125, 150)},
	}
	s.Skirt = pick3(r, 0, between(60, 220))
	s.Neck.Depth = between(230, 330)
	s.Neck.Width = s.Width
	chord := s.Height - s.Skirt
	s.Sweep = randomSweep(r, chord, s.Skirt, s.Depth, s.Neck.Depth)
	s.Corner = pick("", "miter", "front-covers", "cheek-covers")
	if r.IntN(2) == 0 {
		s.Corner = ""
		s.Neck.Width = s.Width - between(50, 300)
		s.SideSweep = randomSweep(r, chord, s.Skirt, s.Width/2, s.Sizes().NeckWidth()/2)
		if s.SideSweep.Shape == "points" { // drawn for an even flare
			return s
		}
		if r.IntN(2) == 0 { // a left side of its own
			s.LeftSweep = randomSweep(r, chord, s.Skirt, s.Width/2, s.Sizes().NeckWidth()/2)
			if s.LeftSweep.Shape == "points" {
				return s
			}
		}
		switch r.IntN(4) {
		case 0:
			s.Neck.Offset = (s.Width - s.Neck.Width) / 2
			if s.LeftSweep.Shape != "" { // the right one is plumb
				s.SideSweep = Sweep{}
			}
		case 1:
			s.Neck.Offset = -(s.Width - s.Neck.Width) / 2
			s.LeftSweep = Sweep{}
		case 2:
			s.Neck.Offset = (s.Width - s.Neck.Width) / 2 * between(-0.9, 0.9)
		}
	}
	if r.IntN(2) == 0 {
		s.Back.Openings = []Opening{{Shape: "circle", X: between(-50, 50), Y: s.Height / 2, Diameter: 120}}
	}
	if r.IntN(2) == 0 {
		s.Ribs = Ribs{Spacing: between(250, 500), Depth: between(40, 80), Clearance: pick3(r, 0, 0.3)}
	}
	if r.IntN(2) == 0 {
		s.Cleat = Cleat{Height: between(60, 100), Short: pick3(r, 0, 20)}
	}
	if r.IntN(2) == 0 {
		s.Liner = Liner{Length: s.Width * 0.6, Width: 250, Y: pick3(r, 0, 0, between(20, 60))}
	}
	if s.Corner != "cheek-covers" && r.IntN(2) == 0 {
		s.Dado = Dado{Depth: between(3, 7), Clearance: pick3(r, 0, 0.3)}
	}
	if s.Skirt > 0 && r.IntN(2) == 0 {
		s.Blocks = Blocks{Leg: between(40, 90)}
	}
	if s.Cut.Tool > 0 && r.IntN(2) == 0 {
		s.Tabs = Tabs{Width: s.Cut.Tool * between(3, 5), Clearance: pick3(r, 0, 0.2, 0.4), Spacing: between(200, 500)}
	}
	if s.Cut.Tool > 0 && r.IntN(2) == 0 {
		s.Pins = Pins{Diameter: s.Cut.Tool * between(1.01, 1.3), Depth: 4, Clearance: pick3(r, 0, 0.1), Spacing: between(150, 400)}
	}
	if r.IntN(2) == 0 {
		s.Chimney = Chimney{Height: between(200, 600)}
	}
	if r.IntN(2) == 0 {
		s.Scribe = Scribe{Allowance: 10, Wall: [][2]float64{{0, 3}, {s.Height / 2, 9}, {s.Height, 0}}}
	}
	return s
}

// randomWay bends the panels of some specs another way than by kerfs.
func randomWay(r *rand.Rand, s Spec) Spec {
	way := func() string {
		return []string{"", "", "kerf", "laminate", "laminate", "as-is"}[r.IntN(6)]
	}
	s.Bend.Method = way()
	if r.IntN(3) == 0 {
		s.Sweep.Method, s.SideSweep.Method = way(), way()
	}
	for _, w := range []*Sweep{&s.SideSweep, &s.LeftSweep} { // sides have no ribs
		if s.Sizes().Method(*w) == spec.AsIs && (w == &s.SideSweep || w.Shape != "") {
			w.Method = "kerf"
		}
	}
	if s.Sizes().Uses(spec.Laminate) || s.Sizes().Uses(spec.AsIs) {
		s.Bend.Ply.Material = []string{"", "mdf", "plywood", "birch plywood"}[r.IntN(4)]
		s.Bend.Ply.Thickness = s.Board.Thickness / float64(2+r.IntN(5))
		s.Bend.Trim = pick3(r, 0, 5, 12)
		s.Bend.Form = Form{Spacing: pick3(r, 0, 300), Depth: pick3(r, 0, 60)}
		s.Bend.Strain = pick3(r, 0.01, 0.015)
	}
	if s.Sizes().Uses(spec.AsIs) { // of a sheet that takes it
		s.Bend.Ply.Material = "mdf"
		s.Ribs = Ribs{Spacing: 300, Depth: 50}
		if s.Sweep.TakesSag() {
			s.Sweep.Sag /= 3
		}
	}
	return s
}

func pick3(r *rand.Rand, v ...float64) float64 { return v[r.IntN(len(v))] }

func randomSweep(r *rand.Rand, chord, skirt, from, to float64) Sweep {
	shape := []string{"straight", "cove", "bow", "ogee", "reverse-ogee", "ellipse", "points"}[r.IntN(7)]
	if shape == "ellipse" && skirt == 0 { // level at the bottom edge: cannot be made
		shape = "cove"
	}
	w := Sweep{Shape: shape}
	if w.TakesSag() {
		w.Sag = chord * (0.01 + 0.09*r.Float64()) / float64(len(w.Signs()))
	}
	if shape == "points" {
		f := 0.2 + 0.2*r.Float64() // hollow, as a cove is
		w.Points = [][2]float64{{from + (to-from)*(f+0.05), skirt + chord*f}, {from + (to-from)*(f+0.36), skirt + chord*(f+0.3)}}
	}
	return w
}

// Every spec either closes within its limits or is refused with typed faults
// that name a field.
func TestRandomSpecs(t *testing.T) {
	n := 300
	if testing.Short() {
		n = 100
	}
	if os.Getenv("SAGITTA_FULL") == "1" {
		n = 20000
	}
	if v, err := strconv.Atoi(os.Getenv("SAGITTA_SPECS")); err == nil {
		n = v
	}
	r := rand.New(rand.NewPCG(7, 11))
	reasons := map[string]int{}
	refused := 0
	slowest := time.Duration(0)
	for i := range n {
		s := randomWay(r, randomSpec(r))
		start := time.Now()
		d, err := Build(s)
		took := time.Since(start)
		for range 5 { // the machine may have been busy elsewhere
			if took < 20*time.Millisecond {
				break
			}
			start = time.Now()
			_, _ = Build(s)
			took = min(took, time.Since(start))
		}
		if took > slowest {
			slowest = took
			t.Logf("%d: %v %s/%s, %d ribs of %.0f", i, took, s.Sweep.Name(), s.SideSweep.Name(), int(s.Ribs.Spacing), s.Width)
		}
		if err != nil {
			refused++
			var f Faults
			require.ErrorAs(t, err, &f, "%d: %+v", i, s)
			for _, e := range f {
				if errors.Is(e, ErrOpen) {
					t.Errorf("%d: %v (%s %s/%s, skirt %.0f, %s)", i, e, s.Sizes().CornerJoint(), s.Sweep.Name(), s.SideSweep.Name(), s.Skirt, "")
				}
				reasons[e.Param+": "+reason(e)]++
			}
			continue
		}
		for _, c := range d.Checks {
			assert.True(t, c.OK && c.Value <= c.Limit, c.Name)
		}
		if i%20 == 0 {
			checkModel(t, d)
		}
	}
	t.Logf("%d specs, %d refused (%.1f %%), slowest build %v", n, refused, 100*float64(refused)/float64(n), slowest)
	for _, k := range sorted(reasons) {
		t.Logf("%6d %s", reasons[k], k)
	}
	assert.Less(t, refused, n*15/100, "refused")
}

func reason(e *ParamError) string {
	var inner *ParamError
	if errors.As(e.Err, &inner) {
		return fmt.Sprint(inner.Err)
	}
	return e.Err.Error() + ": " + strings.Map(func(c rune) rune {
		if c >= '0' && c <= '9' || c == '.' {
			return -1
		}
		return c
	}, e.Need)
}

func sorted(m map[string]int) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}

// checkModel asks every mesh to be closed and to hold the volume that the mass
// of the part stands for. Where a steep bevel runs into a kerf, a single part
// may be off by what the mesh rounds off there; the whole may not.
func checkModel(t *testing.T, d Design) {
	model, err := d.Model()
	require.NoError(t, err)
	for i, p := range d.Parts { // forms come last and have no mesh
		require.Equal(t, i >= len(model), p.Kind == KindForm, p.Name)
	}
	sum := 0.0
	for i, m := range model {
		p := d.Parts[i]
		checkMesh(t, m)
		mass := m.Volume() * spec.Density(p.Material, 0) * 1e-9
		sum += mass
		assert.InEpsilon(t, p.Mass, mass, 3e-3, "%s %s/%s", p.Name, d.Spec.Sweep.Name(), d.Spec.SideSweep.Name())
	}
	assert.InEpsilon(t, d.Mass, sum, 1e-3)
}
