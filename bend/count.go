package bend

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
)

// slack lets a limit that is met exactly pass in spite of rounding.
const slack = 1e-12

// A trial is how a curve comes out with a number of kerfs.
type trial struct {
	facet float64
	land  float64 // least land beyond the least allowed between kerfs
	head  float64 // flat before the first kerf, beyond the least allowed
	tail  float64 // flat after the last
}

// fits reports whether there is room for the kerfs.
func (t trial) fits() bool { return t.land >= -slack && t.head >= -slack && t.tail >= -slack }

// try lays n kerfs along the curve without keeping them.
func (p *planner) try(c *curve, n int) trial {
	t := trial{land: math.Inf(1)}
	wall := (p.b.KerfWidth - p.width) / 2 // from the wall to where the web bends
	prev := 0.0
	j := 0
	p.spans(c, n, func(in, out, facet float64) {
		t.facet = math.Max(t.facet, facet)
		if j == 0 {
			t.head = in - wall
		} else {
			t.land = math.Min(t.land, prev+in-2*wall-p.lim.Land)
		}
		prev = out
		j++
	})
	t.tail = prev - wall
	t.head -= p.margin(c.first, c.before)
	t.tail -= p.margin(c.last, c.after)
	return t
}

// margin returns how much flat must stand between the end of a curve and the
// wall of the kerf beside it, where a straight of the given length follows.
// Each of two neighbouring curves keeps half a land.
func (p *planner) margin(end bool, straight float64) float64 {
	if end {
		return math.Max(0, p.lim.Edge-straight)
	}
	return math.Max(0, (p.lim.Land-straight)/2)
}

// least returns the fewest kerfs that angle, strain and closing allow, and
// which of them that is.
func (p *planner) least(c *curve) (float64, Limit) {
	n, lim := 1.0, NoLimit
	raise := func(m float64, l Limit) {
		if m = math.Ceil(m * (1 - slack)); m > n {
			n, lim = m, l
		}
	}
	raise(c.turn/(math.Pi/2), AngleLimit)
	raise(c.turn/p.lim.turn(), TurnLimit)
	raise(p.strain(c.turn)/p.lim.strain(), StrainLimit)
	if c.sense > 0 {
		raise(c.turn/float64(p.b.ClosingAngle()), ClosingLimit)
	}
	return n, lim
}

// count returns the fewest kerfs for a curve, and what set them.
func (p *planner) count(c *curve) (int, Limit, error) {
	low, lim := p.least(c)
	// No kerf takes less of the blank than its width, and tangents to turns of
	// at most 90 degrees are at most twice the curve; the web's center may be
	// off the show face by half the web.
	most := 2*(c.length()+p.b.Web*c.turn)/p.width + 1
	most = math.Min(most, float64(maxKerfs-len(p.plan.Kerfs)))
	if low > most {
		return 0, lim, p.refuse(c, low, lim)
	}
	n := int(low)
	t := p.try(c, n)
	if p.lim.Facet > 0 && t.facet > p.lim.Facet*(1+slack) {
		m, ok := p.byFacet(c, n, int(most), t.facet)
		if !ok {
			return 0, FacetLimit, p.refuse(c, float64(m), FacetLimit)
		}
		n, lim = m, FacetLimit
		t = p.try(c, n)
	}
	if !t.fits() {
		// Where radii vary the facet need not fall with every kerf more.
		if m := p.room(c, n); lim == FacetLimit && m >= int(low) && p.try(c, m).facet <= p.lim.Facet*(1+slack) {
			return m, lim, nil
		}
		return 0, lim, p.refuse(c, float64(n), lim)
	}
	return n, lim, nil
}

// byFacet returns a count above bad and up to most that keeps the facet limit
// where one fewer does not. It reports false, with the count it got to, where
// even most does not keep it.
func (p *planner) byFacet(c *curve, bad, most int, facet float64) (int, bool) {
	good := most + 1
	from, facet := bad, facet // a count and how it came out
	for i := 0; good-bad > 1; i++ {
		n := bad + (good-bad)/2
		if i < 8 {
			// The facet falls about with the square of the count.
			guess := math.Ceil(float64(from) * math.Sqrt(facet/p.lim.Facet))
			n = int(math.Max(float64(bad+1), math.Min(guess, float64(good-1))))
		}
		from, facet = n, p.try(c, n).facet
		if facet <= p.lim.Facet*(1+slack) {
			good = n
		} else {
			bad = n
		}
	}
	return good, good <= most
}

