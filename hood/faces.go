package hood

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/rise"
	"gonum.org/v1/gonum/spatial/r2"
)

// outline joins the sides. It also returns the bevel of each segment.
func (p plate) outline() (arc.Path, []arc.Angle) {
	out := arc.Path{Closed: true}
	var bevels []arc.Angle
	for _, s := range p.sides {
		for _, v := range s.path.V[:len(s.path.V)-1] {
			out.V = append(out.V, v)
			bevels = append(bevels, s.bevel)
		}
	}
	return out, bevels
}

// atDepth returns the outline a depth from the show face, counting only the
// bevels that keep lets through.
func atDepth(outline arc.Path, bevels []arc.Angle, depth float64, keep func(arc.Angle) bool) (arc.Path, bool) {
	at := make([]float64, len(bevels))
	all := true
	for i, b := range bevels {
		if b != 0 && keep(b) {
			at[i] = depth * math.Tan(float64(b))
			all = false
		}
	}
	if all {
		return outline.Clone(), true
	}
	out, err := outline.Shift(at, rise.AtLine)
	return out, err == nil
}

func anyBevel(arc.Angle) bool { return true }

func undercut(a arc.Angle) bool { return a < 0 }

// outlines are those of a part: show face, half way, back face and blank.
type outlines struct{ show, mid, back, blank arc.Path }

// ruled reports whether the back edges are given.
func (p plate) ruled() bool { return len(p.sides[0].back.V) > 0 }

// faces works out the outlines.
func (p plate) faces() (outlines, bool) {
	show, bevels := p.outline()
	if p.ruled() {
		back := arc.Path{Closed: true}
		for _, s := range p.sides {
			back.V = append(back.V, s.back.V[:len(s.back.V)-1]...)
		}
		return outlines{show: show, back: back, blank: p.ruledBlank()}, true
	}
	back, ok1 := atDepth(show, bevels, p.thickness, anyBevel)
	mid, ok2 := atDepth(show, bevels, p.thickness/2, anyBevel)
	blank, ok3 := atDepth(show, bevels, p.thickness, undercut)
	return outlines{show, mid, back, blank}, ok1 && ok2 && ok3
}

// ruledUprights returns the right and the left edge of a part whose back edges
// are given, run on to what undercut level edges leave over.
func (p plate) ruledUprights() (right, left arc.Path) {
	bottom, top := p.sides[0], p.sides[2]
	right, left = p.sides[1].path, p.sides[3].path.Reverse()
	for _, edge := range []*arc.Path{&right, &left} {
		if bottom.bevel < 0 {
			*edge, _ = rise.StartAt(*edge, rise.HalfPlane{At: bottom.back.V[0].P, Out: r2.Vec{Y: -1}})
		}
		if top.bevel < 0 {
			*edge, _ = rise.EndAt(*edge, rise.HalfPlane{At: top.back.V[0].P, Out: r2.Vec{Y: 1}})
		}
	}
	return right, left.Reverse()
}

// ruledBlank returns the outline with what undercut level edges leave over.
func (p plate) ruledBlank() arc.Path {
	right, left := p.ruledUprights()
	out := arc.Path{Closed: true, V: slices.Concat(right.V, left.V)}
	out.V[len(right.V)-1].K, out.V[len(out.V)-1].K = 0, 0
	return out
}
