package bend

import (
	"math"
	"testing"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// Three segments of any numbers: a plan, if there is one, refolds to the end
// of the profile.
func FuzzKerfPlan(f *testing.F) {
	f.Add(100.0, 0.0, 0.1, 200.0, 50.0, -0.2, 300.0, 60.0, 0.0, 19.0, 3.0, 1.6, 0.1, 0.01)
	f.Add(0.0, 100.0, 0.0, 0.0, 200.0, 1e-9, 0.0, 300.0, -1e-9, 19.0, 3.0, 1.6, 0.0, 0.0)
	f.Add(1.0, 1.0, 1e9, 1.0, 1.0, -1.0, 2.0, 2.0, 0.5, 1e-6, 1e-7, 1e-8, 1e-9, 1.0)
	f.Add(0.0, 62.5, 0.0, 0.0, 200.0, 1.4e-11, 8.0, 15750.0, -2e-11, 435.0, 1.0, 2.7, 0.0, 94.0)
	f.Fuzz(func(t *testing.T, x1, y1, k1, x2, y2, k2, x3, y3, k3, thickness, width, web, facet, strain float64) {
		profile := arc.Path{V: []arc.Vertex{arc.V(0, 0, k1), arc.V(x1, y1, k2), arc.V(x2, y2, k3), arc.V(x3, y3, 0)}}
		b := Board{Thickness: thickness, KerfWidth: width, Web: web}
		p, err := KerfPlan(profile, b, Limits{Facet: facet, Strain: strain, Corner: 1 * arc.Degree})
		if err != nil {
			return
		}
		i := 0 // the first segment that has a length
		for profile.Segment(i).A == profile.Segment(i).B {
			i++
		}
		head := profile
		head.V = head.V[i:]
		s, err := Refold(p.Blank(), head.V[0].P, headingOf(head))
		if err != nil {
			t.Fatalf("%v: %+v", err, p)
		}
		end := s.Show.V[len(s.Show.V)-1].P
		// Flat arcs far away lose digits in the corner angles taken from them.
		if d := r2.Norm(r2.Sub(end, r2.Vec{X: x3, Y: y3})); !(d <= 1e-9*profile.Length()+1e-12*math.Hypot(x3, y3)) {
			t.Fatalf("ends %v off, length %v", d, profile.Length())
		}
	})
}
