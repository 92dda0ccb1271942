package sheet

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/rects"
)

// A joint is copies that are packed as one rectangle: one, or some that reach
// into each other's boxes.
type joint struct {
	lie   []Placement
	loops [][]r2.Vec // grown outlines
	box   r2.Box     // of these
	turns int        // by right angles, that it may take: 1, 2 or 4
	flips bool       // may be mirrored
	rank  int        // priority of its parts
	kind  string     // equal for joints that differ by their copies only
	from  int        // index of the box, of a single copy
}

// of returns the joint with the copies of two others.
func (p *joint) of(a, b joint) *joint {
	q := *p
	p = &q
	p.lie = slices.Clone(p.lie)
	for i, q := range slices.Concat(a.lie, b.lie) {
		p.lie[i].Part, p.lie[i].Copy = q.Part, q.Copy
	}
	return p
}

func (p joint) fits(bin r2.Vec) bool {
	w, h := p.box.Max.X-p.box.Min.X, p.box.Max.Y-p.box.Min.Y
	return w <= bin.X && h <= bin.Y || p.turns == 4 && h <= bin.X && w <= bin.Y
}

// space returns the area within the outlines.
func (p joint) space() float64 {
	sum := 0.0
	for _, l := range p.loops {
		sum += math.Abs(shoelace(l))
	}
	return sum
}

// A way is a joint in one of its turns, as it looks from both sides.
type way struct {
	joint
	left, right profile
}

// ways lists a joint as it may be turned, and mirrored.
func (p joint) ways(flips bool) []way {
	all := []joint{p}
	if flips {
		all = append(all, p.moved(arc.MirrorX()))
	}
	var out []way
	for _, o := range all {
		for q := range p.turns {
			t := o.moved(arc.Rotate(arc.Angle(q) * 2 * math.Pi / arc.Angle(p.turns)))
			out = append(out, way{t, t.profile(false), t.profile(true)})
		}
	}
	return out
}

// moved returns a joint after a turn by right angles or a mirroring.
func (p joint) moved(m arc.Motion) joint {
	out := p
	out.lie, out.loops = nil, nil
	turn := math.Round(2/math.Pi*math.Atan2(m.Apply(r2.Vec{X: 1}).Y, m.Apply(r2.Vec{X: 1}).X)) * math.Pi / 2
	for _, q := range p.lie {
		q.At = m.Apply(q.At)
		if m.Mirrors() {
			q.Rotate, q.Mirror = -q.Rotate, !q.Mirror
		} else {
			q.Rotate = arc.Angle(math.Mod(float64(q.Rotate)+turn, 2*math.Pi))
		}
		out.lie = append(out.lie, q)
	}
	for _, l := range p.loops {
		c := make([]r2.Vec, len(l))
		for i, v := range l {
			c[i] = m.Apply(v)
		}
		out.loops = append(out.loops, c)
	}
	a, b := m.Apply(p.box.Min), m.Apply(p.box.Max)
	out.box = box(math.Min(a.X, b.X), math.Min(a.Y, b.Y), math.Max(a.X, b.X), math.Max(a.Y, b.Y))
	return out
}

// with joins another joint, moved by a vector.
func (p joint) with(b joint, at r2.Vec) joint {
	p.lie, p.loops = slices.Clone(p.lie), slices.Clone(p.loops)
	for _, q := range b.lie {
		q.At = r2.Add(q.At, at)
		p.lie = append(p.lie, q)
	}
	for _, l := range b.loops {
		c := make([]r2.Vec, len(l))
		for i, v := range l {
			c[i] = r2.Add(v, at)
		}
		p.loops = append(p.loops, c)
	}
	p.box = union(p.box, b.box, at)
	return p
}

func union(a, b r2.Box, at r2.Vec) r2.Box {
	return box(math.Min(a.Min.X, b.Min.X+at.X), math.Min(a.Min.Y, b.Min.Y+at.Y),
		math.Max(a.Max.X, b.Max.X+at.X), math.Max(a.Max.Y, b.Max.Y+at.Y))
}

// boxed returns a joint as it is packed.
func (p joint) boxed(half r2.Vec) (b boxed) {
	for i, q := range [2]joint{p, p.moved(arc.Rotate(90 * arc.Degree))} {
		b.lie[i], b.low[i] = q.lie, r2.Add(q.box.Min, half)
	}
	return b
}

// single returns a boxed copy as a joint.
func (r *run) single(it rects.Item, b boxed, play float64) joint {
	q := b.lie[0][0]
	part := r.parts[q.Part]
	p := joint{lie: b.lie[0], turns: 2, flips: part.MirrorOK, rank: part.Priority, kind: fmt.Sprint(b.k)}
	switch {
	case part.Turns == NoTurn:
		p.turns = 1
	case it.Turn:
		p.turns = 4
	}
	m := q.Motion()
	loop := make([]r2.Vec, len(r.outer[b.k]))
	for i, v := range r.outer[b.k] {
		loop[i] = m.Apply(v)
	}
	if wide, ok := outset(loop, play); ok {
		loop = wide
	}
	p.loops = [][]r2.Vec{loop}
	p.box = extent(loop)
	return p
}

// play is what joints keep apart beyond the gap, so that the engine, which
// rounds outlines outward, can go on from their layout.
func (r *run) play() float64 {
	size := 0.0
	for _, l := range r.outer {
		b := extent(l)
		size = math.Max(size, math.Max(b.Max.X-b.Min.X, b.Max.Y-b.Min.Y))
	}
	return 1e-6 * size
}

// extent returns the box of a polygon.
func extent(p []r2.Vec) r2.Box {
	b := r2.Box{Min: p[0], Max: p[0]}
	for _, v := range p {
		b = union(b, r2.Box{Min: v, Max: v}, r2.Vec{})
	}
	return b
}
