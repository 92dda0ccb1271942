package boards

import (
	"example.com/sagitta/hood/curve"
	"fmt"
	"math"
	"slices"

	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/hood/spec"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A passage is a room in which nothing solid may stand, since something passes:
// an outline, run along an axis of the hood. It may only go through the part that
// has an opening for it.
type passage struct {
	at       string     // the JSON path of what is asked for it
	through  part.Kind  // has the opening
	axis     int        // it runs along: 0 x, 1 y, 2 z
	from, to float64    // along it
	where    r2.Vec     // its middle, on the other two axes
	half     r2.Vec     // its half extents there
	round    bool       // a circle, of radius half.X
	fields   [2]string  // that move it along those axes
	shift    r2.Vec     // the value of a field less where it puts the middle
	low      r2.Vec     // where its middle may be
	high     r2.Vec     //
	values   [2]float64 // as asked
}

// across returns the axes a passage does not run along.
func (p passage) across() (int, int) {
	if p.axis == 2 {
		return 0, 1
	}
	return 0, 2
}

// passages lists what passes through the hood: pipes and cables through the back,
// as far in front of it as half their lesser width, the duct from half its width
// under the deck to the top of the chimney, and the insert through its shelf from
// below, with a board's thickness above it.
func (b *builder) passages() []passage {
	var out []passage
	back := b.BackFace()
	for i, o := range b.Back.Openings {
		at := fmt.Sprintf("back.openings[%d]", i)
		p := passage{at: at, through: KindBack, axis: 2, where: r2.Vec{X: o.X, Y: o.Y}, half: r2.Vec{X: o.Width / 2, Y: o.Height / 2}}
		if o.Shape == "circle" {
			p.round, p.half = true, r2.Vec{X: o.Diameter / 2, Y: o.Diameter / 2}
		}
		p.to = back + math.Min(p.half.X, p.half.Y)
		p.fields, p.values = [2]string{at + ".x", at + ".y"}, [2]float64{o.X, o.Y}
		left, right := b.between(o.Y-p.half.Y, o.Y+p.half.Y)
		p.low, p.high = r2.Vec{X: p.half.X - left, Y: p.half.Y}, r2.Vec{X: right - p.half.X, Y: b.Height - p.half.Y}
		out = append(out, p)
	}
	if d := b.Duct.Diameter; d > 0 {
		l := b.levelAt(b.Height - b.t)
		mid := b.ductAt(l)
		p := passage{at: "duct", through: KindDeck, axis: 1, from: b.Height - b.t - d/2, to: b.Height + b.Chimney.Height, round: true}
		p.where, p.half = r2.Vec{X: mid.X, Y: l.front[0] - mid.Y}, r2.Vec{X: d / 2, Y: d / 2}
		p.fields, p.values = [2]string{"duct.x", "duct.z"}, [2]float64{b.Duct.X, b.Duct.Z}
		p.shift.X = -b.Neck.Offset
		wide, deep := b.NeckWidth()/2-b.t-d/2, rise.OutAt(b.front.Inner, b.Height)
		p.low, p.high = r2.Vec{X: b.Neck.Offset - wide, Y: back + d/2}, r2.Vec{X: b.Neck.Offset + wide, Y: deep - d/2}
		out = append(out, p)
	}
	if n := b.Liner; n.Length > 0 {
		l := b.levelAt(n.Y)
		o := b.linerAt(l)
		p := passage{at: "liner", through: KindShelf, axis: 1, to: n.Y + 2*b.t}
		p.where, p.half = r2.Vec{X: o.X, Y: l.front[0] - o.Y}, r2.Vec{X: o.Width / 2, Y: o.Height / 2}
		p.fields, p.values = [2]string{"liner.x", "liner.z"}, [2]float64{n.X, n.Z}
		p.low = r2.Vec{X: p.half.X - min(l.left[0], l.left[1]), Y: back + p.half.Y}
		p.high = r2.Vec{X: min(l.right[0], l.right[1]) - p.half.X, Y: l.front[1] - p.half.Y}
		out = append(out, p)
	}
	return out
}

// between returns how far both sides stand off inside, where that is least
// between two heights.
func (b *builder) between(low, high float64) (left, right float64) {
	least := func(f flare, e curve.Ends) float64 {
		p := b.inside(f, e, b.t)
		to := math.Min(rise.OutAt(p, low), rise.OutAt(p, high))
		for _, v := range p.V {
			if v.P.Y > low && v.P.Y < high {
				to = math.Min(to, v.P.X)
			}
		}
		return to
	}
	return least(b.left, b.LeftEnds()), least(b.right, b.RightEnds())
}

// play is what a passage may be touched by: rounding, mm.
const play = 1e-4

// meets reports whether a solid stands in the passage, and how far it reaches
// there on the two axes across.
func (p passage) meets(s part.Solid) (low, high r2.Vec, ok bool) {
	low, high = r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}
	i, j := p.across()
	for _, t := range s.Triangles {
		if a, b, c := along(s.Vertices[t[0]], p.axis), along(s.Vertices[t[1]], p.axis), along(s.Vertices[t[2]], p.axis); max(a, b, c) < p.from+play || min(a, b, c) > p.to-play {
			continue
		}
		face := clipped([]r3.Vec{s.Vertices[t[0]], s.Vertices[t[1]], s.Vertices[t[2]]}, p.axis, p.from+play, p.to-play)
		if len(face) == 0 {
			continue
		}
		flat := make([]r2.Vec, len(face))
		least, most := r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}
		for k, v := range face {
			flat[k] = r2.Vec{X: along(v, i), Y: along(v, j)}
			least = r2.Vec{X: math.Min(least.X, flat[k].X), Y: math.Min(least.Y, flat[k].Y)}
			most = r2.Vec{X: math.Max(most.X, flat[k].X), Y: math.Max(most.Y, flat[k].Y)}
		}
		low = r2.Vec{X: math.Min(low.X, least.X), Y: math.Min(low.Y, least.Y)}
		high = r2.Vec{X: math.Max(high.X, most.X), Y: math.Max(high.Y, most.Y)}
		apart := least.X > p.where.X+p.half.X || most.X < p.where.X-p.half.X || least.Y > p.where.Y+p.half.Y || most.Y < p.where.Y-p.half.Y
		ok = ok || !apart && p.holds(flat)
	}
	return low, high, ok
}

