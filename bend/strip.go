package bend

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Strip is a test strip: a narrow piece of the same board with a few of the
// same kerfs, to be cut and closed before the panel is.
type Strip struct {
	Board   Board
	Pitch   float64    // mm
	Outline arc.Region // x along the strip, from its lower left corner, back face up
	Slots   []arc.Path // the kerfs as cut, closed
	Centers []arc.Path // their middles, from edge to edge
	Turn    arc.Angle  // of all kerfs together when closed
	Radius  float64    // of the show face then, along its flats, mm
	Chord   float64    // straight across then, from half a pitch before the first kerf to half a pitch after the last, mm
	Sag     float64    // of that circle over that chord, mm
}

// Size of a test strip.
const (
	stripWidth = 60.0 // wide enough to hold flat, narrow enough to bend by hand, mm
	stripGrip  = 80.0 // beyond the kerfs at each end, mm
	stripTurn  = 60 * arc.Degree
	stripMost  = 60
)

// TestStrip returns the strip to cut before the panel of a plan: its board,
// its closest pitch, and kerfs enough to close through 60 degrees or more, 5
// to 60 of them. Measure the closed radius with [StripTest] and [Calibrate].
// A plan without kerfs gives ErrRange.
func (p Plan) TestStrip() (Strip, error) {
	const fn = "bend.Plan.TestStrip"
	if err := p.Board.check(fn); err != nil {
		return Strip{}, err
	}
	if len(p.Kerfs) == 0 {
		return Strip{}, fault(fn, "kerfs", 0, "", "at least 1", ErrRange)
	}
	pitch := 10 * p.Board.KerfWidth // for a single kerf
	for i := 1; i < len(p.Kerfs); i++ {
		d := p.Kerfs[i].At - p.Kerfs[i-1].At
		if i == 1 || d < pitch {
			pitch = d
		}
	}
	if pitch = math.Max(pitch, p.Board.KerfWidth); !(pitch < math.MaxFloat64) {
		return Strip{}, fault(fn, "pitch", pitch, "mm", "a finite number", ErrNotFinite)
	}
	a := float64(p.Board.ClosingAngle())
	n := int(math.Max(5, math.Min(stripMost, math.Ceil(float64(stripTurn)/a))))
	return p.Board.strip(n, pitch, a), nil
}

// strip lays out n kerfs that close at a each.
func (b Board) strip(n int, pitch, a float64) Strip {
	grip := stripGrip + pitch/2
	length := 2*grip + float64(n-1)*pitch
	s := Strip{
		Board: b, Pitch: pitch, Radius: b.closedRadius(pitch, a),
		Outline: arc.Region{Outer: arc.Rect(0, 0, length, stripWidth)},
		Slots:   make([]arc.Path, n), Centers: make([]arc.Path, n),
	}
	for i := range n {
		x := grip + float64(i)*pitch
		s.Slots[i] = arc.Rect(x-b.KerfWidth/2, 0, x+b.KerfWidth/2, stripWidth)
		s.Centers[i] = arc.Polyline(r2.Vec{X: x}, r2.Vec{X: x, Y: stripWidth})
	}
	turn := float64(n) * a
	s.Turn = arc.Angle(turn)
	s.Chord = 2 * s.Radius * math.Sin(turn/2)
	s.Sag = s.Radius * 2 * math.Pow(math.Sin(turn/4), 2)
	return s
}
