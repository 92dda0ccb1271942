package hood

import (
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
)

// inSolid reports whether a point is inside a closed mesh, by the parity of the
// faces that a ray in a skew direction crosses.
func inSolid(s Solid, p r3.Vec) bool {
	d := r3.Unit(r3.Vec{X: 0.3571, Y: 0.8233, Z: 0.4413})
	in := false
	for _, t := range s.Triangles {
		a, b, c := s.Vertices[t[0]], s.Vertices[t[1]], s.Vertices[t[2]]
		u, v := r3.Sub(b, a), r3.Sub(c, a)
		n := r3.Cross(d, v)
		det := r3.Dot(u, n)
		if math.Abs(det) < 1e-12 {
			continue
		}
		w := r3.Sub(p, a)
		x := r3.Dot(w, n) / det
		m := r3.Cross(w, u)
		y := r3.Dot(d, m) / det
		if x >= 0 && y >= 0 && x+y <= 1 && r3.Dot(v, m)/det > 0 {
			in = !in
		}
	}
	return in
}

// probes returns points all through what passes: through the openings of the
// back from the wall to just before it, through the duct's opening from above the
// deck to just under it, and through that of the liner. Places come from the
// openings in the built parts, whatever was asked.
func probes(r *rand.Rand, d Design, through string) []r3.Vec {
	p, ok := d.Part(through)
	if !ok {
		return nil
	}
	var out []r3.Vec
	for i, h := range p.Outline.Holes {
		if through == "back" && i >= len(d.Spec.Back.Openings) {
			break // slots of tabs
		}
		box := h.Bounds()
		for range 40 {
			f := func() float64 { return 0.002 + 0.996*r.Float64() }
			at := box.Min
			at.X += f() * (box.Max.X - box.Min.X)
			at.Y += f() * (box.Max.Y - box.Min.Y)
			if !h.Contains(at) || h.Distance(at) < 0.06 { // meshes are chords
				continue
			}
			deep := p.Thickness*3*r.Float64() - p.Thickness
			q := p.Pose.Point(at, deep)
			if q.Y > 0 && q.Z > 0 {
				out = append(out, q)
			}
		}
	}
	return out
}

// Nothing solid stands where something passes, by points thrown into what passes
// and the meshes of the model.
func TestNothingStandsWhereSomethingPasses(t *testing.T) {
	n := 60
	if os.Getenv("SAGITTA_FULL") == "1" {
		n = 2000
	}
	r := rand.New(rand.NewPCG(3, 15))
	thrown := 0
	for range n {
		s := randomSpec(r)
		for range r.IntN(3) {
			s.Back.Openings = append(s.Back.Openings, Opening{Shape: "rectangle",
				X: (r.Float64() - 0.5) * s.Width, Y: r.Float64() * s.Height, Width: 20 + 80*r.Float64(), Height: 20 + 80*r.Float64()})
		}
		d, err := Build(s)
		if err != nil {
			continue
		}
		solids, err := d.Model()
		require.NoError(t, err)
		for _, through := range []string{"back", "deck", "liner-shelf"} {
			for _, p := range probes(r, d, through) {
				thrown++
				for _, m := range solids {
					if inSolid(m, p) {
						assert.Failf(t, "blocked", "%s stands in an opening of %s at %.1f\n%+v", m.Name, through, p, s)
						return
					}
				}
			}
		}
	}
	assert.Greater(t, thrown, 20*n)
}

// What a fault of a passage says mends it.
func TestFaultsOfPassagesTellTheCure(t *testing.T) {
	figure := regexp.MustCompile(`need (-?[0-9.]+) mm, clear of ([a-z0-9-]+)`)
	s := demo()
	s.Cleat.Height = 90
	s.Ribs, s.Duct.Diameter = Ribs{Spacing: 300, Depth: 70}, 120
	for name, spoil := range map[string]func(*Spec){
		"cleat":       func(s *Spec) { s.Back.Openings[0].Y = 690 },
		"cleat-":      func(s *Spec) { s.Back.Openings[0].Y, s.Back.Openings[0].Diameter = 790, 40 },
		"liner-shelf": func(s *Spec) { s.Back.Openings[0].Y = 90 },
		"rib":         func(s *Spec) { s.Duct = Duct{Diameter: 120, Z: 200} },
		"rib-":        func(s *Spec) { s.Skirt, s.Liner.Z = 0, 340 },
	} {
		w := s
		w.Back.Openings = slices.Clone(s.Back.Openings)
		spoil(&w)
		_, err := Build(w)
		require.Error(t, err, name)
		m := figure.FindStringSubmatch(err.Error())
		require.NotNil(t, m, "%s: %v", name, err)
		assert.True(t, strings.HasPrefix(m[2], strings.TrimSuffix(name, "-")), "%s: %v", name, err)
		v, _ := strconv.ParseFloat(m[1], 64)
		for _, p := range params(err) {
			switch p {
			case "back.openings[0].y":
				w.Back.Openings[0].Y = v
			case "back.openings[0].x":
				w.Back.Openings[0].X = v
			case "duct.z":
				w.Duct.Z = v
			case "duct.x":
				w.Duct.X = v
			case "liner.z":
				w.Liner.Z = v
			case "liner.x":
				w.Liner.X = v
			}
		}
		_, err = Build(w)
		assert.NoError(t, err, name)
	}
}
