package hood

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

func r2vec(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }

// params lists the fields that the faults of a spec name.
func params(err error) []string {
	f, _ := err.(Faults)
	var out []string
	for _, e := range f {
		out = append(out, e.Param)
	}
	return out
}

func TestFaultsNameTheField(t *testing.T) {
	for _, w := range []struct {
		field string
		spoil func(*Spec)
	}{
		{"width", func(s *Spec) { s.Width = -1 }},
		{"title", func(s *Spec) { s.Title = "bell \a" }},
		{"title", func(s *Spec) { s.Title = strings.Repeat("é", 201) }},
		{"board.sheets", func(s *Spec) { s.Board.Sheets = make([]Sheet, 41) }},
		{"scribe.wall", func(s *Spec) { s.Scribe.Wall = make([][2]float64, 101) }},
		{"height", func(s *Spec) { s.Height = 0 }},
		{"depth", func(s *Spec) { s.Depth = math.NaN() }},
		{"skirt", func(s *Spec) { s.Skirt = 860 }},
		{"neck.depth", func(s *Spec) { s.Neck.Depth = 541 }},
		{"neck.width", func(s *Spec) { s.Neck.Width = 1051 }},
		{"neck.offset", func(s *Spec) { s.Neck.Offset = 1 }},
		{"sweep.shape", func(s *Spec) { s.Sweep.Shape = "wave" }},
		{"sweep.sag", func(s *Spec) { s.Sweep.Sag = 380 }},
		{"sweep.sag", func(s *Spec) { s.Sweep = Sweep{Shape: "straight", Sag: 4} }},
		{"sweep.points", func(s *Spec) { s.Sweep = Sweep{Shape: "points"} }},
		{"side_sweep.shape", func(s *Spec) { s.SideSweep = Sweep{Shape: "cove", Sag: 10} }},
		{"left_sweep.shape", func(s *Spec) { s.LeftSweep.Shape = "wave" }},
		{"left_sweep.shape", func(s *Spec) { s.LeftSweep = Sweep{Shape: "cove", Sag: 10} }},
		{"left_sweep.shape", func(s *Spec) {
			*s = sidesDemo()
			s.Neck.Offset = -(s.Width - s.Neck.Width) / 2
		}},
		{"side_sweep.shape", func(s *Spec) {
			*s = sidesDemo()
			s.Neck.Offset = (s.Width - s.Neck.Width) / 2
		}},
		{"left_sweep.sag", func(s *Spec) { s.LeftSweep = Sweep{Sag: 4} }},
		{"left_sweep.sag", func(s *Spec) { s.LeftSweep = Sweep{Shape: "bow", Sag: math.NaN()} }},
		{"left_sweep.sag", func(s *Spec) {
			*s = sidesDemo()
			s.LeftSweep.Sag = 300
		}},
		{"left_sweep.points", func(s *Spec) { s.LeftSweep = Sweep{Shape: "points"} }},
		{"left_sweep.points[0][1]", func(s *Spec) {
			s.LeftSweep = Sweep{Shape: "points", Points: [][2]float64{{400, math.Inf(1)}}}
		}},
		{"corner", func(s *Spec) { s.Corner = "dovetail" }},
		{"corner", func(s *Spec) { s.Corner, s.Neck.Width = "front-covers", 800 }},
		{"board.material", func(s *Spec) { s.Board.Material = "" }},
		{"board.density", func(s *Spec) { s.Board.Material = "moonwood" }},
		{"board.thickness", func(s *Spec) { s.Board.Thickness = 600 }},
		{"board.sheets[0].length", func(s *Spec) { s.Board.Sheets[0].Length = math.Inf(1) }},
		{"back.rabbet", func(s *Spec) { s.Back.Rabbet = 19 }},
		{"back.openings[0].y", func(s *Spec) { s.Back.Openings[0].Y = 800 }},
		{"back.openings[0].x", func(s *Spec) { s.Back.Openings[0].X = 600 }},
		{"back.openings[0].diameter", func(s *Spec) { s.Back.Openings[0].Diameter = 0 }},
		{"back.openings[1]", func(s *Spec) {
			s.Back.Openings = append(s.Back.Openings, Opening{Shape: "rectangle", X: 20, Y: 600, Width: 100, Height: 100})
		}},
		{"liner", func(s *Spec) { s.Liner.Width = 0 }},
		{"liner.length", func(s *Spec) { s.Liner.Length = 1040 }},
		{"duct.diameter", func(s *Spec) { s.Duct.Diameter = 400 }},
		{"bend.method", func(s *Spec) { s.Bend.Method = "steam" }},
		{"bend.web", func(s *Spec) { s.Bend.Web = 19 }},
		{"bend.kerf_width", func(s *Spec) { s.Bend.KerfWidth = 0 }},
		{"bend.facet", func(s *Spec) { s.Bend.Facet = -0.1 }},
		{"cut.gap", func(s *Spec) { s.Cut.Gap = -1 }},
		{"scribe.wall[1][0]", func(s *Spec) { s.Scribe = Scribe{Allowance: 5, Wall: [][2]float64{{100, 1}, {90, 1}}} }},
		{"tabs.width", func(s *Spec) { s.Tabs = Tabs{Width: -1} }},
		{"tabs.width", func(s *Spec) { s.Tabs = Tabs{Width: math.NaN()} }},
		{"tabs.width", func(s *Spec) { s.Tabs = Tabs{Width: 28, Spacing: 300} }}, // under three cutters
		{"tabs.width", func(s *Spec) { s.Tabs, s.Cut.Tool = Tabs{Width: 60, Spacing: 300}, 19 }},
		{"tabs.width", func(s *Spec) { s.Tabs = Tabs{Width: 1000, Spacing: 4000} }},
		{"tabs.width", func(s *Spec) { s.Tabs, s.Liner.Y = Tabs{Width: 40, Spacing: 300}, 5 }}, // too near the edge
		{"tabs.clearance", func(s *Spec) { s.Tabs = Tabs{Width: 40, Clearance: math.Inf(1), Spacing: 300} }},
		{"tabs.clearance", func(s *Spec) { s.Tabs = Tabs{Width: 40, Clearance: 4.75, Spacing: 300} }},
		{"tabs.spacing", func(s *Spec) { s.Tabs = Tabs{Width: 40} }},
		{"tabs.spacing", func(s *Spec) { s.Tabs = Tabs{Width: 40, Spacing: 159} }},
		{"tabs.spacing", func(s *Spec) { s.Tabs = Tabs{Spacing: math.Inf(-1)} }},
		{"cut.tool", func(s *Spec) { s.Tabs, s.Cut.Tool = Tabs{Width: 40, Spacing: 300}, 0 }},
		{"pins.diameter", func(s *Spec) { s.Pins = Pins{Diameter: math.NaN()} }},
		{"pins.diameter", func(s *Spec) { s.Pins = Pins{Diameter: -8} }},
		{"pins.diameter", func(s *Spec) { s.Pins = Pins{Diameter: 9.5, Depth: 8, Spacing: 200} }}, // the cutter is 9.525
		{"pins.diameter", func(s *Spec) {
			s.Pins, s.Cleat = Pins{Diameter: 30, Depth: 8, Spacing: 200}, Cleat{Height: 60}
		}},
		{"pins.depth", func(s *Spec) { s.Pins = Pins{Diameter: 10, Spacing: 200} }},
		{"pins.depth", func(s *Spec) { s.Pins = Pins{Diameter: 10, Depth: 10.5, Spacing: 200} }}, // of 12
		{"pins.depth", func(s *Spec) { s.Pins = Pins{Depth: math.Inf(1)} }},
		{"pins.clearance", func(s *Spec) { s.Pins = Pins{Diameter: 10, Clearance: 10, Depth: 8, Spacing: 200} }},
		{"pins.clearance", func(s *Spec) { s.Pins = Pins{Clearance: math.NaN()} }},
		{"pins.spacing", func(s *Spec) { s.Pins = Pins{Diameter: 10, Depth: 8, Spacing: 49} }},
		{"pins.spacing", func(s *Spec) { s.Pins = Pins{Spacing: -1} }},
		{"cut.tool", func(s *Spec) { s.Pins, s.Cut.Tool = Pins{Diameter: 10, Depth: 8, Spacing: 200}, 0 }},
		{"cooktop.distance", func(s *Spec) { s.Cooktop = Cooktop{Distance: 600, Wood: 700} }},
		{"version", func(s *Spec) { s.Version = 1 }},
		{"units", func(s *Spec) { s.Units = "cubit" }},
	} {
		s := demo()
		w.spoil(&s)
		_, err := Build(s)
		require.Error(t, err, w.field)
		assert.Contains(t, params(err), w.field, "%v", err)
	}
}

