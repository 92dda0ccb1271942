package cut

import (
	"math"
	"sort"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A track is a path one can ask for pieces of, by length; a closed one goes
// round and round.
type track struct {
	seg    []arc.Segment
	end    []float64 // length at the end of each segment
	closed bool
}

func newTrack(p arc.Path) track {
	t := track{closed: p.Closed}
	sum := 0.0
	for i := range p.NumSegments() {
		s := p.Segment(i)
		if s.A == s.B {
			continue
		}
		sum += s.Length()
		t.seg = append(t.seg, s)
		t.end = append(t.end, sum)
	}
	return t
}

func (t track) length() float64 {
	if len(t.end) == 0 {
		return 0
	}
	return t.end[len(t.end)-1]
}

// find returns the segment at length l, within one round.
func (t track) find(l float64) int {
	i := sort.Search(len(t.end), func(i int) bool { return t.end[i] > l })
	return min(i, len(t.seg)-1)
}

// at returns the point at a length.
func (t track) at(l float64) r2.Vec {
	if t.closed {
		l = math.Mod(l, t.length())
	}
	i := t.find(l)
	p, _ := t.seg[i].At(l - t.start(i))
	return p
}

func (t track) start(i int) float64 {
	if i == 0 {
		return 0
	}
	return t.end[i-1]
}

// joint is the length below which a piece is taken to be rounding, mm.
const joint = 1e-7

// pieces returns the track from a length to a larger one.
func (t track) pieces(from, to float64) []arc.Segment {
	var out []arc.Segment
	total := t.length()
	for from < to-joint {
		base := 0.0
		if t.closed {
			base = math.Floor((from+joint)/total) * total
		}
		i := t.find(from - base + joint)
		end := math.Min(to, base+t.end[i])
		if i == len(t.seg)-1 && !t.closed {
			end = to
		}
		out = append(out, sub(t.seg[i], from-base-t.start(i), end-base-t.start(i)))
		from = end
	}
	return out
}

// sub returns the piece of a segment between two lengths along it; ends that
// are its own but for rounding are its own.
func sub(s arc.Segment, from, to float64) arc.Segment {
	l := s.Length()
	if from <= joint {
		from = 0
	}
	if to >= l-joint {
		to = l
	}
	return s.Part(from, to)
}

// reversed returns the open track run the other way.
func (t track) reversed() track {
	out := track{closed: t.closed}
	sum := 0.0
	for i := len(t.seg) - 1; i >= 0; i-- {
		s := t.seg[i].Reverse()
		sum += s.Length()
		out.seg = append(out.seg, s)
		out.end = append(out.end, sum)
	}
	return out
}

// A knot is a height at a length along a track; between knots the height runs
// straight.
type knot struct{ s, z float64 }

// A pen writes the moves of one operation.
type pen struct {
	o     Options
	tool  Tool
	top   float64  // of the sheet
	over  []r2.Vec // tabs to rise over, of a bevel
	moves []Move
}

func (p *pen) add(m Move) {
	m.Tool, m.Speed = p.tool.Number, p.tool.Speed
	if n := len(p.moves); n > 0 {
		m.From = p.moves[n-1].To
	}
	p.moves = append(p.moves, m)
}

// down starts an operation: travel to over a point, and feed to a height.
func (p *pen) down(at r2.Vec, z float64) {
	p.add(Move{From: lift(at, p.top+p.o.Safe), To: lift(at, p.top+p.o.Approach), Rapid: true})
	if z < p.top+p.o.Approach {
		p.feed(at, 0, z)
	}
}

// up ends it.
func (p *pen) up() {
	at := p.moves[len(p.moves)-1].To
	at.Z = p.top + p.o.Safe
	p.add(Move{To: at, Rapid: true})
}

// printed is the last digit of a place in a program's text, mm.
const printed = 1e-4

// feed cuts to a point. Downward, the feed is held so that its downward part
// is no faster than the plunge of the cutter.
func (p *pen) feed(to r2.Vec, turn, z float64) {
	m := Move{From: p.moves[len(p.moves)-1].To, To: lift(to, z), K: turn, Feed: p.tool.Feed}
	l := m.Length()
	if l < joint || l < 20*printed && z < m.From.Z {
		return // printed, so short a move may lead straight down: the next one goes there
	}
	if drop := m.From.Z - z; drop > 0 {
		m.Feed = math.Min(m.Feed, p.tool.Plunge*l/drop)
	}
	m.Feed = math.Max(1, math.Round(m.Feed))
	p.add(m)
}

// follow cuts along a track over knots in rising sequence of length.
func (p *pen) follow(t track, k []knot) {
	for i := 1; i < len(k); i++ {
		a, b := k[i-1], k[i]
		if b.s-a.s < joint {
			p.feed(t.at(b.s), 0, b.z)
			continue
		}
		done := 0.0
		for _, s := range t.pieces(a.s, b.s) {
			done += s.Length()
			p.feed(s.B, s.K, a.z+(b.z-a.z)*math.Min(1, done/(b.s-a.s)))
		}
	}
}

// steps returns the heights of the passes from one height down to another, all
// the same step apart, which is at most the one given.
func steps(from, to, step float64) []float64 {
	n := int(math.Min(maxPasses, math.Max(1, math.Ceil((from-to)/step-1e-9))))
	out := make([]float64, n)
	for i := range out {
		out[i] = from + (to-from)*float64(i+1)/float64(n)
	}
	return out
}

// slope returns the slope of an entry.
func (p *pen) slope() float64 {
	a := p.o.Ramp
	if p.tool.Ramp > 0 {
		a = min(a, p.tool.Ramp)
	}
	return math.Tan(float64(a))
}

// rampLength returns the length of an entry that goes down by a step.
func (p *pen) rampLength(step, length float64) float64 {
	return math.Min(step/p.slope(), length)
}

// maxLegs bounds an entry in zigzag; odd, as the last leg goes forward.
const maxLegs = 10001

// ramp goes down along the start of a track, no farther than most: in one leg,
// or to and fro where one would be too steep. It returns where it ends.
func (p *pen) ramp(t track, z, next, most float64) float64 {
	l := p.rampLength(z-next, most)
	n := 1
	if l == most {
		n = int(math.Min(maxLegs, math.Ceil((z-next)/p.slope()/l-1e-9)))
		n |= 1
	}
	var back track
	if n > 1 {
		back = cutTrack(t, 0, l).reversed()
	}
	for i := range n {
		a, b := z+(next-z)*float64(i)/float64(n), z+(next-z)*float64(i+1)/float64(n)
		if i%2 == 0 {
			p.follow(t, p.enter(t, l, a, b))
		} else {
			p.follow(back, p.enter(back, l, a, b))
		}
	}
	return l
}