// room returns the most kerfs below n that fit on the curve, 0 where not even
// one does.
func (p *planner) room(c *curve, n int) int {
	low, high := 0, n
	for high-low > 1 {
		mid := low + (high-low)/2
		if p.strain(c.turn/float64(mid)) > maxStrain || c.turn/float64(mid) > math.Pi/2 || p.try(c, mid).fits() {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// refuse says why n kerfs, needed by a limit, do not fit on the curve, and
// what would have to change.
func (p *planner) refuse(c *curve, n float64, lim Limit) error {
	where := fmt.Sprintf(" (bend from vertex %d to %d, least radius %.6g mm)", c.pieces[0].vertex, c.to, c.leastRadius())
	if n > float64(maxKerfs-len(p.plan.Kerfs)) && lim != FacetLimit {
		return fault(p.fn, "kerfs"+where, n, "", fmt.Sprintf("at most %d in a plan", maxKerfs), ErrTooMany)
	}
	most := p.room(c, int(math.Min(n, maxKerfs)))
	turn := c.turn / float64(max(most, 1))
	if most == 0 || turn > math.Pi/2*(1+slack) {
		return p.refuseAny(c, where)
	}
	if room := maxKerfs - len(p.plan.Kerfs); lim == FacetLimit && n > float64(room) {
		return fault(p.fn, "Limits.Facet"+where, p.lim.Facet, "mm",
			fmt.Sprintf("at least %s mm: a plan has at most %d kerfs", up(p.try(c, most).facet), maxKerfs), ErrTooMany)
	}
	only := fmt.Sprintf("%.0f kerfs are needed and only %d fit", n, most)
	web := 2 * p.width * p.lim.strain() / turn * (1 - 1e-6)
	switch {
	case lim == FacetLimit:
		return fault(p.fn, "Limits.Facet"+where, p.lim.Facet, "mm",
			fmt.Sprintf("at least %s mm: %s", up(p.try(c, most).facet), only), ErrNoRoom)
	case lim == TurnLimit:
		return fault(p.fn, "Limits.Turn"+where, p.lim.Turn, "",
			fmt.Sprintf("at least %v: %s", arc.Angle(turn*(1+1e-5)), only), ErrNoRoom)
	case lim == StrainLimit && p.strain(turn) < maxStrain:
		return fault(p.fn, "Limits.Strain"+where, p.lim.strain(), "",
			fmt.Sprintf("at least %s, or a web of about %.4g mm: %s", up(p.strain(turn)), web, only), ErrNoRoom)
	case lim == StrainLimit:
		return fault(p.fn, "Board.Web"+where, p.b.Web, "mm", fmt.Sprintf("about %.4g mm: %s", web, only), ErrNoRoom)
	case lim == ClosingLimit:
		return fault(p.fn, "Board.Thickness"+where, p.b.Thickness, "mm",
			fmt.Sprintf("at most %.6g mm, or a wider kerf: %s before they close", (p.b.Thickness+p.b.mouth(p.width, turn)/turn)*(1-1e-6), only), ErrNoRoom)
	}
	return p.refuseAny(c, where)
}

// refuseAny is refuse where not even the fewest kerfs that could turn this far
// fit, whatever their strain.
func (p *planner) refuseAny(c *curve, where string) error {
	n := int(math.Ceil(c.turn / (math.Pi / 2) * (1 - slack)))
	q := *p // to change
	fields := []struct {
		name string
		at   *float64
	}{{"Board.KerfWidth", &q.b.KerfWidth}, {"Limits.Land", &q.lim.Land}, {"Limits.Edge", &q.lim.Edge}, {"Board.Web", &q.b.Web}}
	for i, also := range []string{"", ", without Limits.Land", ", without Limits.Land and Limits.Edge"} {
		if i > 0 {
			q.lim.Land = 0
		}
		if i > 1 {
			q.lim.Edge = 0
		}
		for _, v := range fields {
			was := *v.at
			most := q.mostThatFits(c, n, v.at)
			*v.at = was
			if most > 0 {
				return fault(p.fn, v.name+where, was, "mm",
					fmt.Sprintf("at most %.6g mm to fit at all on %.4g mm of curve%s", most*(1-1e-5), c.length(), also), ErrNoRoom)
			}
		}
	}
	return fault(p.fn, "profile radius"+where, c.leastRadius(), "mm",
		fmt.Sprintf("a larger radius: a web of %.4g mm cannot follow it", p.b.Web), ErrNoRoom)
}

// mostThatFits returns the largest value of a number of the plan, below its own,
// with which n kerfs fit; 0 where even a thousandth does not do.
func (p *planner) mostThatFits(c *curve, n int, x *float64) float64 {
	low, high := *x/1000, *x
	fits := func(v float64) bool {
		*x = v
		p.width = p.b.BendWidth()
		return p.try(c, n).fits()
	}
	if high == 0 || !fits(low) {
		return 0
	}
	for range 30 {
		if mid := (low + high) / 2; fits(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// up prints x rounded up at its sixth digit.
func up(x float64) string { return fmt.Sprintf("%.6g", x*(1+1e-5)) }
