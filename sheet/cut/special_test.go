package cut_test

import (
	"context"
	"math"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

var specials = []float64{0, math.Copysign(0, -1), -1, 1e-300, 1e-9, 1e9, 1e300, math.NaN(), math.Inf(1), math.Inf(-1)}

// fields are all the numbers of a job and of the options.
var fields = map[string]func(*cut.Job, *cut.Options) *float64{
	"thickness":     func(j *cut.Job, _ *cut.Options) *float64 { return &j.Stock.Thickness },
	"part":          func(j *cut.Job, _ *cut.Options) *float64 { return &j.Parts[0].Thickness },
	"length":        func(j *cut.Job, _ *cut.Options) *float64 { return &j.Stock.Length },
	"width":         func(j *cut.Job, _ *cut.Options) *float64 { return &j.Stock.Width },
	"at x":          func(j *cut.Job, _ *cut.Options) *float64 { return &j.Placements[0].At.X },
	"rotate":        func(j *cut.Job, _ *cut.Options) *float64 { return (*float64)(&j.Placements[0].Rotate) },
	"outline x":     func(j *cut.Job, _ *cut.Options) *float64 { return &j.Parts[0].Outline.Outer.V[1].P.X },
	"outline turn":  func(j *cut.Job, _ *cut.Options) *float64 { return &j.Parts[0].Outline.Outer.V[1].K },
	"hole turn":     func(j *cut.Job, _ *cut.Options) *float64 { return &j.Parts[1].Outline.Holes[0].V[0].K },
	"slot from":     func(j *cut.Job, _ *cut.Options) *float64 { return &j.Works[0].Slots[0].From.X },
	"slot width":    func(j *cut.Job, _ *cut.Options) *float64 { return &j.Works[0].Slots[0].Width },
	"slot depth":    func(j *cut.Job, _ *cut.Options) *float64 { return &j.Works[0].Slots[0].Depth },
	"pocket depth":  func(j *cut.Job, _ *cut.Options) *float64 { return &j.Works[1].Pockets[0].Depth },
	"pocket x":      func(j *cut.Job, _ *cut.Options) *float64 { return &j.Works[1].Pockets[0].Area.Outer.V[1].P.X },
	"bevel angle":   func(j *cut.Job, _ *cut.Options) *float64 { return (*float64)(&j.Works[2].Bevels[0].Angle) },
	"bevel x":       func(j *cut.Job, _ *cut.Options) *float64 { return &j.Works[2].Bevels[0].Edge.V[1].P.X },
	"tool diameter": func(_ *cut.Job, o *cut.Options) *float64 { return &o.Tools[0].Diameter },
	"tool step":     func(_ *cut.Job, o *cut.Options) *float64 { return &o.Tools[1].Step },
	"tool depth":    func(_ *cut.Job, o *cut.Options) *float64 { return &o.Tools[1].MaxDepth },
	"tool angle":    func(_ *cut.Job, o *cut.Options) *float64 { return (*float64)(&o.Tools[2].Angle) },
	"tool speed":    func(_ *cut.Job, o *cut.Options) *float64 { return &o.Tools[0].Speed },
	"tool feed":     func(_ *cut.Job, o *cut.Options) *float64 { return &o.Tools[0].Feed },
	"tool plunge":   func(_ *cut.Job, o *cut.Options) *float64 { return &o.Tools[0].Plunge },
	"safe":          func(_ *cut.Job, o *cut.Options) *float64 { return &o.Safe },
	"approach":      func(_ *cut.Job, o *cut.Options) *float64 { return &o.Approach },
	"through":       func(_ *cut.Job, o *cut.Options) *float64 { return &o.Through },
	"tab width":     func(_ *cut.Job, o *cut.Options) *float64 { return &o.TabWidth },
	"tab height":    func(_ *cut.Job, o *cut.Options) *float64 { return &o.TabHeight },
	"tab spacing":   func(_ *cut.Job, o *cut.Options) *float64 { return &o.TabSpacing },
	"ramp":          func(_ *cut.Job, o *cut.Options) *float64 { return (*float64)(&o.Ramp) },
	"step":          func(_ *cut.Job, o *cut.Options) *float64 { return &o.Step },
	"bevel match":   func(_ *cut.Job, o *cut.Options) *float64 { return (*float64)(&o.BevelMatch) },
	"overrun":       func(_ *cut.Job, o *cut.Options) *float64 { return &o.Overrun },
	"travel":        func(_ *cut.Job, o *cut.Options) *float64 { return &o.Travel.Max.X },
	"rapid":         func(_ *cut.Job, o *cut.Options) *float64 { return &o.Rapid },
	"change":        func(_ *cut.Job, o *cut.Options) *float64 { return &o.Change },
	"tool ramp":     func(_ *cut.Job, o *cut.Options) *float64 { return (*float64)(&o.Tools[0].Ramp) },
	"tool edge":     func(_ *cut.Job, o *cut.Options) *float64 { return &o.Tools[1].Edge },
	"tool shank":    func(_ *cut.Job, o *cut.Options) *float64 { return &o.Tools[1].Shank },
	"tool slowest":  func(_ *cut.Job, o *cut.Options) *float64 { return &o.Tools[0].Slowest },
	"tool fastest":  func(_ *cut.Job, o *cut.Options) *float64 { return &o.Tools[0].Fastest },
	"spin up":       func(_ *cut.Job, o *cut.Options) *float64 { return &o.SpinUp },
	"tolerance":     func(_ *cut.Job, o *cut.Options) *float64 { return &o.Tolerance },
}

// Whatever number is put anywhere, Plan and Replay return, and what Plan
// returns is finite.
func TestSpecialValues(t *testing.T) {
	for name, field := range fields {
		for _, v := range specials {
			if testing.Short() && !(math.IsNaN(v) || v <= 0) {
				continue
			}
			job, opt := workshop()
			*field(&job, &opt) = v
			p, err := cut.Plan(context.Background(), job, opt)
			if math.IsNaN(v) || math.IsInf(v, 0) {
				var e *cut.ParamError
				require.ErrorAs(t, err, &e, "%s %v", name, v)
			}
			if err != nil {
				_, err := cut.Replay(context.Background(), job, nil, opt)
				require.Error(t, err)
				continue
			}
			for _, m := range p.Moves() {
				require.False(t, math.IsNaN(m.To.X+m.To.Y+m.To.Z+m.K+m.Feed), "%s %v", name, v)
			}
			if !full() && v != 1e-9 {
				continue
			}
			_, err = cut.Replay(context.Background(), job, p.Moves(), opt)
			if err != nil {
				require.ErrorIs(t, err, cut.ErrFaulty, "%s %v", name, v)
			}
		}
	}
}

func TestReplayTakesAnyMoves(t *testing.T) {
	job, opt := workshop()
	for _, v := range specials {
		moves := []cut.Move{
			{To: r3.Vec{X: v, Y: 1, Z: 1}, Tool: 1, Feed: 1, Speed: 1},
			{From: r3.Vec{X: 1, Y: 1, Z: v}, To: r3.Vec{X: 9, Y: 1, Z: 1}, Tool: 1, Feed: 1, Speed: 1},
			{From: r3.Vec{X: 1, Y: 1, Z: 1}, To: r3.Vec{X: 9, Y: 1, Z: 1}, K: v, Tool: 3, Feed: 1, Speed: 1},
		}
		_, err := cut.Replay(context.Background(), job, moves, opt)
		require.ErrorIs(t, err, cut.ErrFaulty)
	}
}

func TestErrorsNameTheFault(t *testing.T) {
	for name, c := range map[string]struct {
		do   func(*cut.Job, *cut.Options)
		want error
	}{
		"no tools":         {func(_ *cut.Job, o *cut.Options) { o.Tools = nil }, cut.ErrNoTool},
		"only a V cutter":  {func(_ *cut.Job, o *cut.Options) { o.Tools = o.Tools[2:] }, cut.ErrNoTool},
		"slot too narrow":  {func(j *cut.Job, _ *cut.Options) { j.Works[0].Slots[0].Width = 3 }, cut.ErrNoTool},
		"slot too deep":    {func(_ *cut.Job, o *cut.Options) { o.Tools[1].MaxDepth = 12 }, cut.ErrNoTool},
		"outline too deep": {func(_ *cut.Job, o *cut.Options) { o.Tools[0].MaxDepth = 12 }, cut.ErrNoTool},
		"opening too narrow": {func(j *cut.Job, _ *cut.Options) {
			j.Parts[1].Outline.Holes[0] = arc.Circle(r2.Vec{X: 90, Y: 90}, 4).Reverse()
		}, cut.ErrNoWay},
		"pocket too narrow":    {func(j *cut.Job, _ *cut.Options) { j.Works[1].Pockets[0].Area.Outer = arc.Rect(0, 0, 9, 90) }, cut.ErrNoWay},
		"part out of range":    {func(j *cut.Job, _ *cut.Options) { j.Placements[0].Part = 7 }, arc.ErrRange},
		"another thickness":    {func(j *cut.Job, _ *cut.Options) { j.Parts[0].Thickness = 18 }, arc.ErrRange},
		"clockwise outline":    {func(j *cut.Job, _ *cut.Options) { j.Parts[0].Outline.Outer = j.Parts[0].Outline.Outer.Reverse() }, arc.ErrOrientation},
		"a number given twice": {func(_ *cut.Job, o *cut.Options) { o.Tools[1].Number = 1 }, arc.ErrRange},
		"empty sheet":          {func(j *cut.Job, _ *cut.Options) { j.Stock = sheet.Stock{Thickness: 19} }, arc.ErrZeroArea},
	} {
		job, opt := workshop()
		c.do(&job, &opt)
		_, err := cut.Plan(context.Background(), job, opt)
		require.ErrorIs(t, err, c.want, name)
		var e *cut.ParamError
		require.ErrorAs(t, err, &e, name)
	}
}

func TestPlanAndReplayStop(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	job, opt := workshop()
	_, err := cut.Plan(ctx, job, opt)
	require.ErrorIs(t, err, context.Canceled)
	_, err = cut.Replay(ctx, job, nil, opt)
	require.ErrorIs(t, err, context.Canceled)
}
