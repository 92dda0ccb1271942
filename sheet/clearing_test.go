package sheet_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// Twenty round knots at one end of a sheet leave 1210 mm of it clear: straight
// cuts place a panel that needs all of that, at whichever end they are.
func TestStraightUsesTheRoomBesideKnots(t *testing.T) {
	for _, turned := range []bool{false, true} {
		for _, end := range []bool{false, true} {
			st := sheetOf(2440, 1220)
			if turned {
				st = sheetOf(1220, 2440)
			}
			for i := range 20 {
				c := r2.Vec{X: float64(i%5)*250 + 120, Y: float64(i/5)*250 + 120}
				if end {
					c.X = 2440 - c.X
				}
				if turned {
					c.X, c.Y = c.Y, c.X
				}
				st.Forbidden = append(st.Forbidden, arc.Region{Outer: arc.Circle(c, 100)})
			}
			for _, more := range []float64{-0.2, 0.2} { // 2440 - 1220 - a kerf of 3 - a trim of 10, within the tolerance
				p := panel("x", 1207+more, 1199, 1)
				m, err := sheet.NestStraight(context.Background(), []sheet.Part{p}, []sheet.Stock{st}, sheet.Saw{Kerf: 3, Trim: 10}, sheet.Options{Iterations: 20})
				require.NoError(t, err)
				require.Equal(t, more > 0, len(m.Unplaced) > 0, "%v %v %g: %v", turned, end, more, m.Unplaced)
			}
		}
	}
}

// The middle of a frame that is forbidden is room like any other.
func TestHolesOfForbiddenRegionsAreRoom(t *testing.T) {
	st := sheetOf(600, 400)
	st.Count = 1
	st.Forbidden = []arc.Region{{Outer: arc.Rect(5, 5, 595, 395), Holes: []arc.Path{arc.Rect(100, 100, 500, 300).Reverse()}}}
	parts := []sheet.Part{panel("a", 300, 180, 1), {Name: "b", Material: st.Material, Thickness: st.Thickness, Outline: disc(35)}}
	opt := sheet.Options{Gap: 8, Margin: 10, Iterations: 100}
	l, err := sheet.Nest(context.Background(), parts, []sheet.Stock{st}, opt)
	require.NoError(t, err)
	require.Empty(t, l.Unplaced)
	require.NoError(t, sheet.Check(parts, []sheet.Stock{st}, l, opt))
	m, err := sheet.NestStraight(context.Background(), parts[:1], []sheet.Stock{st}, sheet.Saw{Kerf: 3, Trim: 10}, opt)
	require.NoError(t, err)
	require.Empty(t, m.Unplaced)
	st.Forbidden[0].Holes = nil
	l, err = sheet.Nest(context.Background(), parts, []sheet.Stock{st}, opt)
	require.NoError(t, err)
	require.Len(t, l.Unplaced, 2)
}
