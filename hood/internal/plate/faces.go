package plate

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/rise"
	"gonum.org/v1/gonum/spatial/r2"
)

// outline joins the sides. It also returns the bevel of each segment.
func (p Plate) outline() (arc.Path, []arc.Angle) {
	out := arc.Path{Closed: true}
	var bevels []arc.Angle
	for _, s := range p.Sides {
		for _, v := range s.Path.V[:len(s.Path.V)-1] {
			out.V = append(out.V, v)
			bevels = append(bevels, s.Bevel)
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
func (p Plate) ruled() bool { return len(p.Sides[0].Back.V) > 0 }

// Holds reports whether every bevel leaves its side on the back face.
func (p Plate) Holds() bool {
	_, ok := p.faces()
	return ok
}

// faces works out the outlines.
func (p Plate) faces() (outlines, bool) {
	show, bevels := p.outline()
	if p.ruled() {
		back := arc.Path{Closed: true}
		for _, s := range p.Sides {
			back.V = append(back.V, s.Back.V[:len(s.Back.V)-1]...)
		}
		return outlines{show: show, back: back, blank: p.ruledBlank()}, true
	}
	back, ok1 := atDepth(show, bevels, p.Thickness, anyBevel)
	mid, ok2 := atDepth(show, bevels, p.Thickness/2, anyBevel)
	blank, ok3 := atDepth(show, bevels, p.Thickness, undercut)
	return outlines{show, mid, back, blank}, ok1 && ok2 && ok3
}

// ruledUprights returns the right and the left edge of a part whose back edges
// are given, run on to what undercut level edges leave over.
func (p Plate) ruledUprights() (right, left arc.Path) {
	bottom, top := p.Sides[0], p.Sides[2]
	right, left = p.Sides[1].Path, p.Sides[3].Path.Reverse()
	for _, edge := range []*arc.Path{&right, &left} {
		if bottom.Bevel < 0 {
			*edge, _ = rise.StartAt(*edge, rise.HalfPlane{At: bottom.Back.V[0].P, Out: r2.Vec{Y: -1}})
		}
		if top.Bevel < 0 {
			*edge, _ = rise.EndAt(*edge, rise.HalfPlane{At: top.Back.V[0].P, Out: r2.Vec{Y: 1}})
		}
	}
	return right, left.Reverse()
}

// ruledBlank returns the outline with what undercut level edges leave over.
func (p Plate) ruledBlank() arc.Path {
	right, left := p.ruledUprights()
	out := arc.Path{Closed: true, V: slices.Concat(right.V, left.V)}
	out.V[len(right.V)-1].K, out.V[len(out.V)-1].K = 0, 0
	return out
}
