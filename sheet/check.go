package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/internal/clear"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Fault is a way in which a layout is not legal.
type Fault struct {
	Rule  string    // "gap", "margin", "forbidden", "turn", "grain", "mirror", "count", "set", "stock"
	Sheet int       // index in the layout, -1 where no sheet is concerned
	Part  Placement // the placement concerned, or the part and copy alone
	Other Placement // for a gap the other one
	At    r2.Vec    // where, on the sheet
	Clear float64   // mm: the distance found there, negative where parts overlap
	Need  float64   // mm: what it should be
	Text  string    // the fault in one line
}

// Faults are what [Check] found; they wrap [ErrIllegal].
type Faults []Fault

// Error returns one line a fault.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i := range f {
		lines[i] = f[i].Text
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns ErrIllegal.
func (f Faults) Unwrap() error { return ErrIllegal }

// turnSlack is how far a turn may be off the one allowed, in radians: 1e-6 mm
// at the end of a part of one meter.
const turnSlack = 1e-9

// Check returns nil where a layout is legal, [Faults] where it is not, and a
// [*ParamError] where the parts or the stock cannot be used. Of opt it reads
// Gap, Margin and Eps. It shares nothing with the search, save that the search
// measures as Check does whether a part fits against arcs exactly: outlines are
// the true lines and arcs, and every distance is decided to within Eps. An overlap
// of no more than Eps counts as touching, which is legal where Gap is 0.
func Check(parts []Part, stock []Stock, l Layout, opt Options) error {
	if err := checkInput("sheet.Check", parts, stock, opt); err != nil {
		return err
	}
	return judge(parts, stock, l, opt)
}

// judge is Check for input that can be used.
func judge(parts []Part, stock []Stock, l Layout, opt Options) error {
	c := &checker{parts: parts, stock: stock, layout: l, opt: opt}
	c.counts()
	c.sets()
	for i := range l.Sheets {
		c.sheet(i)
	}
	if len(c.faults) > 0 {
		return c.faults
	}
	return nil
}

type checker struct {
	parts  []Part
	stock  []Stock
	layout Layout
	opt    Options
	faults Faults
}

func (c *checker) add(f Fault, format string, args ...any) {
	f.Text = fmt.Sprintf(format, args...)
	if f.Sheet >= 0 {
		f.Text = fmt.Sprintf("sheet %d: ", f.Sheet+1) + f.Text
	}
	c.faults = append(c.faults, f)
}

// known reports whether a placement names a part.
func (c *checker) known(part int) bool { return part >= 0 && part < len(c.parts) }

// counts demands each copy once, placed or not, and no more sheets than there
// are.
func (c *checker) counts() {
	type key struct{ part, copy int }
	seen := map[key]int{}
	for i, s := range c.layout.Sheets {
		for _, p := range s.Placements {
			seen[key{p.Part, p.Copy}]++
			if !c.known(p.Part) || p.Copy < 0 || p.Copy >= c.parts[p.Part].Copies() {
				c.add(Fault{Rule: "count", Sheet: i, Part: p}, "there is no copy %d of part %d", p.Copy, p.Part)
			}
		}
	}
	for _, u := range c.layout.Unplaced {
		seen[key{u.Part, u.Copy}]++
		if !c.known(u.Part) || u.Copy < 0 || u.Copy >= c.parts[u.Part].Copies() {
			c.add(Fault{Rule: "count", Sheet: -1}, "there is no copy %d of part %d to leave out", u.Copy, u.Part)
		}
	}
	for i, p := range c.parts {
		for j := range p.Copies() {
			if n := seen[key{i, j}]; n != 1 {
				c.add(Fault{Rule: "count", Sheet: -1, Part: Placement{Part: i, Copy: j}}, "copy %d of %q is listed %d times, need 1", j, p.Name, n)
			}
		}
	}
	used := make([]int, len(c.stock))
	for i, s := range c.layout.Sheets {
		if s.Stock < 0 || s.Stock >= len(c.stock) {
			c.add(Fault{Rule: "stock", Sheet: i}, "there is no stock %d", s.Stock)
			continue
		}
		used[s.Stock]++
	}
	for i, n := range used {
		if have := c.stock[i].Count; have > 0 && n > have {
			c.add(Fault{Rule: "stock", Sheet: -1}, "%d sheets of stock %d, %q, are used, there are %d", n, i, c.stock[i].Name, have)
		}
	}
}

