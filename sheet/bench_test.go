package sheet_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/metrics"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// curvedCase is the parts of an invented case with a swept front: cheeks, a
// skirt, rails, ribs, a back with an opening, cleats.
func curvedCase(copies int) []sheet.Part {
	cheek := arc.Region{Outer: arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(510, 0, 0), arc.V(510, 130, 0), arc.V(510, 131, -0.16), arc.V(290, 820, 0), arc.V(0, 820, 0)}, Closed: true}}
	rib := arc.Region{Outer: arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(90, 0, 0), arc.V(90, 1, -0.16), arc.V(-130, 690, 0), arc.V(-220, 690, 0.16)}, Closed: true}}
	back := arc.Region{Outer: arc.Rect(0, 0, 960, 800), Holes: []arc.Path{arc.Circle(r2.Vec{X: 480, Y: 620}, 85).Reverse()}}
	part := func(name string, qty int, r arc.Region, t sheet.Turns) sheet.Part {
		return sheet.Part{Name: name, Qty: qty * copies, Material: "mdf", Thickness: 19, Outline: r, Turns: t}
	}
	rect := func(l, w float64) arc.Region { return arc.Region{Outer: arc.Rect(0, 0, l, w)} }
	return []sheet.Part{
		part("cheek", 2, cheek, sheet.RightAngles), part("rib", 8, rib, sheet.AnyAngle), part("back", 1, back, sheet.RightAngles),
		part("skirt", 1, rect(1000, 140), sheet.RightAngles), part("deck", 1, rect(960, 300), sheet.RightAngles),
		part("sweep", 1, rect(1000, 735), sheet.RightAngles), part("cleat", 8, rect(300, 60), sheet.RightAngles),
		part("rail", 6, rect(480, 80), sheet.RightAngles), part("collar", 2, disc(110), sheet.NoTurn),
		part("brace", 10, bracket(160, 160, 45), sheet.RightAngles),
	}
}

func boards() []sheet.Stock {
	return []sheet.Stock{{Material: "mdf", Thickness: 19, Length: 2465, Width: 1245, Price: 58}}
}

// used is the sheets a layout takes, the last one only so far as its offcuts
// leave it.
func used(l sheet.Layout) float64 {
	n := float64(len(l.Sheets))
	if n > 0 {
		for _, o := range l.Sheets[len(l.Sheets)-1].Offcuts {
			n -= o.Stock.Area() / (2465 * 1245)
		}
	}
	return n
}

// reportLayout reports how good a layout is: sheets, the last by its used
// share; cost; used length of the last sheet; area of all offcuts.
func reportLayout(b *testing.B, parts []sheet.Part, l sheet.Layout) {
	b.Helper()
	last, off := 0.0, 0.0
	for _, p := range l.Sheets[len(l.Sheets)-1].Placements {
		last = max(last, parts[p.Part].Outline.Transform(p.Motion()).Bounds().Max.X)
	}
	for _, s := range l.Sheets {
		for _, o := range s.Offcuts {
			off += o.Stock.Area() / 1e6
		}
	}
	b.ReportMetric(used(l), "sheets")
	b.ReportMetric(l.Cost, "cost")
	b.ReportMetric(last, "last-mm")
	b.ReportMetric(off, "offcuts-m2")
	b.ReportMetric(100*l.Use, "use%")
}

// BenchmarkNestCase lays out 40 parts of a curved case within budgets of time.
func BenchmarkNestCase(b *testing.B) {
	for _, d := range []time.Duration{time.Second, 10 * time.Second} {
		b.Run(d.String(), func(b *testing.B) {
			parts := curvedCase(1)
			for b.Loop() {
				l, err := sheet.Nest(context.Background(), parts, boards(), sheet.Options{Gap: 10, Margin: 10, Time: d, Workers: 2, Clock: processor(2)})
				require.NoError(b, err)
				require.Empty(b, l.Unplaced)
				reportLayout(b, parts, l)
			}
		})
	}
}

