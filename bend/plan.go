package bend

import (
	"fmt"
	"math"
	"slices"

	"example.com/sagitta/arc"
)

// A Kerf is one cut across the back of a blank.
type Kerf struct {
	At     float64   // its middle, from the start of the flat blank, mm
	Turn   arc.Angle // what the panel turns there, as the profile: positive left, closing the kerf
	Mouth  float64   // its width at the back after bending, mm
	Strain float64   // of its web, a ratio
	Facet  float64   // the largest distance between panel and profile there, mm
}

// A Bend is a stretch of a plan whose kerfs all turn by the same angle.
type Bend struct {
	From, To    int       // vertices of the profile between which it lies
	First       int       // index of its first kerf
	Count       int       // of kerfs
	Turn        arc.Angle // of one kerf; positive left, closing
	Facet       float64   // largest of its kerfs, mm
	Strain      float64   // of each web
	Mouth       float64   // of each kerf at the back after bending, mm
	Limit       Limit     // why there are not fewer
	FlatAt      float64   // where it begins on the flat blank, mm
	FlatLength  float64   // mm
	LeastLand   float64   // between two of its kerfs, mm; +Inf where it has one
	LeastRadius float64   // of the profile in it, mm
}

// A Plan is a kerfed blank for a profile: where to cut it, and how true the
// bent panel will be.
type Plan struct {
	Board      Board
	Kerfs      []Kerf
	Bends      []Bend
	FlatLength float64 // of the blank, mm
	ShowLength float64 // of the profile, mm
	Facet      float64 // largest distance between panel and profile, mm
	Strain     float64 // largest of a web, a ratio
	Mouth      float64 // narrowest of a kerf after bending, mm; 0 where there is none
	Pitch      float64 // from kerf to kerf where all are equal and there are two, else 0, mm
	Limit      Limit   // what set the count of the bend with most kerfs
}

// maxKerfs bounds the work a plan can ask for: a hundred metres of blank with
// a kerf every 20 mm.
const maxKerfs = 5000

// KerfPlan returns the fewest kerfs that bend a board to a profile within the
// limits.
//
// The profile is an open path in the section plane, the show face of the bent
// panel, with the board on the left of travel. Where it turns right (K < 0)
// the show face is concave and the kerfs, cut in the back, open; where it turns
// left they close. Kerfs of one bend all turn by the same angle, so that their
// spacing follows the radius; straight stretches are left whole. A bend whose
// radius varies so much that equal turns leave no room for the kerfs is cut
// into several, each with equal turns. Where the radius is constant the count
// is the smallest; elsewhere one kerf fewer fails.
//
// Every web bends over the kerf's width as an arc, the lands between stay flat
// and lie on tangents of the profile, so the ends of the bent panel and its
// directions there are the profile's.
//
// Errors are *[ParamError]: ErrRange and ErrNotFinite for bad numbers,
// ErrClosed, ErrCorner, ErrSkew, ErrCutter, ErrTooMany, and ErrNoRoom where
// the kerfs needed do not fit, naming the limit in the way and the value that
// would let them.
func KerfPlan(profile arc.Path, b Board, lim Limits) (Plan, error) {
	const fn = "bend.KerfPlan"
	if err := first(checkProfile(fn, profile), b.check(fn), lim.check(fn)); err != nil {
		return Plan{}, err
	}
	es, err := elements(fn, profile, lim.corner())
	if err != nil {
		return Plan{}, err
	}
	cs, start := curves(es)
	p := planner{fn: fn, b: b, lim: lim, width: b.BendWidth()}
	p.plan = Plan{Board: b, ShowLength: profile.Length()}
	p.end = start
	for i := range cs {
		if cs[i].turn <= straightTurn {
			return Plan{}, fault(fn, fmt.Sprintf("turn of the profile before vertex %d", cs[i].to), arc.Angle(cs[i].turn), "",
				"more than its corners take back", ErrCorner)
		}
		if err := p.curve(&cs[i], 0); err != nil {
			return Plan{}, err
		}
	}
	return p.finish(), nil
}

func checkProfile(fn string, p arc.Path) error {
	if err := p.Usable(); err != nil {
		return fault(fn, "profile", len(p.V), "vertices", "at least 2, all finite", err)
	}
	if p.Closed {
		return fault(fn, "profile", "closed path", "", "an open path", ErrClosed)
	}
	if n := p.NumSegments(); n > maxSegments {
		return fault(fn, "profile segments", n, "", fmt.Sprintf("at most %d", maxSegments), ErrTooMany)
	}
	for i, v := range p.V {
		if m := math.Max(math.Abs(v.P.X), math.Abs(v.P.Y)); m > largest || math.Abs(v.K) > largest {
			return fault(fn, fmt.Sprintf("profile vertex %d", i), m, "mm", "at most 1e12", ErrRange)
		}
	}
	return needFinite(fn, "profile length", p.Length(), "mm")
}

// A planner lays kerfs along the blank, bend after bend.
type planner struct {
	fn    string
	b     Board
	lim   Limits
	width float64 // that bends, of one kerf
	plan  Plan
	end   float64 // of what is laid out of the flat blank
	w     walker
}

// curve plans one curve, or cuts it in two where its radii differ too much.
func (p *planner) curve(c *curve, depth int) error {
	n, lim, err := p.count(c)
	if err == nil {
		p.lay(c, n, lim)
		return nil
	}
	at := c.joint(p.b.KerfWidth + p.lim.Land)
	if at == 0 || depth > 60 {
		return err
	}
	one, two := c.split(at)
	if err := p.curve(&one, depth+1); err != nil {
		return err
	}
	return p.curve(&two, depth+1)
}

