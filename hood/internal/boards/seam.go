package boards

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/miter"
	"gonum.org/v1/gonum/spatial/r2"
)

// setEdges takes the edges of the blanks from those of the seam.
func (f *flare) setEdges(b *builder, first, second []miter.Edge) bool {
	for _, e := range []struct {
		of    curve.Section
		runs  []miter.Edge
		sweep *seamEdge
		band  *seamEdge
	}{{b.front, first, &f.front, &f.band[0]}, {f.Section, second, &f.side, &f.band[1]}} {
		s, low := e.of, b.t*math.Tan(float64(e.of.Lower))
		high := s.Curve.ShowLength - b.t*math.Tan(float64(s.Upper))
		var ok bool
		if *e.sweep, ok = between(e.runs[len(e.runs)-1], b.Skirt, s.Curve.ShowLength, low, high); !ok {
			return false
		}
		s.ToBlank(e.sweep.show)
		s.ToBlank(e.sweep.back)
		if b.Skirt == 0 {
			continue
		}
		if *e.band, ok = between(e.runs[0], 0, b.Skirt, 0, b.Skirt-low); !ok {
			return false
		}
		e.band.bevel = 45 * arc.Degree
	}
	return true
}

// between returns the stretch of an edge from u up by height, its back from
// low to high above u, moved so that u is at y = 0. A run without a fold holds
// skirt and sweep.
func between(e miter.Edge, u, height, low, high float64) (seamEdge, bool) {
	m := arc.Shift(r2.Vec{Y: -u})
	show, ok1 := rise.Trimmed(e.Show.Transform(m), 0, height)
	back, ok2 := rise.Trimmed(e.Back.Transform(m), low, high)
	return seamEdge{show: show, back: back}, ok1 && ok2
}

// straightEdge is the edge of a blank at a plumb side: in line, mitered.
func straightEdge(s curve.Section, x, t float64) seamEdge {
	low, high := t*math.Tan(float64(s.Lower)), s.Curve.FlatLength-t*math.Tan(float64(s.Upper))
	return seamEdge{
		show:  arc.Polyline(r2.Vec{X: x}, r2.Vec{X: x, Y: s.Curve.FlatLength}),
		back:  arc.Polyline(r2.Vec{X: x - t, Y: low}, r2.Vec{X: x - t, Y: high}),
		bevel: 45 * arc.Degree,
	}
}
