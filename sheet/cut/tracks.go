package cut

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Track is the way of the cutter's axis in one operation seen from above, for
// a drawing: paths of lines and arcs on the sheet, each piece once however many
// passes go over it.
type Track struct {
	Kind      Kind
	Placement int
	Name      string
	Tool      int
	Diameter  float64 // of the cutter, mm: how wide to draw it, unless it is a V cutter
	Depth     float64
	Paths     []arc.Path
}

// Tracks returns what the program cuts, operation by operation, and the travel
// between the operations as one polyline from the first start to the last end.
func (p Program) Tracks() (cuts []Track, travel []arc.Path) {
	for i, o := range p.Operations {
		t := Track{Kind: o.Kind, Placement: o.Placement, Name: o.Name, Tool: o.Tool, Depth: o.Depth}
		for _, tool := range p.Tools {
			if tool.Number == o.Tool {
				t.Diameter = tool.Diameter
			}
		}
		t.Paths = seen(o.Moves)
		cuts = append(cuts, t)
		if i > 0 {
			if a, b := p.Operations[i-1].End(), o.Start(); a != b {
				travel = append(travel, arc.Polyline(a, b))
			}
		}
	}
	return cuts, travel
}

// segmentKey tells pieces apart to 1e-4 mm, whichever way they are run.
type segmentKey [5]int64

func keyOf(s arc.Segment) segmentKey {
	if s.A.X > s.B.X || s.A.X == s.B.X && s.A.Y > s.B.Y {
		s = s.Reverse()
	}
	round := func(v float64) int64 { return int64(math.Round(v * 1e4)) }
	return segmentKey{round(s.A.X), round(s.A.Y), round(s.B.X), round(s.B.Y), round(s.K)}
}

// seen returns the paths that moves at feed draw, without repeated pieces.
func seen(moves []Move) []arc.Path {
	var out []arc.Path
	done := map[segmentKey]bool{}
	at := r2.Vec{X: math.NaN()}
	for _, m := range moves {
		s := m.plan()
		if m.Rapid || s.A == s.B || done[keyOf(s)] {
			continue
		}
		done[keyOf(s)] = true
		if s.A != at {
			out = append(out, arc.Path{V: []arc.Vertex{{P: s.A}}})
		}
		v := out[len(out)-1].V
		v[len(v)-1].K = s.K
		out[len(out)-1].V = append(v, arc.Vertex{P: s.B})
		at = s.B
	}
	return out
}