// A setKey names a set: parts of other material cannot share its sheet.
type setKey struct {
	set, material string
	thickness     float64
}

// setOf returns the set of a part, if it is known and in one.
func (c *checker) setOf(part int) (setKey, bool) {
	if !c.known(part) {
		return setKey{}, false
	}
	p := c.parts[part]
	return setKey{p.Set, p.Material, p.Thickness}, p.Set != ""
}

// sets demands that a set is on one sheet, or on none.
func (c *checker) sets() {
	on := map[setKey]int{}
	for i, s := range c.layout.Sheets {
		for _, p := range s.Placements {
			set, ok := c.setOf(p.Part)
			if !ok {
				continue
			}
			if j, seen := on[set]; seen && j != i {
				c.add(Fault{Rule: "set", Sheet: i, Part: p}, "%s: set %q is on sheet %d too", c.who(p), set.set, j+1)
			}
			on[set] = i
		}
	}
	split := map[setKey]bool{}
	for _, u := range c.layout.Unplaced {
		set, ok := c.setOf(u.Part)
		if !ok {
			continue
		}
		if i, seen := on[set]; seen && !split[set] {
			p := Placement{Part: u.Part, Copy: u.Copy}
			c.add(Fault{Rule: "set", Sheet: i, Part: p}, "%s is left out: set %q is only in part placed", c.who(p), set.set)
		}
		split[set] = true
	}
}

func (c *checker) sheet(i int) {
	s := c.layout.Sheets[i]
	if s.Stock < 0 || s.Stock >= len(c.stock) {
		return
	}
	st := c.stock[s.Stock]
	var placed []Placement
	var bodies []*laid
	for _, p := range s.Placements {
		if !c.known(p.Part) || !finite(p) {
			c.add(Fault{Rule: "count", Sheet: i, Part: p}, "a placement of part %d cannot be used", p.Part)
			continue
		}
		c.lies(i, p, st)
		placed = append(placed, p)
		bodies = append(bodies, lay(c.parts[p.Part].Outline.Transform(p.Motion())))
	}
	c.edges(i, placed, bodies, st)
	for k, f := range st.Forbidden {
		b := lay(f)
		for j := range bodies {
			if at, bad := c.near(b, bodies[j]); bad {
				c.add(c.spot("forbidden", i, placed[j], at, c.opt.Gap), "%s is %s forbidden region %d, need %g mm", c.who(placed[j]), apart(at.Clear), k, c.opt.Gap)
			}
		}
	}
	c.pairs(i, placed, bodies)
}

// A laid is a region in place that is made ready to be measured once something
// comes near its box.
type laid struct {
	region arc.Region
	box    r2.Box
	ready  *clear.Body
}

func lay(g arc.Region) *laid { return &laid{region: g, box: g.Bounds()} }

func (l *laid) body() *clear.Body {
	if l.ready == nil {
		l.ready = clear.NewBody(l.region)
	}
	return l.ready
}

func finite(p Placement) bool {
	for _, v := range [3]float64{p.At.X, p.At.Y, float64(p.Rotate)} {
		if !(math.Abs(v) <= 10*maxSize) {
			return false
		}
	}
	return true
}

// lies demands the right material, turn, grain and side.
func (c *checker) lies(i int, pl Placement, st Stock) {
	p := c.parts[pl.Part]
	f := Fault{Sheet: i, Part: pl}
	if p.Material != st.Material || math.Abs(p.Thickness-st.Thickness) > c.opt.eps() {
		f.Rule = "stock"
		c.add(f, "%s is of %q, %g mm, not of %q, %g mm", c.who(pl), p.Material, p.Thickness, st.Material, st.Thickness)
	}
	if pl.Mirror && !p.MirrorOK {
		f.Rule = "mirror"
		c.add(f, "%s is mirrored", c.who(pl))
	}
	sin, cos := math.Sincos(float64(pl.Rotate))
	half, right := math.Abs(sin), math.Abs(math.Sin(2*float64(pl.Rotate)))/2
	off := 0.0
	switch p.Turns {
	case RightAngles:
		off = right
	case HalfTurns:
		off = half
	case NoTurn:
		off = half + math.Max(0, -cos)
	}
	if off > turnSlack {
		f.Rule = "turn"
		c.add(f, "%s is turned by %v, allowed: %v", c.who(pl), pl.Rotate, p.Turns)
	}
	across := math.Abs(sin)
	if st.GrainAcross != (p.Grain == Across) {
		across = math.Abs(cos)
	}
	if p.Grain != AnyGrain && across > turnSlack {
		f.Rule = "grain"
		c.add(f, "%s lies the wrong way to the grain, need %v", c.who(pl), p.Grain)
	}
}

