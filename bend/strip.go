package bend

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/num"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Strip is a test strip: a narrow piece of the same board with a few of the
// same kerfs, bent in stages the way the panel will be, before the panel is
// cut. What it tells is at which stage it cracks or its kerfs show through,
// which [StripBend.Strain] makes a limit.
type Strip struct {
	Board   Board
	Pitch   float64    // mm
	Outline arc.Region // x along the strip, from its lower left corner, back face up
	Slots   []arc.Path // the kerfs as cut, closed
	Centers []arc.Path // their middles, from edge to edge
	Opens   bool       // the show face comes to be concave, as in a cove, and the kerfs open
	Stages  []Stage    // the first is the panel's own bend, each later one tighter
}

// A Stage is a radius that a test strip is bent over.
type Stage struct {
	Kerf   arc.Angle // what one kerf turns
	Turn   arc.Angle // of all kerfs together
	Radius float64   // of the show face along its flats, mm
	Chord  float64   // of the show face, from half a pitch before the first kerf to half a pitch after the last, mm
	Sag    float64   // of that circle over that chord, mm
	Strain float64   // of a web, a ratio
	Closed bool      // the kerfs are closed: it goes no further
}

// Size of a test strip.
const (
	stripWidth = 60.0 // wide enough to hold flat, narrow enough to bend by hand, mm
	stripGrip  = 80.0 // beyond the kerfs at each end, mm
	stripTurn  = 15 * arc.Degree
	stripLeast = 5
	stripMost  = 60
)

// margins are the stages of a strip, in turns of a kerf of the panel. They are
// ours: at its own bend a panel must not fail, a quarter beyond it allows for
// webs cut unevenly, and twice it shows how much is in hand.
var margins = [...]float64{1, 1.25, 1.5, 2}

// TestStrip returns the strip to cut before the panel of a plan: its board,
// the pitch and the direction of the bend whose webs are strained most, and 5
// to 60 kerfs, enough to turn 15 degrees over the panel's radius. Its stages
// are that radius and tighter ones, to twice the turn of a kerf or until a
// closing kerf is closed. A plan without kerfs gives ErrRange.
func (p Plan) TestStrip() (Strip, error) {
	const fn = "bend.Plan.TestStrip"
	if err := p.Board.check(fn); err != nil {
		return Strip{}, err
	}
	if len(p.Kerfs) == 0 {
		return Strip{}, fault(fn, "kerfs", 0, "", "at least 1", ErrRange)
	}
	turn, pitch := p.tightest()
	if pitch = math.Max(pitch, p.Board.KerfWidth); !(pitch < math.MaxFloat64) {
		return Strip{}, fault(fn, "pitch", pitch, "mm", "a finite number", ErrNotFinite)
	}
	a := math.Abs(turn)
	if !(a > 0 && a <= math.Pi/2) {
		return Strip{}, fault(fn, "kerfs[].Turn", turn, "rad", "a turn of at most 90 degrees", ErrRange)
	}
	n := int(math.Max(stripLeast, math.Min(stripMost, math.Ceil(float64(stripTurn)/a-1e-9))))
	s := p.Board.strip(n, pitch)
	s.Opens = turn < 0
	s.stages(a)
	return s, nil
}

// tightest returns the turn of the kerf that turns most, which strains its web
// most, and the least distance from it to a neighbor; ten widths for a single
// kerf.
func (p Plan) tightest() (turn, pitch float64) {
	at := 0
	for i, k := range p.Kerfs {
		if math.Abs(float64(k.Turn)) > math.Abs(float64(p.Kerfs[at].Turn)) {
			at = i
		}
	}
	pitch = 10 * p.Board.KerfWidth
	if len(p.Kerfs) > 1 {
		pitch = math.Inf(1)
	}
	for _, i := range [2]int{at, at + 1} {
		if i > 0 && i < len(p.Kerfs) {
			pitch = math.Min(pitch, p.Kerfs[i].At-p.Kerfs[i-1].At)
		}
	}
	return float64(p.Kerfs[at].Turn), pitch
}

