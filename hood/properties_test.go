package hood

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// sweeps draws a curve that a board takes over a chord.
func sweeps(t *rapid.T, name string, chord float64) Sweep {
	w := Sweep{Shape: rapid.SampledFrom([]string{"straight", "cove", "bow", "ogee", "reverse-ogee"}).Draw(t, name)}
	if n := len(w.Signs()); n > 0 {
		w.Sag = chord * rapid.Float64Range(0.01, 0.06).Draw(t, name+" sag") / float64(n)
	}
	return w
}

// specs draws a spec that can be built: plumb, or flared to both sides alike or
// not, kerfed or laminated, with or without what stands inside.
func specs(t *rapid.T) Spec {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	s := Spec{
		Width: f("width", 800, 1300), Height: f("height", 700, 1000), Depth: f("depth", 480, 600), Skirt: f("skirt", 90, 180),
		Board: Board{Material: "mdf", Thickness: f("board", 12, 19)},
		Back:  Back{Material: "plywood", Thickness: f("back", 6, 12), Rabbet: f("rabbet", 4, 9), Clearance: 0.2},
		Bend:  Bend{KerfWidth: f("kerf", 2.4, 3.2), Web: f("web", 1.6, 2), Facet: f("facet", 0.1, 0.3), Strain: 0.02},
		Cut:   Cut{Gap: 10, Margin: 10, Tool: 6}, Joint: 5,
	}
	s.Neck.Depth = s.Depth - f("lean", 60, 200)
	s.Sweep = sweeps(t, "front", s.Height-s.Skirt)
	if rapid.Bool().Draw(t, "flared") {
		s.Neck.Width = s.Width - f("flare", 80, 250)
		s.SideSweep = sweeps(t, "side", s.Height-s.Skirt)
		if rapid.Bool().Draw(t, "uneven") {
			s.LeftSweep = sweeps(t, "left", s.Height-s.Skirt)
			s.Neck.Offset = (s.Width - s.Neck.Width) / 2 * f("offset", -0.5, 0.5)
		}
	} else {
		s.Corner = rapid.SampledFrom([]string{"miter", "front-covers", "cheek-covers"}).Draw(t, "corner")
	}
	if rapid.Bool().Draw(t, "laminated") {
		s.Bend.Method, s.Bend.Trim = "laminate", 8
		s.Bend.Ply.Thickness = s.Board.Thickness / 5
	}
	if rapid.Bool().Draw(t, "inside") {
		s.Ribs = Ribs{Spacing: f("ribs", 300, 500), Depth: f("rib", 40, 60), Clearance: 0.3}
		s.Cleat = Cleat{Height: f("cleat", 60, 90), Short: 10}
		s.Back.Openings = []Opening{{Shape: "circle", X: f("opening", -80, 80), Y: s.Height / 2, Diameter: 120}}
		s.Duct = Duct{Diameter: 100, X: f("duct", -20, 20)}
	}
	return s
}

// built builds a spec, and leaves the draw where it cannot be made.
func built(t *rapid.T, s Spec) Design {
	d, err := Build(s)
	if err != nil {
		t.Skipf("%v", err)
	}
	return d
}

// scaled multiplies every field whose tag says that it is in mm.
func scaled(v reflect.Value, k float64, length bool) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			scaled(v.Field(i), k, v.Type().Field(i).Tag.Get("unit") == "mm")
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			scaled(v.Index(i), k, length)
		}
	case reflect.Float64:
		if length {
			v.SetFloat(v.Float() * k)
		}
	}
}

// A spec scaled by k gives the same parts, scaled by k. Edges of seams are arcs
// within 0.001 mm of the true ones at any size, so that outlines agree to that.
func TestScaledSpecScalesParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := specs(t)
		k := rapid.Float64Range(0.7, 1.5).Draw(t, "k")
		d := built(t, s)
		large := s
		large.Back.Openings = append([]Opening(nil), s.Back.Openings...)
		scaled(reflect.ValueOf(&large).Elem(), k, false)
		e, err := Build(large)
		require.NoError(t, err)
		require.Len(t, e.Parts, len(d.Parts))
		// The area half way through a ply is that between its faces, corner by
		// corner, or the mean of both where their corners differ in number.
		assert.InEpsilon(t, d.Mass*k*k*k, e.Mass, 5e-4)
		near := 3e-3 * (1 + k)
		for i, p := range d.Parts {
			q := e.Parts[i]
			require.Equal(t, p.Name, q.Name)
			require.Len(t, q.Kerfs, len(p.Kerfs))
			for j := range p.Kerfs {
				assert.InDelta(t, p.Kerfs[j].At*k, q.Kerfs[j].At, 1e-6)
				assert.InDelta(t, float64(p.Kerfs[j].Turn), float64(q.Kerfs[j].Turn), 1e-9)
			}
			if p.Ply > 0 { // what is cut of a ply is straight lines around its seams, told by pieces within 0.005 mm
				for j := range p.Edges {
					assert.InDelta(t, k*p.Edges[j].Show.Length(), q.Edges[j].Show.Length(), 0.02*(1+k), p.Name)
				}
				continue
			}
			for _, v := range p.Outline.Outer.V {
				assert.Less(t, q.Outline.Outer.Distance(r2.Scale(k, v.P)), near, p.Name)
			}
			assert.Less(t, r3.Norm(r3.Sub(r3.Scale(k, p.Pose.At), q.Pose.At)), near, p.Name)
		}
	})
}

