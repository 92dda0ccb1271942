package sheet_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// A legal layout that has no slack anywhere, so that each of its pieces hits
// something whichever way it is pushed.
type tight struct {
	name  string
	parts []sheet.Part
	stock sheet.Stock
	at    []r2.Vec
	fixed int // the first pieces that are not pushed
}

func square(side float64) arc.Region { return arc.Region{Outer: arc.Rect(0, 0, side, side)} }

func disc(r float64) arc.Region { return arc.Region{Outer: arc.Circle(r2.Vec{}, r)} }

func ply(name string, r arc.Region) sheet.Part {
	return sheet.Part{Name: name, Material: "ply", Thickness: 12, Outline: r, Turns: sheet.AnyAngle}
}

func sheetOf(l, w float64) sheet.Stock {
	return sheet.Stock{Material: "ply", Thickness: 12, Length: l, Width: w}
}

// discInRing is a disc in the hole of a ring of the same radius, the ring in a
// square sheet.
func discInRing() tight {
	ring := disc(30)
	ring.Holes = []arc.Path{arc.Circle(r2.Vec{}, 20).Reverse()}
	c := r2.Vec{X: 30, Y: 30}
	return tight{"disc in ring", []sheet.Part{ply("ring", ring), ply("disc", disc(20))}, sheetOf(60, 60), []r2.Vec{c, c}, 0}
}

// sevenDiscs is seven unit discs in a disc of radius 3.
func sevenDiscs() tight {
	t := tight{name: "seven discs", stock: sheet.Stock{Material: "ply", Thickness: 12, Outline: disc(3)}, at: []r2.Vec{{}}}
	for i := range 6 {
		s, c := math.Sincos(float64(i) * math.Pi / 3)
		t.at = append(t.at, r2.Vec{X: 2 * c, Y: 2 * s})
	}
	for range t.at {
		t.parts = append(t.parts, ply("disc", disc(1)))
	}
	return t
}

// fivePieces is a square cut into its inscribed disc and the four corners.
func fivePieces() tight {
	const r = 50
	t := tight{name: "five-piece square", stock: sheetOf(2*r, 2*r), parts: []sheet.Part{ply("disc", disc(r))}, at: []r2.Vec{{X: r, Y: r}}}
	corner := arc.Region{Outer: arc.Path{V: []arc.Vertex{arc.V(-r, -r, 0), arc.V(0, -r, -math.Tan(math.Pi/8)), arc.V(-r, 0, 0)}, Closed: true}}
	for i := range 4 {
		t.parts = append(t.parts, ply("corner", corner.Transform(arc.Rotate(arc.Angle(i)*90*arc.Degree))))
		t.at = append(t.at, r2.Vec{X: r, Y: r})
	}
	return t
}

// squaredSquare is the perfect squared square of order 21, side 112
// (Duijvestijn 1978; Bouwkamp code from OEIS A014530).
func squaredSquare() tight {
	code := [][]float64{{50, 35, 27}, {8, 19}, {15, 17, 11}, {6, 24}, {29, 25, 9, 2}, {7, 18}, {16}, {42}, {4, 37}, {33}}
	t := tight{name: "squared square", stock: sheetOf(112, 112)}
	top := make([]float64, 112) // how far down each column is filled
	for _, row := range code {
		x := 0
		for i := range top {
			if top[i] < top[x] {
				x = i
			}
		}
		for _, s := range row {
			t.parts = append(t.parts, ply("square", square(s)))
			t.at = append(t.at, r2.Vec{X: float64(x), Y: 112 - top[x] - s})
			for i := range int(s) {
				top[x+i] += s
			}
			x += int(s)
		}
	}
	return t
}

func (t tight) layout() sheet.Layout {
	var s sheet.Sheet
	for i, at := range t.at {
		s.Placements = append(s.Placements, sheet.Placement{Part: i, At: at})
	}
	return sheet.Layout{Sheets: []sheet.Sheet{s}}
}

// moved turns the whole case, sheet and all, about the origin and shifts it.
func (t tight) moved(m arc.Motion) tight {
	t.stock.Outline = t.stock.Shape().Transform(m)
	var at []r2.Vec
	turn := m.Then(arc.Shift(r2.Scale(-1, m.Apply(r2.Vec{}))))
	parts := append([]sheet.Part(nil), t.parts...)
	for i := range parts {
		parts[i].Outline = parts[i].Outline.Transform(turn)
		at = append(at, m.Apply(t.at[i]))
	}
	t.parts, t.at = parts, at
	return t
}

func TestCheckExactCases(t *testing.T) {
	for _, c := range []tight{discInRing(), sevenDiscs(), fivePieces(), squaredSquare()} {
		for _, m := range []arc.Motion{{}, arc.Shift(r2.Vec{X: 1234.5, Y: -777.25}), arc.Rotate(0.3), arc.Rotate(2).Then(arc.Shift(r2.Vec{X: 3000, Y: 100})), arc.MirrorX().Then(arc.Rotate(1)), arc.Scale(7.3)} {
			checkTight(t, c.moved(m))
		}
		checkTight(t, c)
	}
}

// checkTight accepts the layout and rejects it after a push of any piece by
// two eps in any of eight directions.
func checkTight(t *testing.T, c tight) {
	t.Helper()
	stock, l := []sheet.Stock{c.stock}, c.layout()
	require.NoError(t, sheet.Check(c.parts, stock, l, sheet.Options{}), c.name)
	for _, eps := range []float64{1e-6, 1e-3} {
		opt := sheet.Options{Eps: eps}
		require.NoError(t, sheet.Check(c.parts, stock, l, opt), c.name)
		for i := range c.at {
			for k := range 8 {
				s, cos := math.Sincos(float64(k)*math.Pi/4 + 0.1)
				p := &l.Sheets[0].Placements[i]
				p.At = r2.Add(c.at[i], r2.Vec{X: 2 * eps * cos, Y: 2 * eps * s})
				err := sheet.Check(c.parts, stock, l, opt)
				assert.ErrorIs(t, err, sheet.ErrIllegal, "%s piece %d direction %d eps %g", c.name, i, k, eps)
				p.At = c.at[i]
			}
		}
	}
}