func TestAllFaultsAtOnce(t *testing.T) {
	s := demo()
	s.Width, s.Neck.Depth, s.Bend.Web, s.Back.Openings[0].Diameter = math.NaN(), 700, 25, -3
	assert.Equal(t, []string{"width", "neck.depth", "back.openings[0].diameter", "bend.web"}, params(s.Validate()))
	assert.Equal(t, 4, len(strings.Split(s.Validate().Error(), "\n")))
}

// Every number of a spec is spoiled in every way: nothing panics, what is not
// finite is named, and what is refused is refused with the field's path.
func TestSpoiledNumbers(t *testing.T) {
	for _, base := range []func() Spec{func() Spec { return whole(demo()) }, func() Spec { return whole(sidesDemo()) }} {
		s := base()
		eachFloat(reflect.ValueOf(&s).Elem(), "", func(path string, _ reflect.Value) {
			for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e-300, -1e-300, 1e300, math.MaxFloat64, 0.5, 9999} {
				spec := base()
				eachFloat(reflect.ValueOf(&spec).Elem(), "", func(p string, v reflect.Value) {
					if p == path {
						v.SetFloat(bad)
					}
				})
				d, err := Build(spec)
				if math.IsNaN(bad) || math.IsInf(bad, 0) || math.Abs(bad) > 1e299 && !strings.HasSuffix(path, ".price") && !strings.HasSuffix(path, "strain") {
					assert.Contains(t, params(err), path, "%g", bad)
				}
				if err == nil {
					assert.False(t, math.IsNaN(d.Mass), path)
				}
			}
		})
	}
}