// inMirror returns the spec as seen in a mirror.
func inMirror(s Spec) Spec {
	if s.LeftSweep.Shape != "" {
		s.SideSweep, s.LeftSweep = s.LeftSweep, s.SideSweep
	}
	s.Neck.Offset, s.Duct.X, s.Liner.X = -s.Neck.Offset, -s.Duct.X, -s.Liner.X
	s.Back.Openings = append([]Opening(nil), s.Back.Openings...)
	for i := range s.Back.Openings {
		s.Back.Openings[i].X *= -1
	}
	return s
}

// A mirrored spec gives mirrored parts: each has its fellow of the other hand,
// as large, as heavy, and mirrored where it stands.
func TestMirroredSpecMirrorsParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := specs(t)
		d := built(t, s)
		e, err := Build(inMirror(s))
		require.NoError(t, err)
		require.Len(t, e.Parts, len(d.Parts))
		assert.InEpsilon(t, d.Mass, e.Mass, 1e-6)
		a, err := d.Model()
		require.NoError(t, err)
		b, err := e.Model()
		require.NoError(t, err)
		require.Len(t, b, len(a))
		ribs := 0
		for _, p := range d.Parts {
			if p.Kind == KindRib {
				ribs++
			}
		}
		fellow := map[string]Solid{}
		for _, m := range b {
			fellow[m.Name] = m
		}
		swap := strings.NewReplacer("left", "right", "right", "left")
		for _, m := range a {
			name := swap.Replace(m.Name)
			if i := strings.TrimPrefix(name, "rib-"); i != name {
				name = "rib-" + string(rune('0'+ribs+1-int(i[0]-'0')))
			}
			o, ok := fellow[name]
			require.True(t, ok, name)
			assert.InEpsilon(t, m.Volume(), o.Volume(), 1e-5, name)
			c, f := m.Centroid(), o.Centroid()
			assert.Less(t, r3.Norm(r3.Vec{X: c.X + f.X, Y: c.Y - f.Y, Z: c.Z - f.Z}), 2e-3, name)
			low, high := extent(m)
			lowest, highest := extent(o)
			assert.InDelta(t, -low.X, highest.X, 4e-3, name)
			assert.InDelta(t, -high.X, lowest.X, 4e-3, name)
		}
	})
}

// Mass is the volume of the mesh of the bent part times the density of MDF, 769
// kg/m³, or of plywood, 600.
func TestMassIsVolumeTimesDensity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := built(t, specs(t))
		model, err := d.Model()
		require.NoError(t, err)
		for _, m := range model {
			p, ok := d.Part(m.Name)
			require.True(t, ok)
			rho := map[string]float64{"mdf": 769, "plywood": 600}[p.Material]
			// Chords of the mesh leave arcs by up to 0.05 mm; the edges of a bent
			// panel are straight between kerfs.
			assert.InEpsilon(t, m.Volume()*rho*1e-9, p.Mass, 2e-3, m.Name)
		}
	})
}

// Each side of a joint is as long as the other: a cheek's front edge as skirt
// and sweep, and of a seam the edge of the front as that of the side, told by
// where the seam lies on either.
func TestSidesOfAJointHaveOneLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := specs(t)
		d := built(t, s)
		if cheek, ok := d.Part("cheek-left"); ok && s.Corner != "front-covers" {
			edge, _ := cheek.Edge("front")
			assert.InDelta(t, s.Skirt+d.Front.ShowLength, edge.Show.Length(), 1e-6)
			assert.InDelta(t, s.Skirt+arcs(s), edge.Show.Length(), 1e-6)
		}
		for _, f := range []Flare{d.Left, d.Right} {
			front := along(f.Seam, func(a, b SeamPoint) float64 { return math.Hypot(b.XShow-a.XShow, b.UFront-a.UFront) })
			side := along(f.Seam, func(a, b SeamPoint) float64 { return math.Hypot(b.ZShow-a.ZShow, b.USide-a.USide) })
			assert.InDelta(t, front, side, 1e-3)
		}
	})
}

// along returns the length of a seam by the chords of its stretches, and of twice
// as long ones: the chords of an arc fall short with the square of their length,
// so that four of the one less one of the other is three times what is sought.
func along(seam []SeamPoint, chord func(a, b SeamPoint) float64) float64 {
	fine, coarse := 0.0, 0.0
	for i := 2; i < len(seam); i += 2 {
		fine += chord(seam[i-2], seam[i-1]) + chord(seam[i-1], seam[i])
		coarse += chord(seam[i-2], seam[i])
	}
	return (4*fine - coarse) / 3
}

// arcs returns the length of the front's curve by chord and sag alone.
func arcs(s Spec) float64 {
	chord := math.Hypot(s.Depth-s.Neck.Depth, s.Height-s.Skirt)
	n := float64(max(1, len(s.Sweep.Signs())))
	if s.Sweep.Sag == 0 {
		return chord
	}
	c, h := chord/n, s.Sweep.Sag
	r := (c*c/4 + h*h) / (2 * h)
	return n * 2 * r * math.Asin(c/2/r)
}

// What is asked is not changed by asking, and asked twice gives the same.
func TestBuildIsRepeatable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := specs(t)
		d := built(t, s)
		e := built(t, s)
		assert.Equal(t, d.Parts, e.Parts)
		assert.Equal(t, d.Checks, e.Checks)
	})
}
