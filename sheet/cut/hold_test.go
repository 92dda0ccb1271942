package cut_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/hangs"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// newRaster cuts the sheet of a job by stamps: it shares nothing with Plan or
// Replay.
func newRaster(t *testing.T, job cut.Job, m []cut.Move, tools []cut.Tool) *hangs.Sheet {
	t.Helper()
	var parts []arc.Region
	for _, p := range job.Placements {
		parts = append(parts, job.Parts[p.Part].Outline.Transform(p.Motion()))
	}
	g, err := hangs.New(job.Stock.Length, job.Stock.Width, job.Stock.Thickness, 0.5, parts)
	require.NoError(t, err)
	for _, v := range m {
		for _, x := range tools {
			if x.Number == v.Tool && !v.Rapid {
				c := hangs.Move{Way: arc.Segment{A: r2.Vec{X: v.From.X, Y: v.From.Y}, B: r2.Vec{X: v.To.X, Y: v.To.Y}, K: v.K}, From: v.From.Z, To: v.To.Z, Radius: x.Diameter / 2}
				if x.Angle > 0 {
					c.Half = math.Tan(float64(x.Angle) / 2)
				}
				g.Cut(c)
			}
		}
	}
	return g
}

// laid returns the job of the first sheet of a nest.
func laid(t *testing.T, job cut.Job, length, width, gap, margin float64) (cut.Job, bool) {
	t.Helper()
	p := job.Parts[0]
	stock := []sheet.Stock{{Material: p.Material, Thickness: p.Thickness, Length: length, Width: width}}
	l, err := sheet.Nest(context.Background(), job.Parts, stock, sheet.Options{Gap: gap, Margin: margin, Iterations: 4})
	if err != nil || len(l.Sheets) == 0 {
		return job, false
	}
	job.Stock, job.Placements = stock[0], l.Sheets[0].Placements
	return job, true
}

// requireHeld plans a job, has Replay find no fault, and holds its word to a
// raster.
func requireHeld(t *testing.T, job cut.Job, opt cut.Options) {
	t.Helper()
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	_, err = cut.Replay(context.Background(), job, p.Moves(), opt)
	require.NoError(t, err)
	g := newRaster(t, job, p.Moves(), opt.Tools)
	require.Empty(t, append(g.Loose(2.9, 0, 500), g.Loose(2.9, 2, math.Inf(1))...), "hangs on nothing, and Replay did not say so")
}

// Nine tiles at and over the gap that Clearance asks for.
func TestNineTilesHold(t *testing.T) {
	parts := []sheet.Part{{Name: "tile", Qty: 9, Material: "birch", Thickness: 12, Outline: arc.Region{Outer: arc.Rect(0, 0, 280, 180)}}}
	opt := cut.Options{Tools: []cut.Tool{{Number: 1, Diameter: 6}}}
	for _, extra := range []float64{0.1, 3, 6, 12.1} {
		job, ok := laid(t, cut.Job{Parts: parts}, 920+3*extra, 620+3*extra, cut.Clearance(cut.Job{Parts: parts}, opt)+extra, cut.Overhang(cut.Job{Parts: parts}, opt)+0.1)
		require.True(t, ok)
		requireHeld(t, job, opt)
	}
}

func randomNest(r *rand.Rand) (cut.Job, cut.Options) {
	const thickness = 18
	var job cut.Job
	opt := cut.Options{Tools: cut.Tools([]float64{6, 9.525}[r.IntN(2)], 3.2, thickness)}
	for i := range 3 + r.IntN(4) {
		w, h := 90+r.Float64()*160, 90+r.Float64()*120
		o := arc.Region{Outer: arc.Rect(0, 0, w, h)}
		if r.IntN(2) == 0 {
			o.Outer.V[2].K = 0.1 + 0.2*r.Float64()
		}
		if r.IntN(3) == 0 {
			o.Holes = []arc.Path{arc.Circle(r2.Vec{X: w / 2, Y: h / 2}, 12+r.Float64()*20).Reverse()}
		}
		var k cut.Work
		if r.IntN(3) == 0 {
			k.Slots = append(k.Slots, cut.Slot{From: r2.Vec{X: -1.6, Y: 15}, To: r2.Vec{X: w + 1.6, Y: 15}, Width: 3.2, Depth: 16.4})
		}
		job.Parts = append(job.Parts, sheet.Part{Name: fmt.Sprint("p", i), Qty: 1, Material: "mdf", Thickness: thickness, Outline: o})
		job.Works = append(job.Works, k)
	}
	return job, opt
}

