package sheet_test

import (
	"context"
	"flag"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// cases returns how many random cases to run.
func cases(short, normal, full int) int {
	switch {
	case os.Getenv("SAGITTA_FULL") != "":
		return full
	case testing.Short():
		return short
	}
	return normal
}

// rapidN runs a property n times.
func rapidN(t *testing.T, n int, prop func(*rapid.T)) {
	t.Helper()
	old := flag.Lookup("rapid.checks").Value.String()
	require.NoError(t, flag.Set("rapid.checks", strconv.Itoa(n)))
	defer func() { require.NoError(t, flag.Set("rapid.checks", old)) }()
	rapid.Check(t, prop)
}

func drawOutline(t *rapid.T) arc.Region {
	l := float64(rapid.IntRange(60, 700).Draw(t, "l"))
	w := float64(rapid.IntRange(60, 400).Draw(t, "w"))
	var r arc.Region
	switch rapid.IntRange(0, 4).Draw(t, "shape") {
	case 0:
		r.Outer = arc.Rect(0, 0, l, w)
	case 1:
		r = bracket(l, w, min(l, w)/rapid.Float64Range(1.5, 5).Draw(t, "leg"))
	case 2:
		r = disc(w / 2)
		r.Holes = []arc.Path{arc.Circle(r2.Vec{}, w/3).Reverse()}
	case 3: // a cheek: two square edges and a sweep, cove or bow
		k := rapid.Float64Range(-0.3, 0.3).Draw(t, "sweep") * min(1, w/l) // so that it stays clear of the edges
		r.Outer = arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(l, 0, 0), arc.V(l, w/3, k), arc.V(l/2, w, 0), arc.V(0, w, 0)}, Closed: true}
	default: // a frame
		r.Outer = arc.Rect(0, 0, l, w)
		r.Holes = []arc.Path{arc.Rect(20, 20, l-20, w-20).Reverse()}
	}
	return r.Transform(arc.Shift(r2.Vec{X: rapid.Float64Range(-500, 500).Draw(t, "x"), Y: 17.3}))
}

func drawJob(t *rapid.T) ([]sheet.Part, []sheet.Stock, sheet.Options) {
	var parts []sheet.Part
	for range rapid.IntRange(1, 7).Draw(t, "parts") {
		parts = append(parts, sheet.Part{
			Name: "p", Qty: rapid.IntRange(0, 4).Draw(t, "qty"), Material: rapid.SampledFrom([]string{"ply", "ply", "ply", "mdf"}).Draw(t, "material"),
			Thickness: 12, Outline: drawOutline(t),
			Grain: sheet.Grain(rapid.IntRange(0, 2).Draw(t, "grain")), Turns: sheet.Turns(rapid.IntRange(0, 3).Draw(t, "turns")),
			MirrorOK: rapid.Bool().Draw(t, "mirror"), Priority: rapid.IntRange(-1, 1).Draw(t, "priority"),
			Set: rapid.SampledFrom([]string{"", "", "", "a", "b"}).Draw(t, "set"),
		})
		if rapid.IntRange(0, 3).Draw(t, "twin") == 0 {
			twin := parts[len(parts)-1]
			twin.MirrorOK = !twin.MirrorOK
			parts = append(parts, twin)
		}
	}
	irregular := sheetOf(0, 0)
	irregular.Outline = arc.Region{Outer: arc.Path{V: []arc.Vertex{arc.V(50, 50, 0), arc.V(900, 0, 0.1), arc.V(1000, 500, 0), arc.V(500, 520, -0.2), arc.V(40, 800, 0)}, Closed: true}}
	irregular.Count = 1
	holed := sheetOf(1500, 900)
	holed.Price, holed.Count = 20, 2
	holed.Forbidden = []arc.Region{disc(70).Transform(arc.Shift(r2.Vec{X: 500, Y: 400})), {Outer: arc.Rect(1300, 800, 1600, 1000)}}
	whole := sheetOf(2440, 1220)
	whole.Price, whole.GrainAcross = 50, rapid.Bool().Draw(t, "across")
	mdf := sheetOf(1220, 2440)
	mdf.Material, mdf.Count = "mdf", 1
	stock := []sheet.Stock{whole, irregular, holed, mdf}[:rapid.IntRange(1, 4).Draw(t, "stock")]
	return parts, stock, sheet.Options{
		Gap: rapid.SampledFrom([]float64{0, 3.175, 8}).Draw(t, "gap"), Margin: rapid.SampledFrom([]float64{0, 2, 12.7}).Draw(t, "margin"),
		Seed: uint64(rapid.IntRange(0, 99).Draw(t, "seed")), Iterations: 2, Workers: rapid.IntRange(0, 2).Draw(t, "workers"),
	}
}

// Many copies, which are joined before they are packed: legal in every turn and
// grain.
func TestNestRandomManyCopies(t *testing.T) {
	rapidN(t, cases(2, 4, 100), func(t *rapid.T) {
		parts, stock, opt := drawJob(t)
		for i := range parts {
			parts[i].Qty = 20 + 7*i
			parts[i].Set = ""
		}
		opt.Iterations = 1
		l, err := sheet.Nest(context.Background(), parts, stock, opt)
		require.NoError(t, err)
		placed := len(l.Unplaced)
		for _, s := range l.Sheets {
			placed += len(s.Placements)
			requireApart(t, parts, stock, s, opt)
		}
		require.Equal(t, total(parts), placed)
	})
}

func total(parts []sheet.Part) int {
	n := 0
	for _, p := range parts {
		n += p.Copies()
	}
	return n
}
