package hood

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A pinHole is a hole for a pin in a part.
type pinHole struct {
	at              r2.Vec
	diameter, depth float64
}

// pins measures every hole for a pin against its mate.
func (p *proof) pins() {
	if p.b.Pins.Diameter == 0 {
		return
	}
	p.pinned("back", "cleat")
	p.pinned("liner-shelf", "corner-block-left", "corner-block-right")
}

// pinned measures the holes of parts that lie on the back face of a board.
func (p *proof) pinned(base string, on ...string) {
	board, ok := p.parts[base]
	if !ok {
		return
	}
	mates := board.pinHoles(false)
	lone := len(mates)
	for _, name := range on {
		part, ok := p.parts[name]
		if !ok {
			continue
		}
		through := name != "cleat"
		holes := part.pinHoles(through)
		lone -= len(holes)
		off, size, apart := 0.0, 0.0, 0.0
		for _, h := range holes {
			face, depth := part.Thickness, p.b.Pins.Depth
			if through {
				face, depth = 0, part.Thickness
			}
			at, deep := board.Pose.Local(part.Point(h.at, face))
			mate, far := nearest(mates, at)
			off, apart = math.Max(off, far), math.Max(apart, math.Abs(deep-board.Thickness))
			for _, d := range [4]float64{h.diameter - p.b.Pins.hole(), mate.diameter - p.b.Pins.hole(), h.depth - depth, mate.depth - p.b.Pins.Depth} {
				size = math.Max(size, math.Abs(d))
			}
		}
		if len(holes) > 0 {
			p.add(name+" pinned to "+base+": holes off their mates", off, rounding, "mm")
			p.add(name+" pinned to "+base+": holes off what is asked", size, rounding, "mm")
			p.add(name+" pinned to "+base+": faces apart", apart, rounding, "mm")
		}
	}
	p.add(base+": holes for pins without a mate", math.Abs(float64(lone)), 0, "")
}

// pinHoles returns the holes for pins of a part: blind ones, or those right
// through.
func (s placed) pinHoles(through bool) []pinHole {
	var out []pinHole
	add := func(l arc.Path, depth float64) {
		if round(l) {
			b := l.Bounds()
			out = append(out, pinHole{r2.Scale(0.5, r2.Add(b.Min, b.Max)), b.Max.X - b.Min.X, depth})
		}
	}
	if through {
		for _, h := range s.Outline.Holes {
			add(h, s.Thickness)
		}
		return out
	}
	for _, k := range s.Work.Pockets {
		add(k.Area.Outer, k.Depth)
	}
	return out
}

// nearest returns the hole nearest to a point, and how far it is from it.
func nearest(holes []pinHole, at r2.Vec) (pinHole, float64) {
	best, far := pinHole{}, math.Inf(1)
	for _, h := range holes {
		if d := r2.Norm(r2.Sub(h.at, at)); d < far {
			best, far = h, d
		}
	}
	return best, far
}