// BenchmarkNestSettles compares layouts after a second with those after a
// minute: by how much of a sheet, and in percent, the first take more. It takes
// means over seeds, as one seed can be lucky, and reports the worst second too.
func BenchmarkNestSettles(b *testing.B) {
	parts := curvedCase(1)
	after := func(d time.Duration, seeds int) (mean, most float64) {
		for s := range seeds {
			l, err := sheet.Nest(context.Background(), parts, boards(), sheet.Options{Gap: 10, Margin: 10, Time: d, Workers: 2, Clock: processor(2), Seed: uint64(s)})
			require.NoError(b, err)
			require.Empty(b, l.Unplaced)
			mean += used(l) / float64(seeds)
			most = max(most, used(l))
		}
		return mean, most
	}
	for b.Loop() {
		soon, worst := after(time.Second, 8)
		late, _ := after(time.Minute, 2)
		b.ReportMetric(soon, "second-sheets")
		b.ReportMetric(late, "minute-sheets")
		b.ReportMetric(100*(soon/late-1), "over%")
		b.ReportMetric(100*(worst/late-1), "worst-over%")
	}
}

// BenchmarkNestMany lays out 480 parts in half a minute, and reports the
// largest heap met on the way.
func BenchmarkNestMany(b *testing.B) {
	parts := curvedCase(12)
	for b.Loop() {
		runtime.GC()
		heap := watchHeap()
		l, err := sheet.Nest(context.Background(), parts, boards(), sheet.Options{Gap: 10, Margin: 10, Time: 30 * time.Second, Workers: 2, Clock: processor(2)})
		b.ReportMetric(heap(), "heap-MB")
		require.NoError(b, err)
		require.Empty(b, l.Unplaced)
		reportLayout(b, parts, l)
	}
}

// BenchmarkNestDistinct lays out 500 parts of which no two are alike, which
// takes the most memory, in ten seconds.
func BenchmarkNestDistinct(b *testing.B) {
	var parts []sheet.Part
	for i := range 500 {
		t := float64(i)
		r := bracket(150+0.37*t, 120+0.21*t, 40+0.05*t)
		parts = append(parts, sheet.Part{Name: fmt.Sprint(i), Material: "mdf", Thickness: 19, Outline: r, MirrorOK: true})
	}
	for b.Loop() {
		runtime.GC()
		heap := watchHeap()
		l, err := sheet.Nest(context.Background(), parts, boards(), sheet.Options{Gap: 10, Margin: 10, Time: 10 * time.Second, Workers: 2, Clock: processor(2)})
		b.ReportMetric(heap(), "heap-MB")
		require.NoError(b, err)
		require.Empty(b, l.Unplaced)
		reportLayout(b, parts, l)
	}
}

// watchHeap looks at the heap every few milliseconds until the function that
// it returns is called, which returns the largest size met, garbage included,
// in MB.
func watchHeap() (stop func() float64) {
	quit, most := make(chan struct{}), make(chan float64)
	go func() {
		s := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
		tick := time.NewTicker(5 * time.Millisecond)
		defer tick.Stop()
		peak := uint64(0)
		for {
			metrics.Read(s)
			peak = max(peak, s[0].Value.Uint64())
			select {
			case <-quit:
				most <- float64(peak) / 1e6
				return
			case <-tick.C:
			}
		}
	}()
	return func() float64 {
		close(quit)
		return <-most
	}
}

// BenchmarkCancel reports how long Nest takes to return after a cancel.
func BenchmarkCancel(b *testing.B) {
	worst := time.Duration(0)
	for b.Loop() {
		for _, after := range []time.Duration{0, 5, 50, 300, 1500} {
			ctx, cancel := context.WithCancel(context.Background())
			var at time.Time
			time.AfterFunc(after*time.Millisecond, func() { at = time.Now(); cancel() })
			_, err := sheet.Nest(ctx, curvedCase(3), boards(), sheet.Options{Gap: 10, Margin: 10, Time: time.Minute, Workers: 2})
			require.NoError(b, err)
			worst = max(worst, time.Since(at))
		}
	}
	b.ReportMetric(float64(worst.Microseconds())/1000, "worst-ms")
}