// edges demands the margin.
func (c *checker) edges(i int, placed []Placement, bodies []*laid, st Stock) {
	need := c.opt.Margin
	var out *clear.Body
	if st.irregular() {
		out = clear.NewBody(st.Outline)
		out.Outside = true
	}
	for j, b := range bodies {
		at, bad := frameBreach(b.box, st, need-c.opt.eps())
		if out != nil {
			at, bad = clear.TooNear(b.body(), out, need-c.opt.eps())
			if bad {
				at = nearest(b.body(), out, at, c.opt.eps())
			}
		}
		if bad {
			c.add(c.spot("margin", i, placed[j], at, need), "%s is %s the edge, need %g mm", c.who(placed[j]), apart(at.Clear), need)
		}
	}
}

// frameBreach returns how near a box comes to the edge of a rectangular sheet.
func frameBreach(b r2.Box, st Stock, need float64) (clear.Breach, bool) {
	at := clear.Breach{At: b.Min, Clear: b.Min.X}
	for _, o := range []clear.Breach{{At: b.Min, Clear: b.Min.Y}, {At: b.Max, Clear: st.Length - b.Max.X}, {At: b.Max, Clear: st.Width - b.Max.Y}} {
		if o.Clear < at.Clear {
			at = o
		}
	}
	return at, at.Clear < need
}

func (c *checker) near(a, b *laid) (clear.Breach, bool) {
	need := c.opt.Gap - c.opt.eps()
	if !clear.Near(a.box, b.box, math.Max(0, need)) {
		return clear.Breach{}, false
	}
	at, bad := clear.TooNear(a.body(), b.body(), need)
	if bad {
		at = nearest(a.body(), b.body(), at, c.opt.eps())
	}
	return at, bad
}

// nearest narrows a breach between bodies that lie apart down to where they are
// nearest, within eps: it asks for less and less until none is nearer. The
// middle of what is left of an element comes in by a share at least a half of
// what there is to come, so that 60 turns are beyond the bits of a float.
func nearest(a, b *clear.Body, at clear.Breach, eps float64) clear.Breach {
	for range 60 {
		next, nearer := clear.TooNear(a, b, at.Clear-eps)
		if at.Clear <= eps || !nearer {
			break
		}
		at = next
	}
	return at
}

// pairs demands the gap between all parts of a sheet, sweeping over x.
func (c *checker) pairs(i int, placed []Placement, bodies []*laid) {
	order := make([]int, len(bodies))
	for j := range order {
		order[j] = j
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch d := bodies[a].box.Min.X - bodies[b].box.Min.X; {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	for j, a := range order {
		for _, b := range order[j+1:] {
			if bodies[b].box.Min.X > bodies[a].box.Max.X+c.opt.Gap {
				break
			}
			if at, bad := c.near(bodies[a], bodies[b]); bad {
				f := c.spot("gap", i, placed[a], at, c.opt.Gap)
				f.Other = placed[b]
				c.add(f, "%s is %s %s, need %g mm", c.who(placed[a]), apart(at.Clear), c.who(placed[b]), c.opt.Gap)
			}
		}
	}
}

func (c *checker) spot(rule string, sheet int, p Placement, at clear.Breach, need float64) Fault {
	return Fault{Rule: rule, Sheet: sheet, Part: p, At: at.At, Clear: at.Clear, Need: need}
}

func (c *checker) who(p Placement) string {
	return fmt.Sprintf("%q copy %d", c.parts[p.Part].Name, p.Copy)
}

func apart(d float64) string {
	if d < 0 {
		return fmt.Sprintf("%.3g mm into", -d)
	}
	return fmt.Sprintf("%.6g mm from", d)
}
