package sheet_test

import (
	"context"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// The exact cases of arcs without slack are found whole.
func TestNestFindsTouchingArcs(t *testing.T) {
	for _, c := range []tight{discInRing(), sevenDiscs(), fivePieces()} {
		c.stock.Count = 1
		for _, turns := range []sheet.Turns{sheet.RightAngles, sheet.AnyAngle} {
			for i := range c.parts {
				c.parts[i].Turns = turns
			}
			l := nestExactly(t, c.parts, c.stock, sheet.Options{Iterations: 10})
			assert.Empty(t, l.Unplaced, "%s, turns %v", c.name, turns)
		}
	}
}

// Within a budget of time, long beside what it needs, they are found as well.
func TestNestFindsTouchingArcsInTime(t *testing.T) {
	if testing.Short() {
		t.Skip("takes its budget of time")
	}
	c := sevenDiscs()
	c.stock.Count = 1
	assert.Empty(t, nestExactly(t, c.parts, c.stock, sheet.Options{Time: 4 * time.Second}).Unplaced)
}

func nestExactly(t *testing.T, parts []sheet.Part, stock sheet.Stock, opt sheet.Options) sheet.Layout {
	t.Helper()
	l, err := sheet.Nest(context.Background(), parts, []sheet.Stock{stock}, opt)
	require.NoError(t, err)
	require.NoError(t, sheet.Check(parts, []sheet.Stock{stock}, l, opt))
	return l
}

// Two rings fill a sheet each, and discs of just their holes' size go into
// them, so that no sheet is bought for the discs.
func TestNestTouchingArcsSaveASheet(t *testing.T) {
	c := discInRing()
	for i := range c.parts {
		c.parts[i].Qty = 2
	}
	stock := sheetOf(66, 66)
	opts := []sheet.Options{{Iterations: 10}, {Time: 2 * time.Second}}
	if testing.Short() {
		opts = opts[:1]
	}
	for _, opt := range opts {
		opt.Gap, opt.Margin = 2, 3
		for radius, sheets := range map[float64]int{18: 2, 18.001: 4} {
			c.parts[1].Outline = disc(radius)
			l := nestExactly(t, c.parts, stock, opt)
			assert.Empty(t, l.Unplaced)
			assert.Len(t, l.Sheets, sheets, "radius %g", radius)
		}
	}
}

// Six unit discs touch the seventh and the rim of the sheet: by distances of
// centers, apart from Check.
func TestNestSevenDiscs(t *testing.T) {
	c := sevenDiscs()
	c.stock.Count = 1
	l := nestExactly(t, c.parts, c.stock, sheet.Options{Iterations: 10})
	require.Len(t, l.Sheets, 1)
	p := l.Sheets[0].Placements
	require.Len(t, p, 7)
	for i := range p {
		assert.LessOrEqual(t, r2.Norm(p[i].At), 2+1e-6)
		for j := range i {
			assert.GreaterOrEqual(t, r2.Norm(r2.Sub(p[i].At, p[j].At)), 2-1e-6)
		}
	}
}

// With a gap a disc goes into the ring that is smaller by it, and no larger
// one does.
func TestNestDiscInRingWithGap(t *testing.T) {
	c := discInRing()
	stock := sheetOf(66, 66)
	stock.Count = 1
	for _, k := range []struct {
		radius float64
		out    int
	}{{18, 0}, {18.00001, 1}} {
		c.parts[1].Outline = disc(k.radius)
		l := nestExactly(t, c.parts, stock, sheet.Options{Iterations: 10, Gap: 2, Margin: 3})
		assert.Len(t, l.Unplaced, k.out, "radius %g", k.radius)
	}
}

// Three discs in a triangle touch each other and all four edges of the sheet.
func TestNestThreeDiscs(t *testing.T) {
	stock := sheetOf(40, 20+10*math.Sqrt(3))
	stock.Count = 1
	parts := []sheet.Part{{Name: "disc", Qty: 3, Material: "ply", Thickness: 12, Outline: arc.Region{Outer: arc.Circle(r2.Vec{X: 3, Y: -4}, 10)}}}
	l := nestExactly(t, parts, stock, sheet.Options{Iterations: 10})
	assert.Empty(t, l.Unplaced)
}
