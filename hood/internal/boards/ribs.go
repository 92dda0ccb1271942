package boards

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/hood/spec"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A rib is where one rib stands.
type rib struct {
	x       float64 // its middle
	low     float64 // its ends
	high    float64
	through bool // up to the neck, through the deck
}

// ribs places the ribs: as few as keep the spacing, evenly between the sides at
// the foot of the sweep. Where a flared side leans in over a rib it ends below.
func (b *builder) ribs() []rib {
	if b.Ribs.Spacing == 0 {
		return nil
	}
	foot := b.Skirt
	left, right := b.inside(b.left, b.LeftEnds(), b.t), b.inside(b.right, b.RightEnds(), b.t)
	x0, x1 := -rise.OutAt(left, foot), rise.OutAt(right, foot)
	n := int(math.Ceil((x1-x0)/b.Ribs.Spacing)) - 1
	var out []rib
	for i := range n {
		r := rib{x: x0 + (x1-x0)*float64(i+1)/float64(n+1), low: foot, high: b.Height}
		if b.Liner.Length > 0 {
			r.low = math.Max(r.low, b.Liner.Y+b.t)
		}
		r.high = math.Min(r.high, clearUnder(left, b.t/2-r.x))
		r.high = math.Min(r.high, clearUnder(right, b.t/2+r.x))
		// A slot needs wood of the deck beside it. The top of a face is the neck but
		// for rounding.
		beside := math.Min(b.narrowest(left)+r.x, b.narrowest(right)-r.x) - b.t/2
		r.through = r.high > b.Height-rounding && beside > 2*b.t
		if !r.through { // short of the deck, which it must not touch
			r.high = math.Min(r.high, b.Height-b.t)
		}
		if r.high-r.low > b.Ribs.Depth {
			out = append(out, r)
		}
	}
	return out
}

// narrowest returns the least that an inner face stands off along the deck.
func (b *builder) narrowest(p arc.Path) float64 {
	return math.Min(rise.OutAt(p, b.Height-b.t), rise.OutAt(p, b.Height))
}

// clearUnder returns up to what height a path stands out farther than x.
func clearUnder(p arc.Path, x float64) float64 {
	top := p.V[len(p.V)-1].P
	if rise.OutAt(p, top.Y) >= x {
		return top.Y
	}
	q, ok := rise.EndAt(p, rise.HalfPlane{At: r2.Vec{X: x}, Out: r2.Vec{X: -1}})
	if !ok {
		return 0
	}
	return q.V[len(q.V)-1].P.Y
}

// addRibs draws the ribs. A rib that goes through keeps its front half above
// the deck's lower face.
func (b *builder) addRibs() {
	ribs := b.ribs()
	if len(ribs) == 0 {
		if b.front.Plies == 1 {
			b.faults.Add("ribs.spacing", b.Ribs.Spacing, "mm", "a rib or more between the sides, to hold a front bent as it is", spec.ErrPlace)
		}
		return
	}
	rear, ok := b.ribRear()
	if !ok {
		b.faults.Add("ribs.depth", b.Ribs.Depth, "mm", "ribs that fit between front and back", spec.ErrPlace)
		return
	}
	for i, r := range ribs {
		p, ok := b.ribPlate(fmt.Sprintf("rib-%d", i+1), r, rear)
		if !ok {
			b.faults.Add("ribs.depth", b.Ribs.Depth, "mm", "ribs that the sweep has room for", spec.ErrPlace)
			return
		}
		b.add(p)
	}
}

// ribRear returns the rear edge of every rib, and false where it does not stay
// clear of the back.
func (b *builder) ribRear() (arc.Path, bool) {
	deep := b.front
	ok := deep.Fold(b.FrontEnds(), b.t+b.Ribs.Depth) && deep.Inner.Bounds().Min.X > b.BackFace()
	return deep.Inner, ok
}