// holds reports whether a convex polygon has a point within the outline.
func (p passage) holds(face []r2.Vec) bool {
	for i, v := range face {
		face[i] = r2.Sub(v, p.where)
	}
	if p.round {
		return toOrigin(face) < p.half.X-play
	}
	for axis := range 2 {
		half := []float64{p.half.X, p.half.Y}[axis] - play
		flat := make([]r3.Vec, len(face))
		for i, v := range face {
			flat[i] = r3.Vec{X: v.X, Y: v.Y}
		}
		face = face[:0]
		for _, v := range clipped(flat, axis, -half, half) {
			face = append(face, r2.Vec{X: v.X, Y: v.Y})
		}
	}
	return len(face) > 0
}

// toOrigin returns the distance of a convex polygon from the origin, 0 inside it.
func toOrigin(face []r2.Vec) float64 {
	near, left, right := math.Inf(1), false, false
	for i, a := range face {
		b := face[(i+1)%len(face)]
		d := r2.Sub(b, a)
		f := 0.0
		if l := r2.Norm2(d); l > 0 {
			f = max(0, min(-r2.Dot(a, d)/l, 1))
		}
		near = math.Min(near, r2.Norm(r2.Add(a, r2.Scale(f, d))))
		side := r2.Cross(d, r2.Scale(-1, a))
		left, right = left || side > 0, right || side < 0
	}
	if left != right {
		return 0
	}
	return near
}

func along(v r3.Vec, axis int) float64 { return [3]float64{v.X, v.Y, v.Z}[axis] }

// clipped returns what of a convex polygon lies between two planes square to an
// axis (Sutherland and Hodgman 1974).
func clipped(face []r3.Vec, axis int, from, to float64) []r3.Vec {
	for _, s := range [2]struct{ sign, at float64 }{{1, from}, {-1, -to}} {
		var out []r3.Vec
		for i, a := range face {
			b := face[(i+1)%len(face)]
			da, db := s.sign*along(a, axis)-s.at, s.sign*along(b, axis)-s.at
			if da >= 0 {
				out = append(out, a)
			}
			if (da >= 0) != (db >= 0) {
				out = append(out, r3.Add(a, r3.Scale(da/(da-db), r3.Sub(b, a))))
			}
		}
		face = out
	}
	return face
}

// checkPassages asks every passage to be clear, and says where it would be.
func (b *builder) checkPassages() {
	all := b.passages()
	if len(all) == 0 {
		return
	}
	var folded []part.Folded
	for _, p := range b.parts {
		if f, err := part.Fold(p); err == nil && p.Kind != KindForm {
			folded = append(folded, f)
		}
	}
	solids, kinds := meshes(folded, func(f part.Folded) bool {
		return slices.ContainsFunc(all, func(p passage) bool { return p.near(f) })
	})
	for _, p := range all {
		switch {
		case p.through == KindBack && (p.where.X < p.low.X || p.where.X > p.high.X):
			b.faults.Add(p.fields[0], p.values[0], "mm", fmt.Sprintf("from %s to %s, between the sides at that height", b.faults.In.Up(p.low.X), b.faults.In.Down(p.high.X)), spec.ErrPlace)
		case p.clear(solids, kinds) != "":
			every, of := meshes(folded, func(part.Folded) bool { return true }) // where it could go any may stand
			b.blocked(p, every, of)
		}
	}
}

