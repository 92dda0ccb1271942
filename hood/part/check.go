package part

import (
	"errors"
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r3"
)

// ErrPart is the kind of fault of a part that cannot be folded, beside those of
// package arc.
var ErrPart = errors.New("not a part that folds")

// maxSize bounds the sizes of a part, mm, and with them the points of its mesh.
const maxSize = 1e5

// check returns the first fault of a part that Fold and Solid could not work
// with.
func (p Part) check() error {
	fault := func(param string, v any, need string, kind error) error {
		return &arc.ParamError{Func: "part.Fold", Param: p.Name + ": " + param, Value: v, Unit: "mm", Need: need, Err: kind}
	}
	switch {
	case !(p.Thickness > 0 && p.Thickness <= maxSize):
		return fault("Thickness", p.Thickness, "over 0 and at most 1e5", arc.ErrRange)
	case !p.Pose.finite():
		return fault("Pose", p.Pose, "finite vectors", arc.ErrNotFinite)
	case len(p.Outline.Outer.V) < 2 || !small(p.Outline.Outer):
		return fault("Outline", len(p.Outline.Outer.V), "a finite loop within 1e5", arc.ErrRange)
	case !p.Cells && !fellows(p.Outline, p.Back):
		return fault("Back", len(p.Back.Outer.V), "the loops of Outline, vertex by vertex, within 1e5", ErrPart)
	case p.Cells && !p.framed():
		return fault("Edges", len(p.Edges), "four edges, to be meshed in cells", ErrPart)
	case !p.Cells && len(p.Kerfs)+len(p.Bent) > 0:
		return fault("Cells", p.Cells, "true for a part that bends", ErrPart)
	case len(p.Kerfs) > len(p.Work.Slots):
		return fault("Kerfs", len(p.Kerfs), "a slot for each", ErrPart)
	case !p.bends():
		return fault("Bent", len(p.Bent), "stretches one after the other, on the blank", arc.ErrRange)
	}
	for _, e := range p.Edges {
		if !small(e.Show) || !small(e.Back) {
			return fault("Edges", e.Name, "finite edges within 1e5", arc.ErrNotFinite)
		}
	}
	for _, s := range p.Work.Slots {
		if !(s.Depth > 0 && s.Depth < p.Thickness && s.Width > 0 && s.Width <= maxSize && math.Abs(s.From.Y) <= maxSize) {
			return fault("Work.Slots", s, "a depth and width over 0, less deep than the part is thick", arc.ErrRange)
		}
	}
	for _, k := range p.Work.Pockets {
		if !(k.Depth > 0 && k.Depth < p.Thickness) || len(k.Area.Outer.V) < 2 || !small(k.Area.Outer) {
			return fault("Work.Pockets", k.Depth, "an area, over 0 and less deep than the part is thick", arc.ErrRange)
		}
	}
	return nil
}

// bends reports whether the stretches follow each other on the blank and none
// turns by more than once round.
func (p Part) bends() bool {
	b := p.Outline.Bounds()
	at, turn := 0.0, 0.0
	for _, s := range p.Bent {
		turn += math.Abs(float64(s.Turn))
		if !(s.From >= at-1e-9 && s.To > s.From && s.To <= b.Max.Y-b.Min.Y+1e-9 && s.Turn != 0 && turn <= 2*math.Pi) {
			return false
		}
		at = s.To
	}
	return true
}

// fellows reports whether two regions have loops that can be joined vertex by
// vertex.
func fellows(a, b arc.Region) bool {
	show, back := a.Loops(), b.Loops()
	if len(show) != len(back) {
		return false
	}
	for i := range show {
		if len(show[i].V) < 2 || len(show[i].V) != len(back[i].V) || !small(show[i]) || !small(back[i]) {
			return false
		}
	}
	return true
}

// small reports whether a path is finite and within the sizes of a part.
func small(p arc.Path) bool {
	for _, v := range p.V {
		if !(math.Abs(v.P.X) <= maxSize && math.Abs(v.P.Y) <= maxSize && math.Abs(v.K) <= 1e3) {
			return false
		}
	}
	return true
}

func (p Pose) finite() bool {
	for _, v := range [4]r3.Vec{p.At, p.Right, p.Up, p.In} {
		if !(math.Abs(v.X)+math.Abs(v.Y)+math.Abs(v.Z) <= 1e9) {
			return false
		}
	}
	return true
}