// ribPlate draws a rib as the right cheek is drawn.
func (b *builder) ribPlate(name string, r rib, rear arc.Path) (plate.Plate, bool) {
	p := b.board(KindRib, "", name)
	front, ok1 := rise.Trimmed(b.front.Inner, r.low, r.high)
	top := r.high
	if r.through {
		top = b.Height - b.t
	}
	whole := rear
	rear, ok2 := rise.Trimmed(rear, r.low, top)
	if !ok1 || !ok2 {
		return p, false
	}
	f0, f1 := front.V[0].P, front.V[len(front.V)-1].P
	b0, b1 := rear.V[0].P, rear.V[len(rear.V)-1].P
	head := arc.Polyline(f1, b1)
	if r.through {
		x := f1.X - b.Ribs.Depth/2
		if x <= b1.X {
			return p, false
		}
		head = arc.Polyline(f1, r2.Vec{X: x, Y: f1.Y}, r2.Vec{X: x, Y: top}, b1)
	}
	bottom := plate.Side{Name: "bottom", Path: arc.Polyline(b0, f0)}
	p.Sides = []plate.Side{
		{Name: "front", Path: front},
		{Name: "top", Path: head},
		{Name: "rear", Path: rear.Reverse()},
	}
	if mid, ok := b.foot(r, whole); ok {
		foot := plate.Tabbed(bottom, []float64{mid - b0.X}, b.Tabs.Width, b.t/2-b.Tabs.Clearance, b.Relief())
		p.Sides = append(foot, p.Sides...)
	} else {
		p.Sides = append([]plate.Side{bottom}, p.Sides...)
	}
	p.Pose = part.Pose{At: r3.Vec{X: r.x + b.t/2}, Right: r3.Vec{Z: 1}, Up: r3.Vec{Y: 1}, In: r3.Vec{X: -1}}
	return p, true
}

// foot returns how far out of the wall the middle of a rib is where it stands on
// the liner shelf, and false where it stands elsewhere or has no room for a
// tab.
func (b *builder) foot(r rib, rear arc.Path) (mid float64, ok bool) {
	if b.Tabs.Width == 0 || b.Liner.Length == 0 || math.Abs(r.low-b.Liner.Y-b.t) > rounding {
		return 0, false
	}
	front, back := rise.OutAt(b.front.Inner, r.low), rise.OutAt(rear, r.low)
	mid = (front + back) / 2
	g, e := b.Tabs, 2*b.Relief()
	if front-back < g.Width+3*e || (front-back-g.Width-g.Clearance)/2 < b.Wood() {
		return 0, false
	}
	l := b.levelAt(b.Liner.Y)
	room := spec.Opening{Shape: "rectangle", X: r.x, Y: l.front[0] - mid,
		Width: b.t + g.Clearance + 2*e + 2*b.Wood(), Height: g.Width + g.Clearance + 2*b.Wood()}
	return mid, !room.Touches(b.linerAt(l))
}

// mortises returns the blind slots of the liner shelf for the feet of ribs.
func (b *builder) mortises(l level) []plate.Recess {
	if b.Tabs.Width == 0 {
		return nil
	}
	rear, ok := b.ribRear()
	if !ok {
		return nil
	}
	var out []plate.Recess
	long, wide := (b.Tabs.Width+b.Tabs.Clearance)/2, (b.t+b.Tabs.Clearance)/2
	for _, r := range b.ribs() {
		mid, ok := b.foot(r, rear)
		if !ok {
			continue
		}
		// The reliefs are in the sides along the rib.
		turn := arc.Rotate(90 * arc.Degree).Then(arc.Shift(r2.Vec{X: r.x, Y: l.front[0] - mid}))
		area := arc.Region{Outer: plate.EasedSlot(-long, -wide, long, wide, b.Relief()).Transform(turn)}
		out = append(out, plate.Recess{Area: area, Run: area, Depth: b.t / 2})
	}
	return out
}
