package cut

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// eared is a slot whose corners are relieved by half circles in its long sides.
func eared(x0, y0, x1, y1, r float64) arc.Path {
	w := 2 * r
	return arc.Path{Closed: true, V: []arc.Vertex{
		arc.V(x0, y0, 1), arc.V(x0+w, y0, 0), arc.V(x1-w, y0, 1), arc.V(x1, y0, 0),
		arc.V(x1, y1, 1), arc.V(x1-w, y1, 0), arc.V(x0+w, y1, 1), arc.V(x0, y1, 0),
	}}
}

// The waste of a small opening is held by a tab or cut away to the last place;
// either way the program is proved.
func TestSmallOpenings(t *testing.T) {
	for _, d := range []float64{3, 4, 6, 6.35, 8, 9.525, 12.7} {
		for name, hole := range map[string]arc.Path{
			"slot":   eared(100, 40, 140, 58.2, d/2*1.01),
			"high":   eared(100, 40, 145, 78, d/2*1.01),
			"circle": arc.Circle(r2.Vec{X: 120, Y: 60}, 7),
			"large":  arc.Circle(r2.Vec{X: 120, Y: 60}, 25),
			"square": arc.Rect(100, 40, 120, 60),
		} {
			t.Run(fmt.Sprintf("%s by %g", name, d), func(t *testing.T) {
				if name == "slot" && 4*d*1.01 > 40 {
					t.Skip("no slot for this cutter")
				}
				p := sheet.Part{Name: "p", Qty: 1, Material: "mdf", Thickness: 18, Outline: arc.Region{
					Outer: arc.Rect(0, 0, 300, 120), Holes: []arc.Path{hole.Reverse()}}}
				job := Job{Stock: sheet.Stock{Material: "mdf", Thickness: 18, Length: 500, Width: 300},
					Parts: []sheet.Part{p}, Works: []Work{{}}, Placements: []sheet.Placement{{At: r2.Vec{X: 50, Y: 50}}}}
				opt := Options{Tools: Tools(d, 3.2, 18)}
				plan, err := Plan(context.Background(), job, opt)
				require.NoError(t, err)
				_, err = Replay(context.Background(), job, plan.Moves(), opt)
				require.NoError(t, err)
				held := 0
				var axis []arc.Segment
				for _, o := range plan.Operations {
					if o.Kind != OpeningCut {
						continue
					}
					held += o.Tabs
					for _, m := range o.Moves {
						if m.From.Z < 0 && m.To.Z < 0 {
							axis = append(axis, m.plan())
						}
					}
				}
				if held > 0 {
					return
				}
				box := hole.Bounds()
				for x := box.Min.X + 0.25; x < box.Max.X; x += 0.5 {
					for y := box.Min.Y + 0.25; y < box.Max.Y; y += 0.5 {
						at := r2.Vec{X: x, Y: y}
						if !hole.Contains(at) || hole.Distance(at) > 0 && hole.Distance(at) < d/4 {
							continue // corners are not asked here
						}
						near := math.Inf(1)
						for _, s := range axis {
							_, q := s.Closest(r2.Add(at, r2.Vec{X: 50, Y: 50}))
							near = math.Min(near, r2.Norm(r2.Sub(q, r2.Add(at, r2.Vec{X: 50, Y: 50}))))
						}
						assert.LessOrEqual(t, near, d/2, "%v is left standing", at)
					}
				}
			})
		}
	}
}

// Blind holes hardly wider than the cutter, up to wide ones, are cut to the
// floor and nowhere else.
func TestBlindHoles(t *testing.T) {
	for _, d := range []float64{4, 6, 6.35, 8, 9.525} {
		for _, f := range []float64{1.01, 1.1, 1.4, 1.8, 2.3, 2.9, 4.1} {
			p := sheet.Part{Name: "p", Qty: 1, Material: "mdf", Thickness: 18, Outline: arc.Region{Outer: arc.Rect(0, 0, 300, 120)}}
			// On a row of the replay's own grid, and off it.
			var w Work
			for _, y := range []float64{49, 81.3} {
				w.Pockets = append(w.Pockets, Pocket{arc.Region{Outer: arc.Circle(r2.Vec{X: 101, Y: y}, d*f/2)}, 8})
			}
			job := Job{Stock: sheet.Stock{Material: "mdf", Thickness: 18, Length: 500, Width: 300},
				Parts: []sheet.Part{p}, Works: []Work{w}, Placements: []sheet.Placement{{At: r2.Vec{X: 50, Y: 50}}}}
			opt := Options{Tools: Tools(d, 3.2, 18)}
			plan, err := Plan(context.Background(), job, opt)
			require.NoError(t, err)
			_, err = Replay(context.Background(), job, plan.Moves(), opt)
			require.NoError(t, err, "%g in a hole of %g", d, d*f)
		}
	}
}