// Random parts with arcs, openings and kerfs, gaps from Clearance up: every nest
// is planned, and nothing hangs on nothing, by a raster that shares nothing with
// Plan or Replay. All 1,000 with SAGITTA_FULL=1.
func TestRandomNestsHold(t *testing.T) {
	n := 8
	switch {
	case os.Getenv("SAGITTA_FULL") != "":
		n = 1000
	case testing.Short():
		n = 2
	}
	for seed := range n {
		if job, opt, ok := nestOf(t, uint64(seed)); ok {
			requireHeld(t, job, opt)
		}
	}
}

// nestOf lays the random nest of a seed as TestRandomNestsHold does.
func nestOf(t *testing.T, seed uint64) (cut.Job, cut.Options, bool) {
	r := rand.New(rand.NewPCG(seed, 1))
	job, opt := randomNest(r)
	gap := cut.Clearance(job, opt) + 0.01 + []float64{0, 2, 6, 16}[r.IntN(4)]
	job, ok := laid(t, job, 800, 560, gap, cut.Overhang(job, opt)+0.01+[]float64{0, 8, 20}[r.IntN(3)])
	return job, opt, ok
}

// Waste too slim for a tab is held by a part beside it, or cut to chips before
// anything is cut free; without these cuts Replay finds it loose.
func TestIslandsAreHeldOrCleared(t *testing.T) {
	cleared := 0
	for _, seed := range []uint64{33, 38} {
		job, opt, ok := nestOf(t, seed)
		require.True(t, ok)
		requireHeld(t, job, opt)
		p, err := cut.Plan(context.Background(), job, opt)
		require.NoError(t, err)
		free := false
		q := p
		q.Operations = nil
		for _, o := range p.Operations {
			free = free || o.Kind == cut.OutlineCut
			if o.Kind == cut.WasteCut {
				require.False(t, free, "cut to chips before it is cut free")
				cleared++
				continue
			}
			q.Operations = append(q.Operations, o)
		}
		if len(q.Operations) == len(p.Operations) {
			continue
		}
		rep, err := cut.Replay(context.Background(), job, q.Moves(), opt)
		require.Error(t, err)
		for _, f := range rep.Faults {
			assert.Equal(t, cut.Loose, f.Kind)
			assert.Equal(t, "waste", f.Name)
		}
	}
	assert.Positive(t, cleared)
}

// Tabs that are missing, too low or too slim are seen in the sheet that is
// left.
func TestReplaySeesWhatHolds(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(*cut.Options)
		want cut.FaultKind
	}{
		{"no tabs", func(o *cut.Options) { o.Hold = cut.ByVacuum }, cut.Loose},
		{"tabs of 2 by 1 mm", func(o *cut.Options) { o.TabWidth, o.TabHeight = 2, 1 }, cut.Loose},
		{"tabs 2 mm high of 3", func(o *cut.Options) { o.TabHeight = 2 }, cut.Loose},
		{"tabs 3 mm wide of 6", func(o *cut.Options) { o.TabWidth = 3 }, cut.Weak},
	} {
		job, opt := workshop()
		o := opt
		c.do(&o)
		p, err := cut.Plan(context.Background(), job, o)
		require.NoError(t, err)
		rep, _ := cut.Replay(context.Background(), job, p.Moves(), opt)
		assert.True(t, rep.Faults.Has(c.want), c.name)
	}
}

func fullSheet() (cut.Job, cut.Options) {
	job := cut.Job{
		Stock: sheet.Stock{Material: "mdf", Thickness: 19, Length: 2440, Width: 1220},
		Parts: []sheet.Part{{Name: "a", Material: "mdf", Thickness: 19, Outline: arc.Region{Outer: arc.Rect(0, 0, 270, 205)}}},
	}
	for i := range 40 {
		job.Placements = append(job.Placements, sheet.Placement{Copy: i, At: r2.Vec{X: 20 + 302*float64(i%8), Y: 20 + 238*float64(i/8)}})
	}
	return job, cut.Options{Tools: cut.Tools(9.525, 3.2, 19)}
}

func BenchmarkPlanFullSheet(b *testing.B) {
	job, opt := fullSheet()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := cut.Plan(context.Background(), job, opt); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReplayFullSheet(b *testing.B) {
	job, opt := fullSheet()
	p, err := cut.Plan(context.Background(), job, opt)
	if err != nil {
		b.Fatal(err)
	}
	m := p.Moves()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := cut.Replay(context.Background(), job, m, opt); err != nil {
			b.Fatal(err)
		}
	}
}
