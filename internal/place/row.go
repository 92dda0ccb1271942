package place

import "math"

// A row is a search over the copies of some containers at once. It shortens
// the last of them: what no longer fits there overlaps at first and is driven
// into the others, or part against part.
type row struct {
	*shortener
	copies []int32
	room   []bay   // bays of the legal layout
	slim   float64 // least width of any copy
	effort effort
	stacks bool // it tries last bays of boxes
}

// newRow sets the containers of fs side by side, the last one at the right
// end, and puts in the extra copies, which are left out at first.
func (m *improver) newRow(fs []filled, extra ...int32) *row {
	r, p := &row{}, m.run.p
	p.forget()
	var list, walls []int32
	var at, wallAt layout
	x := 0.0
	for _, f := range fs {
		s := &m.run.sites[f.site]
		left, right := s.reach(p)
		x = p.ceil(x - left)
		r.room = append(r.room, bay{f.site, x, s.w, s.h})
		r.copies = append(r.copies, f.copies...)
		list = append(list, f.item...)
		for i := range f.item {
			at.add(f.layout.o[i], f.layout.x[i]+x, f.layout.y[i])
		}
		for _, o := range s.obstacles {
			walls = append(walls, o)
			sh := p.shapes[p.turns[o][0]]
			wallAt.add(p.turns[o][0], x-math.Round(sh.shift.X/p.unit), -math.Round(sh.shift.Y/p.unit))
		}
		x += right
	}
	for _, c := range extra {
		r.copies = append(r.copies, c)
		list = append(list, m.items[c])
		at.add(p.turns[m.items[c]][0], 0, 0)
	}
	m.rows++
	n := len(list)
	l := newLane(p, append(list, walls...), n, m.run.opt.Seed, m.stream<<32|m.rows, m.run.stop)
	for i := n - len(extra); i < n; i++ {
		l.absent[i] = true
	}
	l.bays = r.room
	last := r.room[len(r.room)-1]
	l.w = last.x + last.w
	for _, b := range r.room {
		l.h = max(l.h, b.h)
	}
	l.restore(at)
	for i := range walls {
		l.set(n+i, wallAt.o[i], wallAt.x[i], wallAt.y[i])
	}
	l.measure()
	r.shortener = &shortener{lane: l, legal: l.layout.clone(), length: l.used(), until: 1, iters: m.run.opt.Iterations, begin: -m.sweeps, shrink: firstShrink, fresh: true}
	r.report = func(*shortener) {}
	r.slim = math.Inf(1)
	for _, it := range list[:n] {
		for _, o := range p.turns[it] {
			r.slim = min(r.slim, float64(p.shapes[o].box.x1-p.shapes[o].box.x0))
		}
	}
	r.trim()
	return r
}

func (l *layout) add(o int32, x, y float64) {
	l.x, l.y, l.o = append(l.x, x), append(l.y, y), append(l.o, o)
}

// reach returns how far a site and its obstacles extend.
func (s *site) reach(p *problem) (left, right float64) {
	right = s.w
	for _, o := range s.obstacles {
		sh := p.shapes[p.turns[o][0]]
		b := p.fbox(p.turns[o][0], -math.Round(sh.shift.X/p.unit), 0)
		left, right = min(left, b.x0), max(right, b.x1)
	}
	return left, right
}

// ceil rounds up to the lattice.
func (p *problem) ceil(x float64) float64 {
	g := float64(max(1, p.step))
	return g * math.Ceil(x/g)
}

// from returns where the last bay of the legal layout begins.
func (r *row) from() float64 { return r.room[len(r.room)-1].x }

// trim drops empty bays at the end of the legal layout.
func (r *row) trim() {
	for len(r.room) > 1 && r.length <= r.from() {
		r.room = r.room[:len(r.room)-1]
	}
	r.bays = r.room
}

func (r *row) keepLegal() {
	r.keep()
	r.trim()
}

// reset goes back to the legal layout.
func (r *row) reset() {
	r.bays = r.room
	last := r.room[len(r.room)-1]
	r.w = last.x + last.w
	r.restore(r.legal)
}

// shareOut returns the area of all bays but the last, that of the copies, and
// the last bay.
func (r *row) shareOut() (others, copies float64, last bay) {
	n := len(r.room) - 1
	for _, b := range r.room[:n] {
		others += float64(b.w * b.h)
	}
	for i := range r.copies {
		if !r.absent[i] {
			copies += r.p.shapes[r.o[i]].space
		}
	}
	return others, copies, r.room[n]
}

// floor is a length that no layout can go under.
func (r *row) floor() float64 {
	if len(r.room) == 1 {
		return r.least()
	}
	others, copies, last := r.shareOut()
	return last.x + math.Ceil((copies-others)/last.h)
}

// split returns the containers of the legal layout.
func (r *row) split() []filled {
	out := make([]filled, len(r.room))
	for k, b := range r.room {
		out[k].p, out[k].site = r.p, b.site
	}
	for i, c := range r.copies {
		if r.absent[i] {
			continue
		}
		o, x, y := r.legal.o[i], r.legal.x[i], r.legal.y[i]
		b := r.p.fbox(o, x, y)
		k := r.bayAt(b.x0)
		f := &out[k]
		f.copies, f.item = append(f.copies, c), append(f.item, r.item[i])
		f.layout.add(o, x-r.room[k].x, y)
		f.length = max(f.length, b.x1-r.room[k].x)
	}
	return out
}
