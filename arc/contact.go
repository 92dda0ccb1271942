package arc

import (
	"cmp"
	"context"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A ContactKind says how two paths meet.
type ContactKind int

// The kinds of contact.
const (
	Crossing    ContactKind = iota + 1 // each goes from one side of the other to its other side
	Touching                           // they meet at a point, and each stays on its side or ends there
	Overlapping                        // they run along each other for a stretch
)

// An Contact is a point, or a stretch, that two paths have in common.
type Contact struct {
	Kind ContactKind
	// At is the point, or where the stretch starts along the first path, and
	// AtP and AtQ the lengths there along the two paths.
	At       r2.Vec
	AtP, AtQ float64
	// End is where a stretch ends along the first path; At again for a point or
	// for a stretch all around a loop.
	End        r2.Vec
	EndP, EndQ float64
	// Crosses says that the paths change sides, at a crossing or along a
	// stretch.
	Crosses bool
}

// Contacts returns where p and q meet, in order along p. Points closer
// than tol, in mm, are one; tol 0 means 1e-6 mm, or 1e-11 of the extent where
// that is more.
func Contacts(p, q Path, tol float64) ([]Contact, error) {
	return ContactsContext(context.Background(), p, q, tol)
}

// ContactsContext is [Contacts], stopped with the context's error when ctx is
// done.
func ContactsContext(ctx context.Context, p, q Path, tol float64) ([]Contact, error) {
	return contacts(ctx, "arc.Contacts", tol, p, q)
}

// SelfContacts returns where p meets itself, each place once, other than
// that its segments follow each other. It is how to test that a path does not
// cross itself: none of them has Crosses set.
func (p Path) SelfContacts(tol float64) ([]Contact, error) {
	return p.SelfContactsContext(context.Background(), tol)
}

// SelfContactsContext is [Path.SelfContacts], stopped with the context's error
// when ctx is done.
func (p Path) SelfContactsContext(ctx context.Context, tol float64) ([]Contact, error) {
	return contacts(ctx, "arc.Path.SelfContacts", tol, p)
}

func contacts(ctx context.Context, fn string, tol float64, paths ...Path) ([]Contact, error) {
	box := r2.Box{}
	for i, p := range paths {
		if err := p.Usable(); err != nil {
			return nil, err
		}
		if i == 0 {
			box = p.Bounds()
		}
		box = union(box, p.Bounds())
	}
	tol, err := tolerance(fn, tol, leastTolerance(box, 0))
	if err != nil {
		return nil, err
	}
	center := r2.Scale(0.5, r2.Add(box.Min, box.Max))
	t := &tracks{}
	var strands []strand
	for i, p := range paths {
		p = p.Transform(Shift(r2.Scale(-1, center)))
		sum := 0.0
		for j := range p.NumSegments() {
			s := p.Segment(j)
			n := len(strands)
			strands = appendStrands(strands, s, 0, [2]int8{1, 0})
			for range len(strands) - n {
				t.seg = append(t.seg, placed{s, sum, i})
			}
			sum += s.Length()
		}
		t.paths = append(t.paths, p)
	}
	plane, cuts := cutStrands(ctx, strands, tol/16)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if plane == nil {
		return nil, &ParamError{fn, "paths", maxHits, "points", "fewer common points", ErrRange}
	}
	plane.split(cuts)
	plane.join()
	plane.fans()
	t.arrangement = plane
	return t.find(center), nil
}

// placed is a segment with the length before it and the path it is of.
type placed struct {
	Segment
	sum  float64
	path int
}

// tracks are paths followed through an arrangement.
type tracks struct {
	*arrangement
	seg   []placed // by strand
	paths []Path
	of    []int32 // the strand of each piece
	pass  []pass
}

// A pass is a path going through a node, in by one piece and out by the next;
// -1 stands for none, at the end of an open path.
type pass struct {
	node    int32
	path    int
	in, out int32
}

// find returns the intersections of the first path with the second, or with
// itself where there is only one.
func (t *tracks) find(center r2.Vec) []Contact {
	for s := range t.strand {
		for range t.first[s+1] - t.first[s] {
			t.of = append(t.of, int32(s))
		}
	}
	for i := range t.paths {
		t.follow(i)
	}
	other := len(t.paths) - 1
	at := make([][]int32, len(t.node))
	for i, p := range t.pass {
		at[p.node] = append(at[p.node], int32(i))
	}
	var out []Contact
	for i, p := range t.pass {
		for _, j := range at[p.node] {
			q := t.pass[j]
			if p.path != 0 || q.path != other || other == 0 && int(j) <= i {
				continue
			}
			if x, ok := t.contact(p, q); ok {
				out = append(out, x)
			}
		}
	}
	out = append(out, t.overlaps(other, at)...)
	for i := range out {
		out[i].At, out[i].End = r2.Add(out[i].At, center), r2.Add(out[i].End, center)
	}
	slices.SortStableFunc(out, func(x, y Contact) int {
		return cmp.Or(cmp.Compare(x.AtP, y.AtP), cmp.Compare(x.AtQ, y.AtQ))
	})
	return out
}

// follow appends the passes of path i.
func (t *tracks) follow(i int) {
	var pieces []int32
	for k, s := range t.of {
		if t.seg[s].path == i {
			pieces = append(pieces, int32(k))
		}
	}
	n := len(pieces)
	if n == 0 {
		return
	}
	if !t.paths[i].Closed {
		t.pass = append(t.pass, pass{t.piece[pieces[0]].from, i, -1, pieces[0]})
	}
	for k := range n - 1 {
		t.pass = append(t.pass, pass{t.piece[pieces[k]].to, i, pieces[k], pieces[k+1]})
	}
	last := pass{t.piece[pieces[n-1]].to, i, pieces[n-1], -1}
	if t.paths[i].Closed {
		last.out = pieces[0]
	}
	t.pass = append(t.pass, last)
}

// spokeAt returns where in the fan of a pass's node the link of a piece is that
// comes in or goes out there, or -1 for no piece.
func (t *tracks) spokeAt(node, piece int32, out bool) int {
	if piece < 0 {
		return -1
	}
	p := t.piece[piece]
	l := &t.link[p.link]
	start := out == (l.from == p.from)
	return slices.IndexFunc(t.fan(node), func(s spoke) bool { return s.link == p.link && s.start == start })
}

// contact tells how two passes through a node meet, unless they share a link
// there, which makes them part of a stretch.
func (t *tracks) contact(p, q pass) (Contact, bool) {
	a, b := t.spokeAt(p.node, p.in, false), t.spokeAt(p.node, p.out, true)
	c, d := t.spokeAt(q.node, q.in, false), t.spokeAt(q.node, q.out, true)
	for _, x := range [2]int{a, b} {
		if x >= 0 && (x == c || x == d) {
			return Contact{}, false
		}
	}
	x := Contact{Kind: Touching, At: t.node[p.node], AtP: t.length(p), AtQ: t.length(q)}
	x.End, x.EndP, x.EndQ = x.At, x.AtP, x.AtQ
	if a >= 0 && b >= 0 && c >= 0 && d >= 0 && between(b, c, a) != between(b, d, a) {
		x.Kind, x.Crosses = Crossing, true
	}
	return x, true
}

// between reports whether going up from x, and from the top to the bottom, one
// meets y before z.
func between(x, y, z int) bool {
	if x < z {
		return x < y && y < z
	}
	return y > x || y < z
}

// length returns the length along its path at which a pass is.
func (t *tracks) length(p pass) float64 {
	piece := p.out
	if piece < 0 {
		piece = p.in
	}
	s := t.seg[t.of[piece]]
	l, _ := s.Closest(t.node[p.node])
	return s.sum + l
}
