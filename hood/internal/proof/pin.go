package proof

import (
	"example.com/sagitta/hood/part"
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// Pins claims that the holes for pins of parts which lie on the back face of a
// board have their mates in it.
type Pins struct {
	Base  string
	On    []Pinned
	Hole  float64 // diameter
	Depth float64 // of a blind hole
}

// A Pinned is a part on the board: with blind holes, or with holes right through.
type Pinned struct {
	Name    string
	Through bool
}

// A pinHole is a hole for a pin in a part.
type pinHole struct {
	at              r2.Vec
	diameter, depth float64
}

// measure measures every hole for a pin against its mate.
func (c Pins) measure(p *prover) {
	base := c.Base
	board, ok := p.parts[base]
	if !ok {
		return
	}
	mates := board.pinHoles(false)
	lone := len(mates)
	for _, o := range c.On {
		name, through := o.Name, o.Through
		on, ok := p.parts[name]
		if !ok {
			continue
		}
		holes := on.pinHoles(through)
		lone -= len(holes)
		off, size, apart := 0.0, 0.0, 0.0
		for _, h := range holes {
			face, depth := on.Thickness, c.Depth
			if through {
				face, depth = 0, on.Thickness
			}
			at, deep := board.Pose.Local(on.Point(h.at, face))
			mate, far := nearest(mates, at)
			off, apart = math.Max(off, far), math.Max(apart, math.Abs(deep-board.Thickness))
			for _, d := range [4]float64{h.diameter - c.Hole, mate.diameter - c.Hole, h.depth - depth, mate.depth - c.Depth} {
				size = math.Max(size, math.Abs(d))
			}
		}
		if len(holes) > 0 {
			p.add(name+" pinned to "+base+": holes off their mates", off, Rounding, "mm")
			p.add(name+" pinned to "+base+": holes off what is asked", size, Rounding, "mm")
			p.add(name+" pinned to "+base+": faces apart", apart, Rounding, "mm")
		}
	}
	p.add(base+": holes for pins without a mate", math.Abs(float64(lone)), 0, "")
}

// pinHoles returns the holes for pins of a part: blind ones, or those right
// through.
func (s placed) pinHoles(through bool) []pinHole {
	var out []pinHole
	add := func(l arc.Path, depth float64) {
		if part.Round(l) {
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
