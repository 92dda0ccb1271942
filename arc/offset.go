package arc

import (
	"context"
	"errors"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// ErrUnproven is the fault of a result that did not pass its own check; it is
// returned instead of the result.
var ErrUnproven = errors.New("result did not pass its check")

// A Join says how an offset goes around a corner.
type Join int

// The joins. A round join keeps every point at the distance asked; a miter
// join prolongs the sides, as the corner of a board is kept sharp.
const (
	RoundJoin Join = iota
	MiterJoin
)

// OffsetOptions is how an offset is to be made.
type OffsetOptions struct {
	// Join is made at corners on their outer side; zero is round. On the inner
	// side of a corner the parallels meet.
	Join Join
	// MiterLimit is the most a mitered corner may stand from its vertex, as a
	// multiple of the distance; sharper corners are made round. Zero means 4.
	MiterLimit float64
	// Tolerance is how far, in mm, a point of the result may be from where it
	// belongs. Zero means 1e-6 mm, or 1e-11 of the extent where that is more.
	// Features thinner than it may be lost.
	Tolerance float64
}

// Offset returns what lies at the distance |d| from the path and nowhere nearer
// to it, on its right where d > 0 and on its left where d < 0, seen along it:
// a counter-clockwise loop grows with d > 0. Arcs stay arcs of the same
// center. The result may be several paths, run the way p runs, or none; where
// the path is closed, so are they. An open path's parallel keeps the distance
// from its ends too. A closed path's parallel is that of the area it encloses.
//
// Two parallels that coincide, in a slot exactly 2|d| wide, are no result.
//
// It is an error if the path is empty or crosses itself, a closed one has no
// area, or a number is not finite. Spikes and repeated points are allowed.
func (p Path) Offset(d float64, o OffsetOptions) ([]Path, error) {
	return p.OffsetContext(context.Background(), d, o)
}

// OffsetContext is [Path.Offset], stopped with the context's error when ctx is
// done.
func (p Path) OffsetContext(ctx context.Context, d float64, o OffsetOptions) ([]Path, error) {
	const fn = "arc.Path.Offset"
	s, err := newShaper(fn, d, o, p)
	if err != nil || d == 0 {
		return s.asGiven(p), err
	}
	if d < 0 {
		p = p.Reverse()
	}
	var out []Path
	back := d < 0
	if p.Closed {
		if p.Area() == 0 {
			return nil, &ParamError{fn, "p", 0.0, "mm²", "a loop with area", ErrZeroArea}
		}
		all := p.Area() < 0
		out, err = s.solve(ctx, []Path{p}, all, 0)
		back = back != all
	} else {
		out, err = s.solve(ctx, []Path{doubled(p)}, false, p.NumSegments())
	}
	if back {
		for i := range out {
			out[i] = out[i].Reverse()
		}
	}
	return out, err
}

// doubled returns the loop that runs along an open path and back.
func doubled(p Path) Path {
	n := len(p.V)
	back := p.Reverse()
	loop := Path{V: append(p.Clone().V[:n-1], back.V[:n-1]...), Closed: true}
	return loop
}

// Offset returns the region grown by d, or shrunk where d < 0: all points
// within d of it, or all points of it at least -d from its boundary. Arcs
// stay arcs of the same center. The result may be several regions, or none
// where the region vanishes.
//
// The outer loop must run counter-clockwise, the holes clockwise inside it,
// and none may cross another or itself.
func (r Region) Offset(d float64, o OffsetOptions) ([]Region, error) {
	return r.OffsetContext(context.Background(), d, o)
}

// OffsetContext is [Region.Offset], stopped with the context's error when ctx
// is done.
func (r Region) OffsetContext(ctx context.Context, d float64, o OffsetOptions) ([]Region, error) {
	const fn = "arc.Region.Offset"
	loops := r.Loops()
	s, err := newShaper(fn, d, o, loops...)
	if err != nil {
		return nil, err
	}
	if err := checkLoops(fn, r); err != nil {
		return nil, err
	}
	if d == 0 {
		return assemble(ctx, s.asGiven(loops...))
	}
	if d < 0 {
		for i := range loops {
			loops[i] = loops[i].Reverse()
		}
	}
	out, err := s.solve(ctx, loops, d < 0, 0)
	if err != nil {
		return nil, err
	}
	return assemble(ctx, out)
}

// checkLoops reports loops of a region that are open, have no area or run the
// wrong way.
func checkLoops(fn string, r Region) error {
	for i, p := range r.Loops() {
		a := p.Area()
		switch {
		case !p.Closed:
			return &ParamError{fn, "loop", i, "", "closed loops", ErrOpen}
		case a == 0:
			return &ParamError{fn, "loop", i, "", "loops with area", ErrZeroArea}
		case (a > 0) != (i == 0):
			return &ParamError{fn, "loop", i, "", "the outer loop counter-clockwise and holes clockwise: see Region.Oriented and Regions", ErrOrientation}
		}
	}
	return nil
}

// A shaper makes one offset.
type shaper struct {
	fn     string
	d      float64
	o      OffsetOptions
	tol    float64
	least  float64 // the least tolerance the coordinates can carry
	center r2.Vec  // moved to the origin while at work, so that no bit is lost
}

// defaultTol and the least tolerance, relative to the extent. Coordinates are
// good to 2^-53 of it, and the cutting of edges to a few hundred of that.
const (
	defaultTol = 1e-6
	leastTol   = 1e-11
	maxExtent  = 1e140 // beyond it products of lengths overflow
)

func newShaper(fn string, d float64, o OffsetOptions, paths ...Path) (*shaper, error) {
	s := &shaper{fn: fn, d: math.Abs(d), o: o, tol: o.Tolerance}
	if err := needFinite(fn, "d", d, "mm"); err != nil {
		return s, err
	}
	for _, p := range paths {
		if err := p.Usable(); err != nil {
			return s, err
		}
	}
	if o.Join != RoundJoin && o.Join != MiterJoin {
		return s, &ParamError{fn, "Join", int(o.Join), "", "RoundJoin or MiterJoin", ErrRange}
	}
	if !(o.MiterLimit >= 0) || math.IsInf(o.MiterLimit, 0) {
		return s, &ParamError{fn, "MiterLimit", o.MiterLimit, "", "0 or a finite number above 1", ErrRange}
	}
	if o.MiterLimit == 0 {
		s.o.MiterLimit = 4
	}
	box := boundsOf(paths)
	s.center = r2.Scale(0.5, r2.Add(box.Min, box.Max))
	s.least = leastTolerance(box, s.d)
	var err error
	s.tol, err = tolerance(fn, o.Tolerance, s.least)
	return s, err
}

// leastTolerance returns the finest tolerance that coordinates in the box, and
// d from it, can carry.
func leastTolerance(box r2.Box, d float64) float64 {
	size := math.Max(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y) + d
	far := math.Max(math.Max(math.Abs(box.Min.X), math.Abs(box.Max.X)), math.Max(math.Abs(box.Min.Y), math.Abs(box.Max.Y)))
	return math.Max(leastTol*size, far*0x1p-50)
}

// tolerance returns the tolerance to use, or an error where the one asked for
// is finer than the least.
func tolerance(fn string, asked, least float64) (float64, error) {
	if !(least < maxExtent*leastTol) {
		return 0, &ParamError{fn, "extent", least / leastTol, "mm", "below 1e140", ErrRange}
	}
	if asked == 0 {
		return math.Max(defaultTol, least), nil
	}
	if !(asked >= least) || math.IsInf(asked, 0) {
		return 0, &ParamError{fn, "Tolerance", asked, "mm", ">= 1e-11 of the extent", ErrRange}
	}
	return asked, nil
}

// asGiven returns copies of paths.
func (s *shaper) asGiven(paths ...Path) []Path {
	var out []Path
	for _, p := range paths {
		out = append(out, p.Clone())
	}
	return out
}

// solve returns the offset of closed loops to their right: where the loops run
// counter-clockwise around an area, the boundary of it grown; where they run
// clockwise around it, and all outside is what grows, all is true and the result
// is the boundary of what is left of it. The result's loops have it on the left. With open > 0 the loop is an open
// path of so many segments run there and back, and the result its right side.
func (s *shaper) solve(ctx context.Context, loops []Path, all bool, open int) ([]Path, error) {
	home := Shift(r2.Scale(-1, s.center))
	moved := make([]Path, len(loops))
	for i, p := range loops {
		moved[i] = p.Transform(home)
	}
	if err := s.refuseCrossing(ctx, moved, all, open); err != nil {
		return nil, err
	}
	// A second way for the few cases where the first does not prove out: first
	// without trimming, then with nodes of another size.
	for _, try := range []struct {
		trim bool
		f    float64
	}{{true, 1}, {false, 1}, {false, 0.3}, {false, 3}} {
		if out, ok := s.attempt(ctx, moved, all, open, try.trim, try.f*s.tol/16); ok {
			for i := range out {
				out[i] = out[i].Transform(Shift(s.center))
			}
			return out, nil
		}
		if err := ctx.Err(); err != nil {
			return nil, err
		}
	}
	// A crossing less deep than the tolerance passes above and spoils the rest.
	s.tol = s.least
	if err := s.refuseCrossing(ctx, moved, all, open); err != nil {
		return nil, err
	}
	return nil, &ParamError{s.fn, "d", s.d, "mm", "another distance or tolerance", ErrUnproven}
}

func (s *shaper) attempt(ctx context.Context, loops []Path, all bool, open int, trim bool, eps float64) ([]Path, bool) {
	n := 0
	for _, p := range loops {
		n += len(p.V)
	}
	o := &offsetter{d: s.d, eps: eps, trim: trim, source: make([]source, 0, n+n/8), strand: make([]strand, 0, 2*n)}
	if s.o.Join == MiterJoin {
		o.limit = s.o.MiterLimit
	}
	for _, p := range loops {
		o.add(p)
	}
	a := arrange(ctx, o.strand, eps)
	if a == nil {
		return nil, false
	}
	// The result is on the left of its loops, so that pieces of it that touch
	// at a point are told apart.
	inside := func(w [2]int) bool { return w[0] > 0 }
	if all {
		inside = func(w [2]int) bool { return w[0] < 0 }
	}
	found, ok := a.loops(inside)
	if !ok || !o.proves(a, found, s.tol) {
		return nil, false
	}
	var out []Path
	for _, loop := range found {
		if open > 0 {
			out = append(out, o.rightSide(a, loop, int32(open))...)
		} else if p := a.path(loop); !thin(p, 2*eps) {
			out = append(out, p)
		}
	}
	return out, true
}

// thin reports whether a loop is narrower than w all along.
func thin(p Path, w float64) bool { return math.Abs(p.Area()) <= w*p.Length() }

// proves checks that no point of the result is nearer than d to the source.
// None can be farther: every strand that bounds the result is the rim of a
// strip or wedge.
func (o *offsetter) proves(a *arrangement, loops [][]step, tol float64) bool {
	boxes := make([]r2.Box, len(o.source))
	for i := range boxes {
		boxes[i] = o.source[i].box()
	}
	x := newIndex(boxes)
	least := o.d - tol
	if least <= 0 {
		return true
	}
	clear := func(p r2.Vec) bool {
		return x.search(grown(r2.Box{Min: p, Max: p}, least), func(i int) bool {
			return o.source[i].dist(p) >= least
		})
	}
	for _, loop := range loops {
		for i, s := range loop {
			if i&1023 == 1023 && a.ctx.Err() != nil {
				return false
			}
			l := &a.link[s.link]
			if l.src == noSource && !near(a.node[l.from], a.node[l.to], tol) {
				return false
			}
			if !clear(a.segment(l.from, l.to, l.k).Mid()) {
				return false
			}
		}
	}
	return true
}

// rightSide returns the stretches of a loop around an open path that are its
// right side: the parallels of its segments on the way there and the joins
// between them.
func (o *offsetter) rightSide(a *arrangement, loop []step, open int32) []Path {
	kept := func(s step) bool {
		src := a.link[s.link].src
		if src < noSource {
			j := o.joint[noSource-1-src]
			return j[0] < open && j[1] < open && j[0] < j[1]
		}
		return src >= 0 && src < open
	}
	first := 0
	for first < len(loop) && kept(loop[first]) {
		first++
	}
	if first == len(loop) {
		return []Path{a.path(loop)}
	}
	var out []Path
	var chain []step
	for i := 1; i <= len(loop); i++ {
		s := loop[(first+i)%len(loop)]
		if kept(s) {
			chain = append(chain, s)
		} else if len(chain) > 0 {
			r := a.runs(chain, false)
			r = append(r, run{p: a.node[a.end(chain[len(chain)-1])]})
			out = append(out, pathOf(r, false))
			chain = nil
		}
	}
	return out
}
