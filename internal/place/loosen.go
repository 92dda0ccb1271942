package place

import (
	"math"
	"slices"
)

const (
	tilts      = 2  // random turns that a loosened copy may take, besides its own
	alignments = 3  // and turns that lay one of its edges along an axis or an edge of a neighbor
	maxLoose   = 40 // copies loosened at a time

	roundShare = 0.98 // of the hull, that the largest circle inside a disc covers
	longEdge   = 0.15 // as a part of the size, under which edges are not laid along others
)

// loose tells whether a shape of an item may take any turn and is no disc.
func (p *problem) loose(item, o int32) bool {
	s := p.shapes[o]
	if !p.items[item].AnyRotation || len(s.solid().poles) == 0 {
		return false
	}
	r := s.solid().poles[0].r
	return math.Pi*r*r < roundShare*s.weight*s.weight
}

func (l *lane) loose(i int) bool { return l.p.loose(l.item[i], l.o[i]) }

// loosen lets copies of any turn, at most maxLoose drawn at random, take
// turns within tilt of their present ones. The lane then has a problem of its
// own, with the shapes in use and the new ones, which decides pairs as exactly
// as the first. The places and the shapes of all copies stay, but the numbers
// of the shapes change.
func (l *lane) loosen(tilt float64) {
	old, base := l.p, l.p.base
	if base == nil {
		base = old
	}
	p := &problem{
		base: base, grid: base.grid, items: base.items, fixed: base.fixed, turns: base.turns,
		loops: base.loops, cores: base.cores, first: old.first + int32(len(old.forms)),
		forms: map[string]*form{}, tables: map[tableKey]*table{}, bytes: tableBytes / 2,
	}
	number := map[*shape]int32{}
	add := func(s *shape) int32 {
		k, ok := number[s]
		if !ok {
			k = int32(len(p.shapes))
			number[s] = k
			p.shapes = append(p.shapes, s)
		}
		return k
	}
	own := make([][]int32, len(l.o))
	left := maxLoose
	for _, i := range l.rng.Perm(len(l.o)) {
		s := old.shapes[l.o[i]]
		own[i] = []int32{add(s)}
		if i >= l.movable || !l.loose(i) || l.absent[i] {
			for _, o := range base.turns[l.item[i]] {
				own[i] = append(own[i], add(base.shapes[o]))
			}
		}
		if i >= l.movable || !l.loose(i) || left == 0 {
			continue
		}
		left--
		for _, a := range l.tilted(i, tilt) {
			if t, err := p.newShape("", s.item, s.angle+a, s.mirrored, turnedPoles(s.solid().poles, a, false)); err == nil && p.holds(t) {
				own[i] = append(own[i], add(t))
			}
		}
	}
	for i := range l.o {
		l.o[i] = own[i][0]
	}
	l.p, l.own = p, own
	p.makePairs()
}

// tilted draws turns of copy i within tilt of 0.
func (l *lane) tilted(i int, tilt float64) []float64 {
	var out []float64
	for range tilts {
		out = append(out, tilt*(float64(2*l.rng.Float64())-1))
	}
	near := l.neighbors(i)
	for range 60 {
		if len(out) == tilts+alignments {
			break
		}
		along := float64(l.rng.IntN(4)) * math.Pi / 2
		if k := l.rng.IntN(len(near) + 1); k > 0 {
			var ok bool
			if along, ok = l.edgeAngle(near[k-1]); !ok {
				continue
			}
		}
		mine, ok := l.edgeAngle(i)
		if a := math.Remainder(along+math.Pi-mine, 2*math.Pi); ok && math.Abs(a) < tilt && math.Abs(a) > 1e-9 && !slices.Contains(out, a) {
			out = append(out, a)
		}
	}
	return out
}

// edgeAngle returns the direction of an edge of copy i drawn at random; it
// fails if that is a short one.
func (l *lane) edgeAngle(i int) (float64, bool) {
	s := l.p.shapes[l.o[i]].solid()
	loop := s.region[l.rng.IntN(len(s.region))]
	k := l.rng.IntN(len(loop))
	d := loop[(k+1)%len(loop)].sub(loop[k])
	x, y := float64(d.x), float64(d.y)
	return math.Atan2(y, x), math.Hypot(x, y) >= longEdge*s.weight
}

// neighbors lists the copies whose boxes come near that of copy i.
func (l *lane) neighbors(i int) []int {
	var out []int
	b, m := l.boxes[i], float64(0.1*l.size(i))
	for j, c := range l.boxes {
		if j != i && b.x0-m < c.x1 && c.x0-m < b.x1 && b.y0-m < c.y1 && c.y0-m < b.y1 {
			out = append(out, j)
		}
	}
	return out
}

// holds makes sure that the grid outlines of a shape have not lost a corner of
// the true ones.
func (p *problem) holds(s *shape) bool {
	it := p.items[s.item]
	return p.covers(s, it) && (s.core == nil || p.covers(s.cored(), Item{Outer: it.Core[0], Holes: it.Core[1:]}))
}

// covers reports whether a shape has the area and the box of an item.
func (p *problem) covers(s *shape, it Item) bool {
	lo, hi := bounds(applyAll(Placement{Rotation: s.angle, Mirrored: s.mirrored, At: s.shift}, it.Outer))
	b := s.solid().region.box().move(s.t)
	return s.space*p.unit*p.unit >= it.area() &&
		float64(b.x0)*p.unit <= lo.X && float64(b.y0)*p.unit <= lo.Y &&
		float64(b.x1)*p.unit >= hi.X && float64(b.y1)*p.unit >= hi.Y
}
