package draw

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
)

// A Dimension is a measure as it is drawn: lines, arrowheads and labels.
type Dimension struct {
	Lines  []arc.Path
	Arrows []arc.Path // closed triangles, filled
	Labels []Text
}

// A Style says how dimensions are written.
type Style struct {
	Unit   arc.Unit // of the labels; mm are written without a unit
	Height float64  // of a label's capital letters, mm; 0 means 3.5
	// Fraction is the finest part of an inch that a label is written to, as in
	// [say.Format]; 0 means 32.
	Fraction int
	// Scale is how many mm are measured where one is drawn, as 10 on a drawing
	// at 1:10; 0 means 1.
	Scale float64
}

func (s Style) height() float64 { return Text{Height: s.Height}.CapHeight() }

// label writes a length: whole drawings are in mm or inches, and mm is what
// a bare number means on a metric drawing.
func (s Style) label(mm float64) string {
	f := say.Format{Unit: s.Unit, Fraction: s.Fraction}
	if s.Scale != 0 {
		mm *= s.Scale
	}
	if s.Unit == arc.Inches {
		return f.Length(mm)
	}
	return f.Bare(mm)
}

// Aligned returns the dimension of the distance from a to b, its line at off
// to the left of the way from a to b (to the right where off is negative).
func Aligned(a, b r2.Vec, off float64, s Style) Dimension {
	d := r2.Scale(off, left(unit(r2.Sub(b, a))))
	return between(a, b, r2.Add(a, d), r2.Add(b, d), "", s)
}

// Horizontal returns the dimension of the distance from a to b along x, its
// line at the height y.
func Horizontal(a, b r2.Vec, y float64, s Style) Dimension {
	return between(a, b, r2.Vec{X: a.X, Y: y}, r2.Vec{X: b.X, Y: y}, "", s)
}

// Vertical returns the dimension of the distance from a to b along y, its
// line at x.
func Vertical(a, b r2.Vec, x float64, s Style) Dimension {
	return between(a, b, r2.Vec{X: x, Y: a.Y}, r2.Vec{X: x, Y: b.Y}, "", s)
}

// Radius returns the dimension of an arc's radius: an arrow from within to the
// arc's middle. A line has none and gives an empty Dimension.
func Radius(g arc.Segment, s Style) Dimension {
	r := g.Radius()
	if math.IsInf(r, 0) {
		return Dimension{}
	}
	mid, in := g.Mid(), inward(g)
	label := Text{Text: "R " + s.label(r), Height: s.Height, Align: Middle}
	from := r2.Add(mid, r2.Scale(math.Min(r, label.width()+4*s.height()), in))
	d := Dimension{Lines: []arc.Path{arc.Polyline(from, mid)}, Arrows: []arc.Path{arrow(mid, r2.Scale(-1, in), s)}}
	label.At, label.Angle = beside(from, mid, s)
	d.Labels = []Text{label}
	return d
}

// Angle returns the dimension of the angle at corner from the direction of p
// counter-clockwise to that of q, drawn as an arc of the given radius.
func Angle(corner, p, q r2.Vec, radius float64, s Style) Dimension {
	u, v := unit(r2.Sub(p, corner)), unit(r2.Sub(q, corner))
	turn := math.Atan2(r2.Cross(u, v), r2.Dot(u, v))
	if turn < 0 {
		turn += 2 * math.Pi
	}
	a, b := r2.Add(corner, r2.Scale(radius, u)), r2.Add(corner, r2.Scale(radius, v))
	path := arc.Path{V: []arc.Vertex{{P: a, K: math.Tan(turn / 4)}, {P: b}}}
	sin, cos := math.Sincos(turn / 2)
	out := r2.Vec{X: cos*u.X - sin*u.Y, Y: sin*u.X + cos*u.Y}
	label := Text{Text: degrees(turn), Height: s.Height, Align: Middle}
	label.At = r2.Add(corner, r2.Scale(radius+label.width()/2+s.height()/2, out))
	return Dimension{
		Lines:  []arc.Path{path},
		Arrows: []arc.Path{arrow(a, r2.Scale(-1, left(u)), s), arrow(b, left(v), s)},
		Labels: []Text{label},
	}
}

