package hood

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/miter"
	"gonum.org/v1/gonum/spatial/r2"
)

// A seamEdge is the edge of a blank at a seam, upward: x out from the middle
// plane or the wall, y up the blank.
type seamEdge struct {
	show, back arc.Path
	bevel      arc.Angle // the largest
	saw        bool      // it changes along the edge
}

// setEdges takes the edges of the blanks from those of the seam.
func (f *flare) setEdges(b *builder, first, second []miter.Edge) bool {
	for _, e := range []struct {
		of    section
		runs  []miter.Edge
		sweep *seamEdge
		band  *seamEdge
	}{{b.front, first, &f.front, &f.band[0]}, {f.section, second, &f.side, &f.band[1]}} {
		s, low := e.of, b.t*math.Tan(float64(e.of.lower))
		high := s.curve.ShowLength - b.t*math.Tan(float64(s.upper))
		var ok bool
		if *e.sweep, ok = between(e.runs[len(e.runs)-1], b.Skirt, s.curve.ShowLength, low, high); !ok {
			return false
		}
		s.toBlank(e.sweep.show)
		s.toBlank(e.sweep.back)
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

// toBlank moves a path from the developed show face to the flat blank.
func (s section) toBlank(p arc.Path) {
	for i := range p.V {
		p.V[i].P.Y = s.onBlank(p.V[i].P.Y)
	}
}

// onBlank returns where a developed length on the show face lies on the flat
// blank: every bend stretches alike.
func (s section) onBlank(u float64) float64 {
	if len(s.plan.Bends) == 0 {
		return u
	}
	at := 0.0 // on the show face
	flat := 0.0
	for _, b := range s.plan.Bends {
		straight := b.FlatAt - flat
		if u <= at+straight {
			break
		}
		at += straight
		flat = b.FlatAt
		show := 0.0
		for i := b.From; i < b.To; i++ {
			show += s.sweep.Segment(i).Length()
		}
		if u <= at+show {
			return flat + (u-at)*b.FlatLength/show
		}
		at += show
		flat += b.FlatLength
	}
	return flat + u - at
}

// straightEdge is the edge of a blank at a plumb side: in line, mitered.
func (s section) straightEdge(x, t float64) seamEdge {
	low, high := t*math.Tan(float64(s.lower)), s.curve.FlatLength-t*math.Tan(float64(s.upper))
	return seamEdge{
		show:  arc.Polyline(r2.Vec{X: x}, r2.Vec{X: x, Y: s.curve.FlatLength}),
		back:  arc.Polyline(r2.Vec{X: x - t, Y: low}, r2.Vec{X: x - t, Y: high}),
		bevel: 45 * arc.Degree,
	}
}

// rear returns the edge of a side along the wall, with the scribe allowance.
// A left edge is drawn outward from x = 0, to the left.
func (b *builder) rear(low, high, backLow, backHigh float64) seamEdge {
	a := b.Scribe.Allowance
	return seamEdge{
		show: arc.Polyline(r2.Vec{X: a, Y: low}, r2.Vec{X: a, Y: high}),
		back: arc.Polyline(r2.Vec{X: a, Y: backLow}, r2.Vec{X: a, Y: backHigh}),
	}
}
