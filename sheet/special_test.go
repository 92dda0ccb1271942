package sheet_test

import (
	"bytes"
	"context"
	"io"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

var specials = map[string]float64{
	"zero": 0, "negative zero": math.Copysign(0, -1), "NaN": math.NaN(), "Inf": math.Inf(1), "-Inf": math.Inf(-1),
	"negative": -1, "huge": 1e300, "tiny": 5e-324,
}

// Each field of the stock's regions and of the saw is refused by name, or used.
func TestSpecialStockAndSaw(t *testing.T) {
	parts := []sheet.Part{panel("p", 100, 50, 1)}
	opt := sheet.Options{Iterations: 1}
	good := map[string]bool{"zero": true, "negative zero": true, "tiny": true}
	for name, v := range specials {
		for field, saw := range map[string]sheet.Saw{"saw.Kerf": {Kerf: v}, "saw.Trim": {Trim: v}} {
			_, err := sheet.NestStraight(context.Background(), parts, []sheet.Stock{sheetOf(500, 300)}, saw, opt)
			requireParam(t, err, good[name], field, name)
		}
		knot, ell := sheetOf(500, 300), sheetOf(0, 0)
		knot.Forbidden = []arc.Region{{Outer: arc.Polygon(r2.Vec{X: v, Y: 20}, r2.Vec{X: 200, Y: 10}, r2.Vec{X: 200, Y: 90})}}
		ell.Outline = arc.Region{Outer: arc.Polygon(r2.Vec{X: v}, r2.Vec{X: 400}, r2.Vec{X: 400, Y: 200}, r2.Vec{Y: 200})}
		for field, s := range map[string]sheet.Stock{"stock[0].Forbidden[0].Outer": knot, "stock[0].Outline.Outer": ell} {
			ok := good[name] || name == "negative"
			_, err := sheet.Nest(context.Background(), parts, []sheet.Stock{s}, opt)
			requireParam(t, err, ok, field, name)
			_, err = sheet.NestStraight(context.Background(), parts, []sheet.Stock{s}, sheet.Saw{Kerf: 3, Trim: 5}, opt)
			requireParam(t, err, ok, field, name)
			requireParam(t, sheet.Check(nil, []sheet.Stock{s}, sheet.Layout{}, opt), ok, field, name)
		}
	}
	empty := sheetOf(500, 300)
	empty.Forbidden = []arc.Region{{}}
	_, err := sheet.Nest(context.Background(), parts, []sheet.Stock{empty}, opt)
	requireParam(t, err, false, "stock[0].Forbidden[0].Outer", "empty")
	_, err = sheet.NestStraight(context.Background(), nil, nil, sheet.Saw{Kerf: 1e6, Trim: 1e6}, opt)
	require.NoError(t, err)
}

func requireParam(t *testing.T, err error, ok bool, field, name string) {
	t.Helper()
	if ok {
		require.NoError(t, err, "%s %s", field, name)
		return
	}
	var p *sheet.ParamError
	require.ErrorAs(t, err, &p, "%s %s", field, name)
	require.Equal(t, field, p.Param, name)
}

// The values that are asked for parts and stock not checked before are what
// they come to, and nothing panics.
func TestSpecialValuesOfParts(t *testing.T) {
	for name, v := range specials {
		p := sheet.Part{Outline: arc.Region{Outer: arc.Rect(0, 0, v, 2)}}
		length, width := p.Size()
		if v >= 0 && !math.IsInf(v, 0) {
			assert.Equal(t, [2]float64{math.Abs(v), 2}, [2]float64{length, width}, name)
		}
		a := sheet.Stock{Length: v, Width: 2}.Area()
		assert.Equal(t, math.IsNaN(v) || math.IsInf(v, 0), math.IsNaN(a), name)
		m := sheet.Placement{Rotate: arc.Angle(v), At: r2.Vec{X: v}, Mirror: true}.Motion()
		if v == 0 {
			assert.Equal(t, r2.Vec{X: -3, Y: 4}, m.Apply(r2.Vec{X: 3, Y: 4}))
		}
	}
	length, width := sheet.Part{}.Size()
	assert.Zero(t, length)
	assert.Zero(t, width)
	assert.Equal(t, 1, sheet.Part{}.Copies())
	assert.Zero(t, sheet.Stock{}.Area())
	assert.Empty(t, sheet.Stock{}.Shape().Holes)
	assert.Empty(t, sheet.Faults{}.Error())
	require.ErrorIs(t, sheet.Faults{}, sheet.ErrIllegal)
	for _, s := range []interface{ String() string }{sheet.Grain(-1), sheet.Grain(3), sheet.Turns(-1), sheet.Turns(4), sheet.Direction(-1), sheet.Direction(3), sheet.Reason(0), sheet.Reason(7)} {
		assert.Equal(t, "unknown", s.String(), "%T", s)
	}
	for r := sheet.NoStock; r <= sheet.NoTime; r++ {
		assert.NotEqual(t, "unknown", r.String())
	}
}

// A list is written whole or not at all, and placements of parts that are not
// there are left out.
func TestSpecialLists(t *testing.T) {
	parts := []sheet.Part{panel("p", 100, 50, 2)}
	strange := sheet.Layout{Sheets: []sheet.Sheet{{Placements: []sheet.Placement{{Part: -1}, {Part: 1}, {Part: math.MaxInt}, {Part: 0, Copy: -5}}}}}
	assert.Len(t, sheet.Labels(parts, strange), 1)
	assert.Empty(t, sheet.Labels(nil, strange))
	assert.Empty(t, sheet.Labels(parts, sheet.Layout{}))
	require.NoError(t, sheet.WriteCutList(io.Discard, nil, strange))
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		var b bytes.Buffer
		bad := panel("p", 100, 50, 1)
		bad.Thickness = v
		requireParam(t, sheet.WriteCutList(&b, append(parts, bad), sheet.Layout{}), false, "parts[1]", "thickness")
		bad = panel("p", v, 50, 1)
		require.Error(t, sheet.WriteCutList(&b, append(parts, bad), sheet.Layout{}))
		assert.Zero(t, b.Len())
	}
	require.ErrorIs(t, sheet.WriteCutList(failing{}, parts, strange), io.ErrShortWrite)
	require.ErrorIs(t, sheet.Check(parts, nil, strange, sheet.Options{}), sheet.ErrIllegal)
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

// A budget that is over at once, and one of more workers than there is work
// for, give a layout.
func TestSpecialBudgets(t *testing.T) {
	parts, stock := shopParts(), shopStock()
	for name, opt := range map[string]sheet.Options{
		"a nanosecond": {Time: 1}, "one sweep": {Iterations: 1}, "many workers": {Iterations: 1, Workers: 1 << 20}, "both": {Iterations: 1 << 40, Time: time.Millisecond},
	} {
		l, err := sheet.Nest(context.Background(), parts, stock, opt)
		require.NoError(t, err, name)
		assert.Len(t, l.Unplaced, 2, name)
		assert.False(t, l.Stopped, name)
		saw, err := sheet.NestStraight(context.Background(), parts, stock, sheet.Saw{Kerf: 3}, opt)
		require.NoError(t, err, name)
		assert.Len(t, saw.Unplaced, 2, name)
		s, err := sheet.NestStrip(context.Background(), parts[:4], 1220, opt)
		require.NoError(t, err, name)
		assert.Len(t, s.Placements, 22, name)
	}
}

// A bar that fits at a slant only, as it is drawn, and no time at all.
func TestStripStoppedBeforeItBegan(t *testing.T) {
	bar := panel("bar", 3000, 50, 1)
	bar.Turns = sheet.AnyAngle
	bar.Outline = bar.Outline.Transform(arc.Rotate(45 * arc.Degree))
	ctx, cancel := context.WithCancel(context.Background())
	s, err := sheet.NestStrip(ctx, []sheet.Part{bar}, 1220, sheet.Options{Iterations: 1})
	require.NoError(t, err)
	assert.Len(t, s.Placements, 1)
	cancel()
	s, err = sheet.NestStrip(ctx, []sheet.Part{bar}, 1220, sheet.Options{Iterations: 1})
	require.NoError(t, err)
	assert.True(t, s.Stopped)
	assert.Empty(t, s.Placements)
	s, err = sheet.NestStrip(context.Background(), []sheet.Part{bar}, 1220, sheet.Options{Time: 1})
	require.NoError(t, err)
	assert.Len(t, s.Placements, 1)
}