// ChordSag returns the two dimensions that lay out an arc in a shop: its chord,
// at off beyond the chord on the side away from the arc, and its sag at the
// middle of the chord.
func ChordSag(g arc.Segment, off float64, s Style) Dimension {
	if g.K > 0 {
		off = math.Abs(off)
	} else {
		off = -math.Abs(off)
	}
	d := Aligned(g.A, g.B, off, s)
	if g.K == 0 {
		return d
	}
	foot := r2.Scale(0.5, r2.Add(g.A, g.B))
	sag := between(foot, g.Mid(), foot, g.Mid(), "sag ", s)
	sag.Lines = append(sag.Lines, arc.Polyline(g.A, g.B))
	return Dimension{
		Lines:  append(d.Lines, sag.Lines...),
		Arrows: append(d.Arrows, sag.Arrows...),
		Labels: append(d.Labels, sag.Labels...),
	}
}

// between draws the dimension line from p to q, with extension lines from the
// measured points a and b.
func between(a, b, p, q r2.Vec, prefix string, s Style) Dimension {
	h := s.height()
	length := r2.Norm(r2.Sub(q, p))
	u := unit(r2.Sub(q, p))
	label := Text{Text: prefix + s.label(length), Height: s.Height, Align: Middle}
	start, end, dir := p, q, u
	d := Dimension{}
	if length < 3*h { // no room for the arrows: they point in from outside
		start, end = r2.Add(p, r2.Scale(-2*h, u)), r2.Add(q, r2.Scale(2*h, u))
		dir = r2.Scale(-1, u)
	}
	d.Arrows = []arc.Path{arrow(p, r2.Scale(-1, dir), s), arrow(q, dir, s)}
	from, to := p, q
	if label.width() > length { // no room for the label: it stands beyond q
		from = r2.Add(end, r2.Scale(h/2, u))
		to = r2.Add(from, r2.Scale(label.width(), u))
		end = to
	}
	label.At, label.Angle = beside(from, to, s)
	d.Lines = append(d.Lines, arc.Polyline(start, end))
	d.Lines = append(d.Lines, extension(a, p, s)...)
	d.Lines = append(d.Lines, extension(b, q, s)...)
	d.Labels = []Text{label}
	return d
}

// extension returns the line from near a measured point to a little beyond the
// dimension line; none where the point is on it.
func extension(a, p r2.Vec, s Style) []arc.Path {
	d := r2.Sub(p, a)
	gap := 0.3 * s.height()
	if !(r2.Norm(d) > gap) {
		return nil
	}
	u := unit(d)
	return []arc.Path{arc.Polyline(r2.Add(a, r2.Scale(gap, u)), r2.Add(p, r2.Scale(2*gap, u)))}
}

// beside returns where a label along the line from a to b has its middle and
// the angle it stands at: above the line, to be read from below or the right.
func beside(a, b r2.Vec, s Style) (r2.Vec, arc.Angle) {
	u := unit(r2.Sub(b, a))
	if u.X < -1e-9 || math.Abs(u.X) <= 1e-9 && u.Y < 0 {
		u = r2.Scale(-1, u)
	}
	mid := r2.Scale(0.5, r2.Add(a, b))
	return r2.Add(mid, r2.Scale(0.9*s.height(), left(u))), arc.Angle(math.Atan2(u.Y, u.X))
}

// arrow returns an arrowhead with its tip at p, pointing along u.
func arrow(p, u r2.Vec, s Style) arc.Path {
	back := r2.Add(p, r2.Scale(-0.9*s.height(), u))
	side := r2.Scale(0.15*s.height(), left(u))
	return arc.Polygon(p, r2.Add(back, side), r2.Sub(back, side))
}

// inward returns the unit vector at an arc's middle toward its center.
func inward(g arc.Segment) r2.Vec {
	n := left(unit(r2.Sub(g.B, g.A)))
	if g.K < 0 {
		return r2.Scale(-1, n)
	}
	return n
}

// unit returns v at length 1, and x for a v of no length.
func unit(v r2.Vec) r2.Vec {
	if v == (r2.Vec{}) {
		return r2.Vec{X: 1}
	}
	return r2.Scale(1/math.Hypot(v.X, v.Y), v)
}

// left returns v turned a right angle to the left.
func left(v r2.Vec) r2.Vec { return r2.Vec{X: -v.Y, Y: v.X} }

// degrees writes an angle to 0.01 degree.
func degrees(a float64) string { return say.Program(arc.Angle(a)) }
