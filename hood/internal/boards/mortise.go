package boards

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/hood/spec"
	"gonum.org/v1/gonum/spatial/r2"
)

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
