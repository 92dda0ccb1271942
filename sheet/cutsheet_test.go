package sheet_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/sagitta/sheet"
)

// The printed sequence, read back, is that of the layout, and the drawing has a
// line for each cut where it runs.
func TestSequencePrintedAndDrawn(t *testing.T) {
	parts := []sheet.Part{panel("a", 600, 395, 18), panel("b", 400, 150, 7)}
	stock := []sheet.Stock{sheetOf(1830, 1220)}
	saw := sheet.Saw{Kerf: 3, Trim: 10, CutCost: 1, Stack: 2}
	l, err := sheet.NestStraight(context.Background(), parts, stock, saw, sheet.Options{Iterations: 5})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, sheet.WriteCuts(&b, l))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	rows = rows[1:]
	sheets := 0
	for _, st := range l.Stacks {
		for k, c := range l.Cuts[st[0]] {
			row := rows[0]
			rows = rows[1:]
			require.Equal(t, strconv.Itoa(k+1), row[1])
			require.Equal(t, strconv.Itoa(c.Stage), row[2])
			require.Equal(t, map[bool]string{true: "yes", false: "no"}[c.Turn], row[3])
			require.Equal(t, map[bool]string{true: "length", false: "width"}[c.AlongX], row[4])
			for i, want := range []float64{c.At, c.From, c.To, c.Width} {
				got, err := strconv.ParseFloat(row[5+i], 64)
				require.NoError(t, err)
				require.InDelta(t, want, got, 5e-4)
			}
		}
		sheets += len(st)
	}
	require.Empty(t, rows)
	require.Equal(t, len(l.Sheets), sheets)
	for i := range l.Sheets {
		layers, err := sheet.DrawCuts(parts, stock, l, i)
		require.NoError(t, err)
		n := 0
		for _, y := range layers[2:] {
			for _, p := range y.Paths {
				found := false
				for _, c := range l.Cuts[i] {
					a, z := p.V[0].P, p.V[1].P
					if c.AlongX {
						found = found || a.Y == c.At && z.Y == c.At && a.X == c.From && z.X == c.To
					} else {
						found = found || a.X == c.At && z.X == c.At && a.Y == c.From && z.Y == c.To
					}
				}
				require.True(t, found)
				n++
			}
		}
		require.Equal(t, len(l.Cuts[i]), n)
		require.Len(t, layers[1].Texts, len(l.Sheets[i].Placements))
	}
	_, err = sheet.DrawCuts(parts, stock, l, len(l.Sheets))
	require.Error(t, err)
	_, err = sheet.DrawCuts(nil, stock, l, 0)
	require.Error(t, err)
	l.Cuts[0][0].At = math.NaN()
	b.Reset()
	require.Error(t, sheet.WriteCuts(&b, l))
	require.Empty(t, b.Bytes())
}