// eachFloat calls f for every number in a spec with its JSON path.
func eachFloat(v reflect.Value, path string, f func(string, reflect.Value)) {
	switch v.Kind() {
	case reflect.Float64:
		f(path, v)
	case reflect.Struct:
		for i := range v.NumField() {
			name := v.Type().Field(i).Tag.Get("json")
			if path != "" {
				name = path + "." + name
			}
			eachFloat(v.Field(i), name, f)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			eachFloat(v.Index(i), fmt.Sprintf("%s[%d]", path, i), f)
		}
	}
}

func TestBuildSharesNothing(t *testing.T) {
	s := whole(flaredDemo())
	a, err := Build(s)
	require.NoError(t, err)
	b, err := Build(s)
	require.NoError(t, err)
	assert.Equal(t, a, b)
	a.Parts[0].Outline.Outer.V[0].P.X = 99
	a.Spec.Back.Openings[0].X = 99
	a.Parts[1].Kerfs[0].At = 99
	c, err := Build(s)
	require.NoError(t, err)
	assert.Equal(t, b, c)
}

// The ply thickness that a fault names makes the board, in either unit.
func TestPlyCureWorks(t *testing.T) {
	for _, units := range []string{"mm", "in"} {
		for ply := 1.1; ply < 8; ply += 0.37 {
			s := demo()
			s.Units, s.Bend.Method, s.Bend.Ply.Thickness = units, "laminate", ply
			err := s.Validate()
			if err == nil {
				continue
			}
			var need string
			for _, f := range err.(Faults) {
				if f.Param == "bend.ply.thickness" {
					need, _, _ = strings.Cut(f.Need, ",")
				}
			}
			mm, err := arc.ParseLength(need, arc.Millimeters)
			require.NoError(t, err, need)
			s.Bend.Ply.Thickness = mm
			assert.NoError(t, s.Validate(), "%s for %v", need, ply)
		}
	}
}
