package cut

import (
	"context"
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A probe is a point of the sheet whose height is followed. Single precision
// holds a place on a sheet to 0.0002 mm, and keeps a million probes small.
type probe struct {
	x, y      float32
	z         float32 // height now
	low, high float32 // what may be and what has to be
	grow      float32 // by how much the cutter is taken to be wider
	feature   int32
	piece     int32
	line      int32 // of the move that made z
	station   int32 // number of its station on a ring, from 1; else 0
}

// Where probes stand. Those along the edges of features stand a tolerance off
// on both sides, every 0.5 mm: a cutter of radius r that goes x too far leaves a
// notch 2·sqrt(2rx) long, 0.8 mm for r = 1.6, x = 0.05. Those on faces and floors stand
// in a grid; away from every edge a cell is proved whole by the cutter grown,
// or shrunk, by half the cell's diagonal.
const (
	station   = 0.5     // mm
	maxCell   = 2.0     // mm
	maxProbes = 8 << 20 // spacing grows where a job would need more
)

// A field is all probes of a job, and the tiles they are found by.
type field struct {
	job     Job
	opt     Options
	top     float64
	pieces  []piece
	surface []surface
	station float64
	cell    float64
	rings   []ring
	marks   int       // stations of all rings
	heap    [][]probe // as they are made
	probe   []probe   // by tile
	tiles

	plan *planner // of how bevels are made, nothing else
}

// A ring is a loop that has to be cut through.
type ring struct {
	piece   int
	feature int32
	length  float64
	s       []float64 // length at each of its stations
	first   int       // number of the first of them
}

func newField(ctx context.Context, job Job, opt Options) (*field, error) {
	f := &field{job: job, opt: opt, top: job.Stock.Thickness, pieces: job.pieces()}
	f.spacing()
	f.plan = newPlanner("cut.Replay", job, opt)
	for i := range f.pieces {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		s := newSurface(&f.pieces[i], opt, f.top, f.plan.made(f.pieces[i].part))
		s.margin = 2 * f.cell
		f.surface = append(f.surface, s)
		f.piece(i)
	}
	f.sort()
	return f, nil
}

// spacing sets how dense the probes stand: the cells small enough that no end
// mill goes between them, and all coarser where there would be too many.
func (f *field) spacing() {
	f.cell, f.station = maxCell, station
	for _, t := range f.opt.Tools {
		if !t.V() {
			f.cell = math.Max(0.5, math.Min(f.cell, t.Diameter/1.5))
		}
	}
	length, area := 0.0, 0.0
	for _, q := range f.pieces {
		size := q.box.Size()
		area += size.X * size.Y
		for _, e := range q.edges() {
			length += e.Length()
		}
	}
	f.station = math.Max(f.station, length*2/(maxProbes/2))
	f.cell = math.Max(math.Max(f.cell, f.station), math.Sqrt(area/(maxProbes/4)))
}

// edges returns the edges of all features of a part.
func (q *piece) edges() []arc.Path {
	out := q.outline.Loops()
	for _, s := range q.work.Slots {
		out = append(out, s.rect())
	}
	for _, k := range q.work.Pockets {
		out = append(out, k.Area.Loops()...)
	}
	return out
}

func (f *field) add(p r2.Vec, d demand, piece int, grow float64) {
	n := len(f.heap)
	if n == 0 || len(f.heap[n-1]) == cap(f.heap[n-1]) {
		f.heap = append(f.heap, make([]probe, 0, 1<<14))
		n++
	}
	f.heap[n-1] = append(f.heap[n-1], probe{
		x: float32(p.X), y: float32(p.Y), z: float32(f.top), low: float32(d.low), high: float32(d.high),
		grow: float32(grow), feature: d.feature, piece: int32(piece),
	})
}

func (f *field) piece(i int) {
	g := newGrid(f.pieces[i].box, f.cell)
	f.edges(i, g)
	f.bevelEdges(i, g)
	f.faces(i, g)
}

// edges sets the probes along the edges of features.
func (f *field) edges(i int, g *grid) {
	q, s := &f.pieces[i], &f.surface[i]
	for k, l := range q.outline.Loops() {
		r := ring{piece: i, feature: int32(loopOf + k), length: l.Length(), first: f.marks}
		tights := insideCorners(l, f.millRadius())
		f.along(l, g, func(p, n r2.Vec, at float64) {
			out := r2.Add(p, r2.Scale(f.opt.Tolerance, n))
			f.look(i, s, r2.Sub(p, r2.Scale(f.opt.Tolerance, n)), r.feature)
			if depth(s.loops, out, 1) > -s.side || inTight(tights, out) {
				return // beside another edge, or where the cutter need not get
			}
			d := demand{low: -s.through, high: 0, feature: r.feature}
			f.add(out, d, i, 0)
			f.marks++
			r.s = append(r.s, at)
			h := f.heap[len(f.heap)-1]
			h[len(h)-1].station = int32(f.marks)
		})
		f.rings = append(f.rings, r)
	}
	for k, w := range q.work.Slots {
		f.both(i, s, w.rect(), g, int32(slotOf+k))
	}
	for k, w := range q.work.Pockets {
		for _, l := range w.Area.Loops() {
			f.both(i, s, l, g, int32(pocketOf+k))
		}
	}
}

func (f *field) millRadius() float64 {
	m, _ := f.opt.mill()
	return m.Diameter / 2
}

// both sets probes on both sides of an edge.
func (f *field) both(i int, s *surface, l arc.Path, g *grid, feature int32) {
	f.along(l, g, func(p, n r2.Vec, _ float64) {
		n = r2.Scale(f.opt.Tolerance, n)
		f.look(i, s, r2.Add(p, n), feature)
		f.look(i, s, r2.Sub(p, n), feature)
	})
}

// look sets a probe that has the demand of the surface, if it is on the part.
func (f *field) look(i int, s *surface, p r2.Vec, feature int32) {
	in := depth(s.loops, p, 1)
	if in < s.side {
		return
	}
	d := s.at(p, in)
	if d.feature == faceOf {
		d.feature = feature
	}
	f.add(p, d, i, 0)
}

// along calls do at stations along a path, with the normal to the right and
// the length there, and marks the cells of the grid that the path goes through. It leaves out the
// ends of segments, where the edge of another one may be as near.
func (f *field) along(l arc.Path, g *grid, do func(p, n r2.Vec, at float64)) {
	sum := 0.0
	for k := range l.NumSegments() {
		s := l.Segment(k)
		length := s.Length()
		if length == 0 {
			continue
		}
		n := int(math.Ceil(length / f.station))
		for j := range n {
			p, u := s.At(length * (float64(j) + 0.5) / float64(n))
			g.mark(p)
			if d := length * math.Min(float64(j)+0.5, float64(n-j)-0.5) / float64(n); d > f.opt.Tolerance {
				do(p, r2.Vec{X: u.Y, Y: -u.X}, sum+length*(float64(j)+0.5)/float64(n))
			}
		}
		sum += length
	}
}

// bevelEdges sets lines of probes across the bevels.
func (f *field) bevelEdges(i int, g *grid) {
	s := &f.surface[i]
	for _, b := range s.bevels {
		if b.face != nil {
			f.ruledEdges(i, g, &b)
			continue
		}
		length := b.seg.Length()
		for _, share := range [...]float64{0.02, 0.25, 0.5, 0.75, 0.98, 1.04} {
			n := int(math.Ceil(length / f.station))
			for j := range n {
				p, u := b.seg.At(length * (float64(j) + 0.5) / float64(n))
				p = r2.Add(p, r2.Scale(share*b.width, left(u)))
				g.mark(p)
				f.look(i, s, p, int32(bevelOf+b.at))
			}
		}
		f.between(i, int(math.Ceil(length/f.station)), &b, func(share, up float64) r2.Vec {
			p, u := b.seg.At(length * share)
			return r2.Add(p, r2.Scale(up*b.width, left(u)))
		})
	}
}

// between sets a probe at each station of a bevel, higher and lower over its face
// by turns, so that every part of a step is met somewhere.
func (f *field) between(i, n int, b *slope, at func(share, up float64) r2.Vec) {
	const golden = 0.6180339887498949
	for j := range n {
		_, up := math.Modf(golden * float64(j+1))
		f.look(i, &f.surface[i], at((float64(j)+0.25)/float64(n), up), int32(bevelOf+b.at))
	}
}

// ruledEdges sets lines of probes across a bevel that changes.
func (f *field) ruledEdges(i int, g *grid, b *slope) {
	n := math.Ceil(math.Abs(b.to-b.from) / f.station)
	for _, share := range [...]float64{0.02, 0.25, 0.5, 0.75, 0.98, 1.04} {
		for j := 0.5; j < n; j++ {
			p, _ := b.face.at(b.from+(b.to-b.from)*j/n, share*f.top)
			g.mark(p)
			f.look(i, &f.surface[i], p, int32(bevelOf+b.at))
		}
	}
	f.between(i, int(n), b, func(share, up float64) r2.Vec {
		p, _ := b.face.at(b.from+(b.to-b.from)*share, up*f.top)
		return p
	})
}

// faces sets the probes of the grid. Where no edge is near, one with the
// cutter grown stands for all that is protected in its cell, and one with the
// cutter shrunk for all that is asked, or several where a cutter so shrunk
// would not reach from one track of a pocket to the next.
func (f *field) faces(i int, g *grid) {
	s := &f.surface[i]
	half := g.cell / math.Sqrt2
	g.inside(s.loops, func(p r2.Vec, marked bool) {
		if marked {
			f.look(i, s, p, faceOf)
			return
		}
		d := s.at(p, 1e9)
		if d.sloped {
			f.look(i, s, p, faceOf)
			return
		}
		asked := d
		d.high = math.Inf(1)
		f.add(p, d, i, half)
		if asked.low = -s.through; !math.IsInf(asked.high, 1) {
			f.split(p, asked, i, g.cell)
		}
	})
}

// split sets the probes that stand for all of a cell that has to be cut. The
// middle of a pocket lies up to a step off the last track, so a cutter of
// radius r still has r − step to spare.
func (f *field) split(p r2.Vec, d demand, piece int, cell float64) {
	mill, _ := f.opt.mill()
	spare := (0.5 - f.opt.Step) * mill.Diameter
	n := 1
	if spare > 0 {
		n = int(math.Min(8, math.Max(1, math.Ceil(cell/math.Sqrt2/spare))))
	}
	part := cell / float64(n)
	for y := range n {
		for x := range n {
			at := r2.Vec{X: (float64(x) + 0.5) * part, Y: (float64(y) + 0.5) * part}
			f.add(r2.Add(p, r2.Sub(at, r2.Vec{X: cell / 2, Y: cell / 2})), d, piece, -part/math.Sqrt2)
		}
	}
}