// meshes returns the solids of some parts, and their kinds.
func meshes(folded []part.Folded, keep func(part.Folded) bool) (solids []part.Solid, kinds []part.Kind) {
	for _, f := range folded {
		if keep(f) {
			solids, kinds = append(solids, f.Solid()), append(kinds, f.Kind)
		}
	}
	return solids, kinds
}

// bulge is how far the web of a kerf may stand out between its ends, mm: the sag
// of an arc as long as a kerf of 8 mm is wide, over a right angle.
const bulge = 1.4

// near reports whether a part comes so near a passage that its mesh has to be
// asked: it goes by the corners of the part on both faces, at each height at
// which it bends. A panel that bends evenly is always asked.
func (p passage) near(f part.Folded) bool {
	if len(f.Bent) > 0 {
		return true
	}
	box := f.Outline.Bounds()
	back := f.Back.Bounds()
	box.Min.X, box.Max.X = math.Min(box.Min.X, back.Min.X), math.Max(box.Max.X, back.Max.X)
	box.Min.Y, box.Max.Y = math.Min(box.Min.Y, back.Min.Y), math.Max(box.Max.Y, back.Max.Y)
	low, high := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}, [3]float64{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for _, y := range append([]float64{box.Min.Y, box.Max.Y}, f.Breaks...) {
		for _, x := range [2]float64{box.Min.X, box.Max.X} {
			for _, depth := range [2]float64{0, f.Thickness} {
				v := f.Point(r2.Vec{X: x, Y: y}, depth)
				for k := range 3 {
					low[k], high[k] = math.Min(low[k], along(v, k)), math.Max(high[k], along(v, k))
				}
			}
		}
	}
	i, j := p.across()
	return low[p.axis] <= p.to+bulge && high[p.axis] >= p.from-bulge &&
		low[i] <= p.where.X+p.half.X+bulge && high[i] >= p.where.X-p.half.X-bulge &&
		low[j] <= p.where.Y+p.half.Y+bulge && high[j] >= p.where.Y-p.half.Y-bulge
}

// clear returns the name of a part that stands in a passage, "" where none does.
func (p passage) clear(solids []part.Solid, kinds []part.Kind) string {
	for i, s := range solids {
		if kinds[i] == p.through {
			continue
		}
		if _, _, ok := p.meets(s); ok {
			return s.Name
		}
	}
	return ""
}

// blocked adds the fault of a passage that is not clear: the field that moves it
// least to a place that is, or else that it is too large.
func (b *builder) blocked(p passage, solids []part.Solid, kinds []part.Kind) {
	name, best, field, to := "", math.Inf(1), -1, ""
	for i, s := range solids {
		low, high, ok := p.meets(s)
		if kinds[i] == p.through || low.X > high.X {
			continue
		}
		if ok && name == "" {
			name = s.Name
		}
		for axis := range 2 {
			at, half := along2(p.where, axis), along2(p.half, axis)
			for _, v := range [2]float64{along2(low, axis) - half - clearance, along2(high, axis) + half + clearance} {
				if v < along2(p.low, axis) || v > along2(p.high, axis) || math.Abs(v-at) >= best {
					continue
				}
				if p.movedTo(axis, v).clear(solids, kinds) == "" {
					best, field, to = math.Abs(v-at), axis, b.faults.In.Down(v+along2(p.shift, axis))
					if v > at {
						to = b.faults.In.Up(v + along2(p.shift, axis))
					}
				}
			}
		}
	}
	if field < 0 {
		size := p.at
		value := 2 * math.Min(p.half.X, p.half.Y)
		b.faults.Add(size, value, "mm", fmt.Sprintf("a smaller one, or none, as %s stands where it passes, and everywhere else", name), spec.ErrPlace)
		return
	}
	b.faults.Add(p.fields[field], p.values[field], "mm", fmt.Sprintf("%s, clear of %s, which stands where it passes", to, name), spec.ErrPlace)
}

// clearance is what a passage that is moved is kept from what it is moved away
// from, mm.
const clearance = 1

func along2(v r2.Vec, axis int) float64 { return [2]float64{v.X, v.Y}[axis] }

func (p passage) movedTo(axis int, v float64) passage {
	if axis == 0 {
		p.where.X = v
	} else {
		p.where.Y = v
	}
	return p
}
