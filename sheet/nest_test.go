package sheet_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// bracket is an L with a rounded back and a round opening.
func bracket(l, w, leg float64) arc.Region {
	return arc.Region{
		Outer: arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(l, 0, 0), arc.V(l, leg, 0), arc.V(leg, leg, 0), arc.V(leg, w, 0.4), arc.V(0, w, 0)}, Closed: true},
		Holes: []arc.Path{arc.Circle(arc.V(leg/2, leg/2, 0).P, leg/4).Reverse()},
	}
}

func shopParts() []sheet.Part {
	return []sheet.Part{
		{Name: "panel", Qty: 4, Material: "ply", Thickness: 12, Outline: arc.Region{Outer: arc.Rect(0, 0, 700, 400)}, Grain: sheet.Along},
		{Name: "bracket", Qty: 8, Material: "ply", Thickness: 12, Outline: bracket(400, 300, 80)},
		{Name: "disc", Qty: 6, Material: "ply", Thickness: 12, Outline: disc(60), Turns: sheet.NoTurn},
		{Name: "brace", Qty: 4, Material: "ply", Thickness: 12, Outline: bracket(250, 250, 50), Turns: sheet.AnyAngle, MirrorOK: true},
		{Name: "plinth", Qty: 2, Material: "mdf", Thickness: 18, Outline: arc.Region{Outer: arc.Rect(0, 0, 900, 100)}},
		{Name: "=beam", Material: "mdf", Thickness: 18, Outline: arc.Region{Outer: arc.Rect(0, 0, 9000, 100)}},
		{Name: "foil", Material: "foil", Thickness: 0.1, Outline: square(10)},
	}
}

func shopStock() []sheet.Stock {
	return []sheet.Stock{
		{Name: "large", Material: "ply", Thickness: 12, Length: 2440, Width: 1220, Price: 60},
		{Name: "small", Material: "ply", Thickness: 12, Length: 1220, Width: 610, Price: 20, Count: 2,
			Forbidden: []arc.Region{{Outer: arc.Circle(arc.V(300, 300, 0).P, 40)}}},
		{Name: "mdf", Material: "mdf", Thickness: 18, Length: 2800, Width: 2070, Price: 80},
	}
}

func TestNestShop(t *testing.T) {
	opt := sheet.Options{Gap: 8, Margin: 10, Seed: 1, Iterations: 20}
	parts, stock := shopParts(), shopStock()
	l, err := sheet.Nest(context.Background(), parts, stock, opt)
	require.NoError(t, err)
	require.NoError(t, sheet.Check(parts, stock, l, opt))
	assert.Equal(t, []sheet.Unplaced{{Part: 5, Reason: sheet.TooLarge}, {Part: 6, Reason: sheet.NoStock}}, l.Unplaced)
	assert.Positive(t, l.Use)
	again, err := sheet.Nest(context.Background(), parts, stock, opt)
	require.NoError(t, err)
	assert.Equal(t, l, again)
	opt.Workers = 2
	again, err = sheet.Nest(context.Background(), parts, stock, opt)
	require.NoError(t, err)
	assert.Equal(t, l, again, "two workers")
}

func TestCutList(t *testing.T) {
	parts := shopParts()
	l := sheet.Layout{Sheets: []sheet.Sheet{{Placements: []sheet.Placement{{Part: 0}, {Part: 0, Copy: 1}}}, {Placements: []sheet.Placement{{Part: 0, Copy: 2}}}}}
	var b bytes.Buffer
	require.NoError(t, sheet.WriteCutList(&b, parts, l))
	assert.Equal(t, len(parts)+1, strings.Count(b.String(), "\r\n"), "RFC 4180 ends every record with CRLF")
	rec, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, []string{"panel", "4", "3", "ply", "12", "700", "400", "280000", "along", "1 2"}, rec[1])
	assert.Equal(t, "'=beam", rec[6][0])
	assert.Len(t, sheet.Labels(parts, l), 3)
}