// joint returns the index of the piece before which to cut a curve, so that
// the radius varies about as much on both sides and neither is shorter than
// least; 0 where there is no such piece or the radius varies by less
// than a thousandth.
func (c *curve) joint(least float64) int {
	total, all := 0.0, c.length()
	for i, prev := 0, 0.0; i < len(c.pieces); i++ {
		if r := c.pieces[i].radius; r > 0 {
			if prev > 0 {
				total += math.Abs(math.Log(r / prev))
			}
			prev = r
		}
	}
	if total < 1e-3 {
		return 0
	}
	at, best := 0, total
	seen, length, prev := 0.0, 0.0, 0.0
	for i, q := range c.pieces {
		if q.radius == 0 {
			continue
		}
		if prev > 0 {
			step := math.Abs(math.Log(q.radius / prev))
			worse := math.Max(seen, total-seen-step)
			if worse < best*(1-slack) && length >= least && all-length >= least {
				at, best = i, worse
			}
			seen += step
		}
		length += q.turn * q.radius
		prev = q.radius
	}
	return at
}

// split cuts a curve before one of its pieces.
func (c *curve) split(at int) (one, two curve) {
	one, two = *c, *c
	one.pieces, two.pieces = c.pieces[:at:at], c.pieces[at:]
	one.turn, two.turn = 0, 0
	for _, q := range one.pieces {
		one.turn += q.turn
	}
	for _, q := range two.pieces {
		two.turn += q.turn
	}
	one.after, one.last, one.to = 0, false, two.pieces[0].vertex
	two.before, two.first = 0, false
	return one, two
}

// lay puts n kerfs of a curve on the blank.
func (p *planner) lay(c *curve, n int, lim Limit) {
	turn := c.turn / float64(n)
	b := Bend{
		From: c.pieces[0].vertex, To: c.to, First: len(p.plan.Kerfs), Count: n,
		Turn: arc.Angle(c.sense * turn), Strain: p.strain(turn), Mouth: p.b.mouth(p.width, c.sense*turn),
		Limit: lim, FlatAt: p.end, LeastLand: math.Inf(1), LeastRadius: c.leastRadius(),
	}
	p.plan.Kerfs = slices.Grow(p.plan.Kerfs, n)
	p.spans(c, n, func(in, out, facet float64) {
		p.end += in
		p.plan.Kerfs = append(p.plan.Kerfs, Kerf{p.end + p.width/2, b.Turn, b.Mouth, b.Strain, facet})
		p.end += p.width + out
		b.Facet = math.Max(b.Facet, facet)
	})
	for i := b.First + 1; i < b.First+n; i++ {
		b.LeastLand = math.Min(b.LeastLand, p.plan.Kerfs[i].At-p.plan.Kerfs[i-1].At-p.b.KerfWidth)
	}
	b.FlatLength = p.end - b.FlatAt
	p.end += c.after
	p.plan.Bends = append(p.plan.Bends, b)
}

func (c *curve) leastRadius() float64 {
	r := math.Inf(1)
	for _, q := range c.pieces {
		if q.radius > 0 {
			r = math.Min(r, q.radius)
		}
	}
	return r
}

// finish sums the plan up.
func (p *planner) finish() Plan {
	q := &p.plan
	q.FlatLength = p.end
	most := 0
	for i, b := range q.Bends {
		q.Facet = math.Max(q.Facet, b.Facet)
		q.Strain = math.Max(q.Strain, b.Strain)
		if i == 0 || b.Mouth < q.Mouth {
			q.Mouth = b.Mouth
		}
		if b.Count > most {
			most, q.Limit = b.Count, b.Limit
		}
	}
	q.Pitch = evenPitch(q.Kerfs)
	return *q
}

// evenPitch returns the distance between kerfs where it is everywhere the same
// but for rounding.
func evenPitch(k []Kerf) float64 {
	n := len(k) - 1
	if n < 1 {
		return 0
	}
	pitch := (k[n].At - k[0].At) / float64(n)
	for i := range n {
		if math.Abs(k[i+1].At-k[i].At-pitch) > 1e-9*pitch {
			return 0
		}
	}
	return pitch
}

// strain returns the strain at the faces of a web that turns through a.
func (p *planner) strain(a float64) float64 { return webStrain(p.b.Web, p.width, a) }

// showRadius returns the radius of the show face over a web that turns through
// a; the arc at its mid-surface is as long as the web is wide.
func (p *planner) showRadius(sense, a float64) float64 { return p.width/a + sense*p.b.Web/2 }

// spans gives, kerf by kerf, the flat before it and after it up to the points
// where the lands touch the profile, and the facet.
func (p *planner) spans(c *curve, n int, yield func(in, out, facet float64)) {
	turn := c.turn / float64(n)
	r := p.showRadius(c.sense, turn)
	tan := math.Tan(turn / 2)
	rise := 2 * math.Pow(math.Sin(turn/4), 2) / math.Cos(turn/2) // sec(turn/2) − 1
	p.w = walker{c: c, span: span{part: p.w.span.part}}
	for j := range n {
		s := p.w.next(float64(j)*turn, float64(j+1)*turn, j == n-1)
		if len(s.part) == 1 && s.part[0].radius > 0 { // all in one arc
			flat := (s.part[0].radius - r) * tan
			yield(flat, flat, math.Abs(s.part[0].radius-r)*rise)
			continue
		}
		in, out := s.tangents()
		yield(in-r*tan, out-r*tan, s.facet(in, r))
	}
}
