package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/rects"
)

const (
	joinFrom  = 60   // more copies than that are joined
	joinNear  = 4    // of about the same size, among which partners are sought
	joinGain  = 0.97 // of the area of two boxes, that the box of both may take
	joinSteps = 16   // heights of either that are tried
	joinWork  = 1e8  // steps of profiles
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

// A joiner joins boxes in pairs where the box of both is smaller than the two
// together, looking for partners among those of about the same size.
type joiner struct {
	*run
	bin    r2.Vec
	across bool              // as the stock's grain
	known  map[string]*joint // by the kinds of the two; nil where they do not go together
	work   float64
}

func (j *joiner) joined(list []joint) (out []joint) {
	slices.SortStableFunc(list, func(a, b joint) int { return -cmp.Compare(area(a.box), area(b.box)) })
	for len(list) > 0 {
		near := j.near(list)
		take := []int{0}
		p := list[0]
		if q := j.four(list, near); q != nil {
			p, take = *q, near[:4]
		} else if q, k := j.partner(list, near); q != nil {
			p, take = *q, []int{0, k}
		}
		out = append(out, p)
		for i := len(take) - 1; i >= 0; i-- {
			list = slices.Delete(list, take[i], take[i]+1)
		}
	}
	return out
}

// near lists the first of a list and those after it that may go with it.
func (j *joiner) near(list []joint) []int {
	var out []int
	for i := 0; i < len(list) && len(out) < joinNear; i++ {
		if list[i].rank == list[0].rank {
			out = append(out, i)
		}
	}
	return out
}

// partner returns the best joint of the first with one of those near.
func (j *joiner) partner(list []joint, near []int) (best *joint, with int) {
	most := joinGain
	for _, k := range near[1:] {
		p := j.pair(list[0], list[k])
		if p == nil {
			continue
		}
		if share := area(p.box) / (area(list[0].box) + area(list[k].box)); share < most {
			best, with, most = p, k, share
		}
	}
	if best != nil {
		best = best.of(list[0], list[with])
	}
	return best, with
}

// four returns the joint of two twins that turn towards each other, where it is
// better than two pairs: thin angles nest one in the other, and two such nests
// interlock.
func (j *joiner) four(list []joint, near []int) *joint {
	if len(near) < 4 {
		return nil
	}
	var twins [2]*joint
	pairs := 0.0
	for i := range twins {
		a, b := list[near[2*i]], list[near[2*i+1]]
		if twins[i] = j.twin(a, b); twins[i] == nil {
			return nil
		}
		least := area(a.box) + area(b.box)
		if p := j.pair(a, b); p != nil {
			least = area(p.box)
		}
		pairs += least
	}
	q := j.pair(*twins[0], *twins[1])
	if q == nil || area(q.box) > joinGain*pairs {
		return nil
	}
	return q.of(*twins[0], *twins[1])
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

// pair returns the best joint of two, or nil.
func (j *joiner) pair(a, b joint) *joint {
	if a.space()+b.space() > joinGain*(area(a.box)+area(b.box)) {
		return nil
	}
	return j.bring("("+a.kind+" "+b.kind+")", a, b, false)
}

// twin returns the best joint of two that lie the same way, or nil.
func (j *joiner) twin(a, b joint) *joint {
	if p := j.bring("["+a.kind+" "+b.kind+"]", a, b, true); p != nil {
		return p.of(a, b)
	}
	return nil
}

// bring brings two together, where that has not been tried before.
func (j *joiner) bring(kind string, a, b joint, alike bool) *joint {
	if p, ok := j.known[kind]; ok {
		return p
	}
	if j.work > joinWork || j.late() {
		return nil
	}
	var best *joint
	least := joinGain * (area(a.box) + area(b.box))
	us, vs := a.ways(a.flips && !b.flips && !alike), b.ways(b.flips && !alike)
	for i := range us {
		for k := range vs {
			if alike && i != k {
				continue
			}
			if at, size := j.beside(&us[i], &vs[k], least); size < least {
				if p := us[i].with(vs[k].joint, at); p.fits(j.bin) {
					best, least = &p, size
				}
			}
		}
	}
	if best != nil {
		best.kind, best.turns, best.flips = kind, min(a.turns, b.turns), a.flips && b.flips
	}
	j.known[kind] = best
	return best
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

// beside slides b up to a from the right, box flush with box or vertex with
// vertex, and returns where the box of both is smallest, if smaller than most.
func (j *joiner) beside(a, b *way, most float64) (at r2.Vec, size float64) {
	size = most
	wide := math.Max(a.box.Max.X-a.box.Min.X, b.box.Max.X-b.box.Min.X)
	try := func(y float64) {
		tall := math.Max(a.box.Max.Y, b.box.Max.Y+y) - math.Min(a.box.Min.Y, b.box.Min.Y+y)
		if tall*wide >= size || j.work > joinWork {
			return
		}
		j.work += float64(len(a.right.y) + len(b.left.y))
		x := slide(&a.right, &b.left, y, a.box.Min.X+size/tall-b.box.Max.X)
		if s := area(union(a.box, b.box, r2.Vec{X: x, Y: y})); !math.IsInf(x, -1) && s < size {
			at, size = r2.Vec{X: x, Y: y}, s
		}
	}
	try(a.box.Min.Y - b.box.Min.Y)
	try(a.box.Max.Y - b.box.Max.Y)
	for i := 0; i < len(a.right.y); i += 1 + len(a.right.y)/joinSteps {
		for k := 0; k < len(b.left.y); k += 1 + len(b.left.y)/joinSteps {
			try(a.right.y[i] - b.left.y[k])
		}
	}
	return at, size
}

// joinerFor returns the joiner for a kind of sheet.
func (r *run) joinerFor(s Stock, bin r2.Vec) *joiner {
	for _, j := range r.joiners {
		if j.bin == bin && j.across == s.GrainAcross {
			return j
		}
	}
	j := &joiner{run: r, bin: bin, across: s.GrainAcross, known: map[string]*joint{}}
	r.joiners = append(r.joiners, j)
	return j
}

// joinBoxes joins boxed copies for a kind of sheet with a bin.
func (r *run) joinBoxes(items []rects.Item, of []boxed, s Stock, bin rects.Size) (joined []rects.Item, by []boxed) {
	j := r.joinerFor(s, r2.Vec{X: bin.W, Y: bin.H})
	play := r.play()
	var list []joint
	for i, b := range of {
		list = append(list, r.single(items[i], b, play))
		list[i].from = i
	}
	for _, p := range j.joined(list) {
		if len(p.lie) == 1 {
			joined, by = append(joined, items[p.from]), append(by, of[p.from])
			continue
		}
		joined = append(joined, rects.Item{Size: rects.Size{W: p.box.Max.X - p.box.Min.X, H: p.box.Max.Y - p.box.Min.Y}, Turn: p.turns == 4})
		by = append(by, p.boxed(r2.Vec{X: r.opt.Gap / 2, Y: r.opt.Gap / 2}))
	}
	return joined, by
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