// BenchmarkCheck checks a sheet of many discs and brackets.
func BenchmarkCheck(b *testing.B) {
	for _, n := range []int{1, 12} {
		parts, stock, opt := curvedCase(n), boards(), sheet.Options{Gap: 10, Margin: 10, Iterations: 1}
		l, err := sheet.Nest(context.Background(), parts, stock, opt)
		require.NoError(b, err)
		b.Run(fmt.Sprintf("parts=%d", 40*n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				require.NoError(b, sheet.Check(parts, stock, l, opt))
			}
		})
	}
}

// BenchmarkNestExact gives the search the exact cases, one sheet each, and
// reports how many of the pieces it gets in.
func BenchmarkNestExact(b *testing.B) {
	for _, c := range []tight{discInRing(), sevenDiscs(), fivePieces(), squaredSquare()} {
		b.Run(c.name, func(b *testing.B) {
			c.stock.Count = 1
			for i := range c.parts {
				c.parts[i].Turns = sheet.RightAngles
			}
			for b.Loop() {
				l, err := sheet.Nest(context.Background(), c.parts, []sheet.Stock{c.stock}, sheet.Options{Time: 5 * time.Second, Workers: 2, Tolerance: 1e-3})
				require.NoError(b, err)
				b.ReportMetric(float64(len(c.parts)-len(l.Unplaced)), "placed")
				b.ReportMetric(float64(len(c.parts)), "pieces")
			}
		})
	}
}

// BenchmarkNestStrip packs published irregular sets for ten seconds each and
// reports the density reached; the best known ones, from arXiv 2509.13329, are
// albano 89.82, fu 92.41, jakobs1 89.26, swim 79.83.
func BenchmarkNestStrip(b *testing.B) {
	for _, name := range []string{"albano", "fu", "jakobs1", "swim"} {
		b.Run(name, func(b *testing.B) {
			parts, height := irregularSet(b, name)
			for b.Loop() {
				s, err := sheet.NestStrip(context.Background(), parts, height, sheet.Options{Time: 10 * time.Second, Workers: 2, Clock: processor(2)})
				require.NoError(b, err)
				b.ReportMetric(100*s.Use, "density%")
			}
		})
	}
}

// irregularSet reads an open set from shared/datasets above the package, and
// skips where it is absent.
func irregularSet(b testing.TB, name string) ([]sheet.Part, float64) {
	var set struct {
		Height float64 `json:"strip_height"`
		Items  []struct {
			Demand  int          `json:"demand"`
			Turns   []float64    `json:"allowed_rotations_deg"`
			Polygon [][2]float64 `json:"polygon"`
		} `json:"items"`
	}
	dir, err := os.Getwd()
	require.NoError(b, err)
	for ; dir != filepath.Dir(dir); dir = filepath.Dir(dir) {
		if data, err := os.ReadFile(filepath.Join(dir, "shared", "datasets", "irregular", name+".json")); err == nil {
			require.NoError(b, json.Unmarshal(data, &set))
			break
		}
	}
	if set.Height == 0 {
		b.Skip("no shared/datasets above this folder: open benchmark data absent")
	}
	turns := map[int]sheet.Turns{0: sheet.AnyAngle, 1: sheet.NoTurn, 2: sheet.HalfTurns, 4: sheet.RightAngles}
	var parts []sheet.Part
	for _, it := range set.Items {
		var v []r2.Vec
		for _, q := range it.Polygon {
			v = append(v, r2.Vec{X: q[0], Y: q[1]})
		}
		parts = append(parts, sheet.Part{Name: name, Qty: it.Demand, Thickness: 1, Turns: turns[len(it.Turns)], Outline: arc.Region{Outer: arc.Polygon(v...)}})
	}
	return parts, set.Height
}
