package place

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// turnedShape makes a shape from one of the list that differs by right angles
// only, or returns nil.
func (p *problem) turnedShape(ids []int32, a float64, mirrored bool) *shape {
	for _, id := range ids {
		s := *p.shapes[id]
		d := (a - s.angle) / (math.Pi / 2)
		if q := math.Round(d); s.mirrored == mirrored && math.Abs(d-q) < 1e-12 {
			k := int(int64(q) & 3)
			s.angle = a
			s.shift = r2.Sub(s.shift, p.vec(s.t))
			s.quarter = (s.quarter + k) & 3
			c, n := cosSin(q * math.Pi / 2)
			s.shift = r2.Vec{X: float64(c*s.shift.X) - float64(n*s.shift.Y), Y: float64(n*s.shift.X) + float64(c*s.shift.Y)}
			p.settle(&s)
			return &s
		}
	}
	return nil
}

func (p *problem) vec(v pt) r2.Vec { return r2.Vec{X: float64(v.x) * p.unit, Y: float64(v.y) * p.unit} }

// settle moves a shape so that its box starts within a lattice step of the
// origin.
func (p *problem) settle(s *shape) {
	b, g := s.solid().box, max(1, p.step)
	s.t = pt{-floorTo(b.x0, g), -floorTo(b.y0, g)}
	s.box = b.move(s.t)
	s.shift = r2.Add(s.shift, p.vec(s.t))
}

func floorTo(v, g int64) int64 { return v - ((v%g)+g)%g }

// known reports whether an equal shape is in the list, as half a turn of a
// rectangle is.
func (p *problem) known(ids []int32, s *shape) bool {
	for _, id := range ids {
		o := p.shapes[id]
		if o.form == s.form && o.t == s.t && sameCore(o, s) && len(s.solid().region) == 1 && sameLoop(o.solid().region[0], s.solid().region[0]) {
			return true
		}
	}
	return false
}

func sameLoop(a, b []pt) bool {
	if len(a) != len(b) {
		return false
	}
	for k := range a {
		same := true
		for i := range a {
			if a[i] != b[(i+k)%len(b)] {
				same = false
				break
			}
		}
		if same {
			return true
		}
	}
	return false
}

// origin is the point of an item that becomes the origin of its first shape:
// the corner of its box, rounded for obstacles.
func (p *problem) origin(i int) r2.Vec {
	lo, _ := bounds(p.items[i].Outer)
	if i >= p.fixed {
		lo.X, lo.Y = p.unit*math.Round(lo.X/p.unit), p.unit*math.Round(lo.Y/p.unit)
	}
	return lo
}

// outlines returns the loops of an item relative to its origin, the
// outer one counter-clockwise and the holes clockwise.
func outlines(it Item, lo r2.Vec) [][]r2.Vec {
	var loops [][]r2.Vec
	for k, l := range append([][]r2.Vec{it.Outer}, it.Holes...) {
		l = moved(l, scaled(-1, lo))
		if (area(l) > 0) != (k == 0) {
			for i, j := 0, len(l)-1; i < j; i, j = i+1, j-1 {
				l[i], l[j] = l[j], l[i]
			}
		}
		loops = append(loops, l)
	}
	return loops
}

func (p *problem) newShape(fn string, i int, a float64, mirrored bool, inner []circle) (*shape, error) {
	it := p.items[i]
	turn := Placement{Rotation: a, Mirrored: mirrored}
	s := &shape{item: i, angle: a, mirrored: mirrored}
	s.shift = scaled(-1, turn.Apply(p.origin(i)))
	var r region
	for k, l := range p.loops[i] {
		g := p.loop(applyAll(turn, l))
		if len(g) < 3 || (area2(g) > 0) != (k == 0) {
			if k == 0 {
				return nil, &Error{fn, fmt.Sprintf("items[%d].Outer", i), "an outline larger than the grid step", ErrItem}
			}
			continue
		}
		r = append(r, g)
	}
	s.area = it.area()
	s.form = p.formOf(r, inner)
	s.weight = s.solid().weight
	p.addCore(s, turn)
	p.settle(s)
	return s, nil
}

func (it Item) area() float64 {
	sum := math.Abs(area(it.Outer))
	for _, h := range it.Holes {
		sum -= math.Abs(area(h))
	}
	return sum
}

// formOf returns the form of a region, the known one for an equal region, and
// else one with the given circles inside, which are found where nil.
func (p *problem) formOf(r region, inner []circle) *form {
	key := fmt.Sprint(r)
	f := p.forms[key]
	if f == nil {
		if inner == nil {
			inner = poles(r, r.space(), p.detail())
		}
		f = newForm(r, p.first+int32(len(p.forms)), inner)
		p.forms[key] = f
	}
	return f
}

// turnedPoles turns the circles of an item as a placement does. They stay
// inside its outline but for the rounding to the grid.
func turnedPoles(c []circle, a float64, mirrored bool) []circle {
	m := Placement{Rotation: a, Mirrored: mirrored}
	out := make([]circle, len(c))
	for i, p := range c {
		v := m.Apply(r2.Vec{X: p.x, Y: p.y})
		out[i] = circle{v.X, v.Y, p.r}
	}
	return out
}

func applyAll(pl Placement, l []r2.Vec) []r2.Vec {
	out := make([]r2.Vec, len(l))
	for i, v := range l {
		out[i] = pl.Apply(v)
	}
	if pl.Mirrored {
		for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
			out[i], out[j] = out[j], out[i]
		}
	}
	return out
}