// strip lays out n kerfs.
func (b Board) strip(n int, pitch float64) Strip {
	grip := stripGrip + pitch/2
	length := 2*grip + float64(n-1)*pitch
	s := Strip{
		Board: b, Pitch: pitch,
		Outline: arc.Region{Outer: arc.Rect(0, 0, length, stripWidth)},
		Slots:   make([]arc.Path, n), Centers: make([]arc.Path, n),
	}
	for i := range n {
		x := grip + float64(i)*pitch
		s.Slots[i] = arc.Rect(x-b.KerfWidth/2, 0, x+b.KerfWidth/2, stripWidth)
		s.Centers[i] = arc.Polyline(r2.Vec{X: x}, r2.Vec{X: x, Y: stripWidth})
	}
	return s
}

// stages adds the stages of a strip whose kerfs turn by a in the panel.
func (s *Strip) stages(a float64) {
	most := math.Pi / 2
	if !s.Opens {
		most = math.Min(most, float64(s.Board.ClosingAngle()))
	}
	for _, m := range margins {
		k := math.Min(m*a, most)
		turn := float64(len(s.Slots)) * k
		g := Stage{Kerf: arc.Angle(k), Turn: arc.Angle(turn), Radius: s.Board.bentRadius(s.Pitch, k, s.Opens), Strain: s.Board.webStrain(k)}
		g.Closed = !s.Opens && k == float64(s.Board.ClosingAngle())
		g.Chord = 2 * g.Radius * math.Sin(turn/2)
		g.Sag = g.Radius * 2 * math.Pow(math.Sin(turn/4), 2)
		s.Stages = append(s.Stages, g)
		if m*a >= most {
			return
		}
	}
}

// webStrain returns the strain of a web at its faces where a kerf turns by a.
func (b Board) webStrain(a float64) float64 { return b.Web * a / (2 * b.BendWidth()) }

// bentRadius returns the radius of the show face of a strip, along its flats,
// whose kerfs turn by a each, opening or closing.
func (b Board) bentRadius(pitch, a float64, opens bool) float64 {
	w := b.BendWidth()
	mid := (pitch-w)/(2*math.Tan(a/2)) + w/a
	if opens {
		return mid - b.Web/2
	}
	return mid + b.Web/2
}

// A StripBend is the tightest bend that a test strip stood without cracking
// and without its kerfs showing through.
type StripBend struct {
	Board  Board   // as set on the machine
	Pitch  float64 // of the kerfs, mm
	Radius float64 // of the show face, along its flats, mm
	Opens  bool    // the show face was concave
}

// Strain returns the strain of the webs at that bend, a ratio, by the model of
// the plans, b·a/(2w): the most that [Limits.Strain] may be for that board and
// cutter. A panel is held bent for good and stands less than a short test
// says: keep below it (common practice, no source). A value out of range gives
// ErrRange, or ErrNotFinite.
func (s StripBend) Strain() (float64, error) {
	const fn = "bend.StripBend.Strain"
	err := first(s.Board.check(fn), needPositive(fn, "StripBend.Pitch", s.Pitch, "mm"), needPositive(fn, "StripBend.Radius", s.Radius, "mm"))
	if err != nil {
		return 0, err
	}
	a, err := s.Board.turnAt(fn, "StripBend", s.Pitch, s.Radius, s.Opens)
	return s.Board.webStrain(a), err
}

// turnAt returns the turn of a kerf in a strip bent to a radius.
func (b Board) turnAt(fn, param string, pitch, radius float64, opens bool) (float64, error) {
	if w := b.KerfWidth; pitch <= w {
		return 0, fault(fn, param+".Pitch", pitch, "mm", fmt.Sprintf("above the kerf width, %.6g mm", w), ErrRange)
	}
	// The radius falls as the angle grows, from far above any to the least.
	over := func(a float64) float64 { return b.bentRadius(pitch, a, opens) - radius }
	low, high := 1e-6, math.Pi/2
	if over(low) < 0 || over(high) > 0 {
		return 0, fault(fn, param+".Radius", radius, "mm",
			fmt.Sprintf("between %.4g and %.4g mm at this pitch", b.bentRadius(pitch, high, opens), b.bentRadius(pitch, low, opens)), ErrRange)
	}
	a, err := num.Root(over, low, high, 1e-15)
	if err != nil {
		return 0, fault(fn, param+".Radius", radius, "mm", "one that a strip can be bent to", err)
	}
	return a, nil
}
