package bend

import (
	"fmt"
	"math"
	"slices"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Blank is a flat board with kerfs across its back. Of each kerf only At and
// Turn are read.
type Blank struct {
	Board  Board
	Length float64 // mm
	Kerfs  []Kerf  // in order along the blank
}

// Blank returns the flat blank of the plan.
func (p Plan) Blank() Blank { return Blank{p.Board, p.FlatLength, slices.Clone(p.Kerfs)} }

// A Section is a bent panel seen along its kerfs, run as its profile: the
// board lies on the left of Show.
type Section struct {
	Show    arc.Path  // show face
	Neutral arc.Path  // middle of the webs, which keeps its length
	Back    arc.Path  // back face; straight lines bridge the mouths
	Outline arc.Path  // of the wood, kerfs cut, closed and counter-clockwise
	Mouths  []float64 // width of each kerf at the back, between its corners, mm; below 0 where its walls run into each other
}

// Refold bends a blank at its kerfs and nowhere else, and returns its section,
// its show face beginning at start in the direction heading. It knows nothing
// of the profile the kerfs were planned for: every web bends as an arc whose
// mid-surface stays as long as it was, and all else stays flat.
//
// A kerf that closes beyond contact is bent as told; its mouth comes out
// negative. Errors are *[ParamError]: bad numbers, ErrOverlap where a kerf
// overlaps its neighbour or an end, ErrTooTight where a web would have to bend
// to less than no radius at its inner face.
func Refold(b Blank, start r2.Vec, heading arc.Angle) (Section, error) {
	const fn = "bend.Refold"
	err := first(
		b.check(fn),
		needFinite(fn, "start", start.X, "mm"), needFinite(fn, "start", start.Y, "mm"),
		needFinite(fn, "heading", float64(heading), "rad"),
	)
	if err != nil {
		return Section{}, err
	}
	f := newFolder(b, start, float64(heading))
	at := 0.0
	for _, k := range b.Kerfs {
		f.flat(k.At - f.width/2 - at)
		f.kerf(float64(k.Turn))
		at = k.At + f.width/2
	}
	f.flat(b.Length - at)
	return f.section(), nil
}

func (b Blank) check(fn string) error {
	if err := first(b.Board.check(fn), needPositive(fn, "Blank.Length", b.Length, "mm")); err != nil {
		return err
	}
	if n := len(b.Kerfs); n > maxKerfs {
		return fault(fn, "Blank.Kerfs", n, "", fmt.Sprintf("at most %d", maxKerfs), ErrTooMany)
	}
	half, width := b.Board.KerfWidth/2, b.Board.BendWidth()
	end := 0.0
	most := math.Min(2*width/b.Board.Web, math.Pi)
	for i, k := range b.Kerfs {
		at, turn := k.At, float64(k.Turn)
		switch {
		case math.IsNaN(at) || math.IsInf(at, 0):
			return fault(fn, kerfField(i, "At"), at, "mm", "a finite number", ErrNotFinite)
		case math.IsNaN(turn):
			return fault(fn, kerfField(i, "Turn"), k.Turn, "", "a finite number", ErrNotFinite)
		case at-half < end-1e-9*b.Length:
			return fault(fn, kerfField(i, "At"), at, "mm", fmt.Sprintf("at least %.6g mm", end+half), ErrOverlap)
		case math.Abs(turn) >= most:
			return fault(fn, kerfField(i, "Turn"), k.Turn, "", fmt.Sprintf("less than %v", arc.Angle(most)), ErrTooTight)
		}
		end = at + half
	}
	if end > b.Length*(1+1e-9) {
		return fault(fn, "Blank.Length", b.Length, "mm", fmt.Sprintf("at least %.6g mm", end), ErrOverlap)
	}
	return nil
}

func kerfField(i int, name string) string { return fmt.Sprintf("Blank.Kerfs[%d].%s", i, name) }

// A folder lays a section out along its neutral line.
type folder struct {
	b       Board
	width   float64
	p       r2.Vec // on the neutral line
	h       float64
	left    r2.Vec // unit, square to the heading
	show    []arc.Vertex
	neutral []arc.Vertex
	back    []arc.Vertex
	inner   []arc.Vertex // back face with the kerfs
	mouths  []float64
}

func newFolder(b Blank, start r2.Vec, heading float64) *folder {
	n := len(b.Kerfs)
	f := &folder{
		b: b.Board, width: b.Board.BendWidth(), h: heading,
		show: make([]arc.Vertex, 0, 2*n+2), neutral: make([]arc.Vertex, 0, 2*n+2),
		back: make([]arc.Vertex, 0, 2*n+2), inner: make([]arc.Vertex, 0, 4*n+2),
		mouths: make([]float64, 0, n),
	}
	f.turnTo(heading)
	f.p = f.off(start, f.b.Web/2)
	f.put(0)
	f.back = append(f.back, f.vertex(f.b.arm(), 0))
	f.inner = append(f.inner, f.vertex(f.b.arm(), 0))
	return f
}

func (f *folder) turnTo(h float64) {
	sin, cos := math.Sincos(h)
	f.h, f.left = h, r2.Vec{X: -sin, Y: cos}
}

func (f *folder) off(p r2.Vec, d float64) r2.Vec { return r2.Add(p, r2.Scale(d, f.left)) }

// vertex returns the point at a height over the neutral line here.
func (f *folder) vertex(height, turn float64) arc.Vertex {
	return arc.Vertex{P: f.off(f.p, height), K: turn}
}

// put ends a segment of show face and neutral line here and starts one.
func (f *folder) put(turn float64) {
	f.neutral = append(f.neutral, f.vertex(0, turn))
	f.show = append(f.show, f.vertex(-f.b.Web/2, turn))
}

// flat goes on straight; kerfs that touch may leave a rounding error to go
// back.
func (f *folder) flat(l float64) {
	f.p = r2.Add(f.p, r2.Scale(l, r2.Vec{X: f.left.Y, Y: -f.left.X}))
}

// along returns v shifted along the heading.
func (f *folder) along(v arc.Vertex, l float64) arc.Vertex {
	v.P = r2.Add(v.P, r2.Scale(l, r2.Vec{X: f.left.Y, Y: -f.left.X}))
	return v
}

// kerf bends through a over the width that bends.
func (f *folder) kerf(a float64) {
	k := math.Tan(a / 4)
	if math.Abs(a) < 1e-15 {
		k = 0 // an arc of no turn that matters has a center nobody can use
	}
	web, arm := f.b.Web/2, f.b.arm()
	wall := (f.b.KerfWidth - f.width) / 2

	in := f.along(f.vertex(arm, 0), -wall)
	f.put(k)
	f.wall(in, -wall, k)
	chord := f.width
	if a != 0 {
		chord *= math.Sin(a/2) / (a / 2)
	}
	f.turnTo(f.h + a/2)
	mid := r2.Vec{X: f.left.Y, Y: -f.left.X}
	f.flat(chord)
	f.turnTo(f.h + a/2)
	f.put(0)
	out := f.along(f.vertex(arm, 0), wall)
	if f.b.Bottom == Flat {
		f.inner = append(f.inner, f.vertex(web, 0), out)
	} else {
		f.inner = append(f.inner, f.along(f.vertex(f.roundTop(), 0), wall), out)
	}
	f.back = append(f.back, in, out)
	// The mouth is measured along the bisector of the walls.
	f.mouths = append(f.mouths, r2.Dot(r2.Sub(out.P, in.P), mid))
}

// wall runs down the first wall of a kerf to its floor.
func (f *folder) wall(in arc.Vertex, along, k float64) {
	if f.b.Bottom == Flat {
		f.inner = append(f.inner, in, f.vertex(f.b.Web/2, k))
		return
	}
	// The round floor is drawn as the half circle the cutter left, opened or
	// closed by the turn: an arc between the feet of the walls.
	f.inner = append(f.inner, in, f.along(f.vertex(f.roundTop(), 0), along))
	foot := &f.inner[len(f.inner)-1]
	foot.K = math.Tan((math.Pi + 4*math.Atan(k)) / 4)
}

// roundTop returns how high over the neutral line a round floor meets the wall.
func (f *folder) roundTop() float64 { return f.b.Web/2 + f.b.KerfWidth/2 }

func (f *folder) section() Section {
	f.put(0)
	f.back = append(f.back, f.vertex(f.b.arm(), 0))
	f.inner = append(f.inner, f.vertex(f.b.arm(), 0))
	outline := arc.Path{V: append([]arc.Vertex{}, f.show...), Closed: true}
	outline.V[len(outline.V)-1].K = 0
	outline.V = append(outline.V, arc.Path{V: f.inner}.Reverse().V...)
	return Section{
		Show: tidy(f.show), Neutral: tidy(f.neutral), Back: tidy(f.back),
		Outline: closedTidy(outline), Mouths: f.mouths,
	}
}

// tidy drops vertices that repeat the one before.
func tidy(v []arc.Vertex) arc.Path {
	out := v[:1]
	for _, x := range v[1:] {
		if x.P == out[len(out)-1].P {
			out[len(out)-1] = x
			continue
		}
		out = append(out, x)
	}
	return arc.Path{V: out}
}

func closedTidy(p arc.Path) arc.Path {
	q := tidy(p.V)
	q.Closed = true
	if n := len(q.V); n > 1 && q.V[n-1].P == q.V[0].P {
		q.V = q.V[:n-1]
	}
	return q
}
