package boards

import (
	"fmt"
	"math"
	"slices"

	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/hood/spec"
)

// placeTabs sets the tabs of deck and liner shelf.
func (b *builder) placeTabs() {
	if b.Tabs.Width == 0 {
		return
	}
	b.addRow(tabRow{board: KindDeck, low: b.Height - b.t})
	if b.Liner.Length > 0 {
		b.addRow(tabRow{board: KindShelf, low: b.Liner.Y})
	}
}

// row returns the tabs of a board.
func (b *builder) row(board part.Kind) tabRow {
	for _, r := range b.tabs {
		if r.board == board {
			return r
		}
	}
	return tabRow{}
}

// levels returns how high the slots of a row are, and whether they are open at
// the bottom or the top of the back.
func (b *builder) levels(y float64) (low, high float64, below, above bool) {
	low, high = y-b.Tabs.Clearance/2, y+b.t+b.Tabs.Clearance/2
	return math.Max(low, 0), math.Min(high, b.Height), low <= 0, high >= b.Height
}

// addRow places the tabs of a board evenly, as few as keep the spacing, and
// moves or leaves out those that have no place.
func (b *builder) addRow(r tabRow) {
	l, w := b.levelAt(r.low), b.Tabs.Width
	beside := w/2 + b.Tabs.Clearance/2 + math.Max(b.Wood(), 3*b.Relief())
	// A bevel at the end of the rear edge runs in or out along it.
	x0 := beside + math.Abs(l.left[0]-l.left[1]) - min(l.left[0], l.left[1])
	x1 := min(l.right[0], l.right[1]) - math.Abs(l.right[0]-l.right[1]) - beside
	pitch := x1 - x0
	spots := []float64{(x0 + x1) / 2}
	if pitch >= 2*w {
		n := int(math.Ceil(pitch / b.Tabs.Spacing))
		pitch /= float64(n)
		spots = spots[:0]
		for i := range n + 1 {
			spots = append(spots, x0+pitch*float64(i))
		}
	}
	for _, x := range spots {
		for _, f := range [3]float64{0, 1. / 8, -1. / 8} {
			if x := x + f*math.Max(0, pitch); x1 >= x0 && x > x0-rounding && x < x1+rounding && b.tabFits(r, l, x) {
				r.mids = append(r.mids, x)
				break
			}
		}
	}
	if len(r.mids) == 0 {
		b.faults.Add("tabs.width", w, "mm", fmt.Sprintf("a place for a tab of the %s, clear of edges and openings by %s", r.board, b.faults.In.Up(b.Wood())), spec.ErrPlace)
	}
	b.tabs = append(b.tabs, r)
}

// tabFits reports whether a tab and its slot have wood around them.
func (b *builder) tabFits(r tabRow, l level, x float64) bool {
	if n := len(r.mids); n > 0 && x-r.mids[n-1] < 2*b.Tabs.Width {
		return false
	}
	low, high, below, above := b.levels(r.low)
	if more := b.Relief() + b.Wood(); !below && low < more || !above && high > b.Height-more {
		return false
	}
	room := b.slotBox(r.low, x)
	room.Width, room.Height = room.Width+2*b.Wood(), room.Height+2*b.Wood()
	if !b.clearOnBack(room) {
		return false
	}
	if h := b.Cleat.Height; h > 0 && low < b.Height-b.t-rounding-b.Tabs.Clearance && high > b.Height-b.t-h {
		return false // behind it is the cleat
	}
	return b.rootFits(r, l, x)
}

// clearOnBack reports whether a place on the back, x to the right, meets no
// opening and no slot.
func (b *builder) clearOnBack(room spec.Opening) bool {
	for _, o := range b.Back.Openings {
		if room.Touches(o) {
			return false
		}
	}
	for _, r := range b.tabs {
		for _, m := range r.mids {
			if room.Touches(b.slotBox(r.low, m)) {
				return false
			}
		}
	}
	return true
}

// slotBox returns the slot of a tab with its reliefs, as an opening.
func (b *builder) slotBox(y, x float64) spec.Opening {
	low, high, _, _ := b.levels(y)
	return spec.Opening{Shape: "rectangle", X: x, Y: (low + high) / 2,
		Width: b.Tabs.Width + b.Tabs.Clearance, Height: high - low + 2*b.Relief()}
}

// rootFits reports whether the board's own opening leaves wood behind the tab.
func (b *builder) rootFits(r tabRow, l level, x float64) bool {
	deep := l.front[0] - b.BackFace()
	root := spec.Opening{Shape: "rectangle", X: x, Y: deep,
		Width: b.Tabs.Width + 4*b.Relief() + 2*b.Wood(), Height: 2 * (b.Relief() + b.Wood())}
	if r.board == KindDeck {
		at := b.ductAt(l)
		return b.Duct.Diameter == 0 || !root.Touches(spec.Opening{Shape: "circle", X: at.X, Y: at.Y, Diameter: b.Duct.Diameter})
	}
	return !root.Touches(b.linerAt(l))
}

// withTabs puts the tabs of a board into its rear edge, which runs from right
// to left.
func (b *builder) withTabs(board part.Kind, rear plate.Side) []plate.Side {
	r := b.row(board)
	var mids []float64
	for _, x := range slices.Backward(r.mids) {
		mids = append(mids, rear.Path.V[0].P.X-x)
	}
	return plate.Tabbed(rear, mids, b.Tabs.Width, b.Back.Thickness-b.Tabs.Clearance, b.Relief())
}

// cutSlots puts the slots of all tabs into the back, as seen from the wall.
func (b *builder) cutSlots(p *plate.Plate) {
	wide := b.Tabs.Width + b.Tabs.Clearance
	for _, r := range b.tabs {
		low, high, below, above := b.levels(r.low)
		switch {
		case above:
			p.OpenSlots("top", r.mids, wide, b.Height-low, b.Relief())
		case below:
			p.OpenSlots("bottom", r.mids, wide, high, b.Relief())
		default:
			for _, x := range r.mids {
				p.Holes = append(p.Holes, plate.EasedSlot(-x-wide/2, low, wide/2-x, high, b.Relief()).Reverse())
			}
		}
	}
}
