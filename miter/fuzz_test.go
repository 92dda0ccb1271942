package miter_test

import (
	"math"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
)

// FuzzSeam asks everything of pairs of any numbers: it must answer or refuse.
func FuzzSeam(f *testing.F) {
	f.Add(540.0, 140.0, -0.1, 300.0, 860.0, 525.0, -0.08, 250.0, 19.0, 1.57)
	f.Add(300.0, 0.0, 0.41421356, 0.0, 300.0, 300.0, 0.41421356, 0.0, 6.0, 1.57)
	f.Add(300.0, 0.0, 1.0, 300.0, 300.0, 300.0, 0.0, 300.0, 1e-9, 4.0)
	f.Fuzz(func(t *testing.T, x0, z0, k, x1, z1, x2, k2, x3, thick, plan float64) {
		mid := arc.V((x0+x1)/2, (z0+z1)/2, -k2)
		seams(t, miter.Pair{
			First:  miter.Panel{Profile: arc.Path{V: []arc.Vertex{arc.V(x0, z0, k), arc.V(x1, z1, 0)}}, Thickness: thick},
			Second: miter.Panel{Profile: arc.Path{V: []arc.Vertex{arc.V(x2, z0, k), mid, arc.V(x3, z1, 0)}}, Thickness: thick},
			Plan:   arc.Angle(plan),
		})
	})
}

// FuzzCorner wants an answer in range or a refusal.
func FuzzCorner(f *testing.F) {
	f.Add(1.57, 1.0, 1.2, 19.0, 12.0, 0)
	f.Fuzz(func(t *testing.T, plan, tilt1, tilt2, t1, t2 float64, joint int) {
		cuts, err := miter.Corner{Plan: arc.Angle(plan), Joint: miter.Joint(joint),
			First:  miter.Board{Tilt: arc.Angle(tilt1), Thickness: t1},
			Second: miter.Board{Tilt: arc.Angle(tilt2), Thickness: t2}}.Cuts()
		refused(t, err, cuts.First.Setback, cuts.Second.Setback)
		for _, e := range []miter.End{cuts.First, cuts.Second} {
			if math.Abs(float64(e.Miter)) > math.Pi/2 || math.Abs(float64(e.Bevel)) > math.Pi/2+1e-9 {
				t.Fatalf("out of range: %+v", e)
			}
		}
	})
}
