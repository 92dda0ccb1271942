package cut_test

import (
	"bytes"
	"context"
	"math"
	"slices"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A bench is a good program as read back from its text, to be spoiled.
type bench struct {
	job   cut.Job
	opt   cut.Options
	moves []cut.Move
}

func newBench(t testing.TB, spoil func(*cut.Program)) *bench {
	t.Helper()
	job, opt := workshop()
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	if spoil != nil {
		spoil(&p)
	}
	return &bench{job, opt, readBack(t, p)}
}

func readBack(t testing.TB, p cut.Program) []cut.Move {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, rs274.Encode(&b, p, rs274.Options{}))
	moves, _, err := rs274.Read(&b, rs274.Options{})
	require.NoError(t, err)
	return moves
}

// first returns the first move of a cutter that does what is asked.
func (b *bench) first(tool int, ok func(m cut.Move) bool) *cut.Move {
	for i := range b.moves {
		if m := &b.moves[i]; m.Tool == tool && ok(*m) {
			return m
		}
	}
	panic("no such move")
}

func feeding(m cut.Move) bool { return !m.Rapid && m.From.Z < 19 && m.To.Z == m.From.Z }

func sinking(m cut.Move) bool { return !m.Rapid && m.From.Z <= 19 && m.To.Z < m.From.Z }

func (b *bench) each(tool int, do func(m *cut.Move)) int {
	for i := range b.moves {
		if m := &b.moves[i]; m.Tool == tool && !m.Rapid {
			do(m)
		}
	}
	return b.first(tool, feeding).Line
}

// insert puts moves before the first that does what is asked.
func (b *bench) insert(tool int, ok func(m cut.Move) bool, what func(m cut.Move) []cut.Move) int {
	for i, m := range b.moves {
		if m.Tool == tool && ok(m) {
			b.moves = slices.Insert(b.moves, i, what(m)...)
			return m.Line
		}
	}
	panic("no such move")
}

// aside goes by rapid at a height to the place of a move, and back up.
func aside(z float64) func(m cut.Move) []cut.Move {
	return func(m cut.Move) []cut.Move {
		a, b, c := m, m, m
		a.To = r3.Vec{X: m.From.X, Y: m.From.Y, Z: z}
		b.From, b.To = a.To, r3.Vec{X: m.From.X + 30, Y: m.From.Y, Z: z}
		c.From, c.To = b.To, m.From
		a.Rapid, b.Rapid, c.Rapid = true, true, true
		return []cut.Move{a, b, c}
	}
}

// Each spoils a program, or holds it to another shop's limits, and returns the
// line that is at fault; 0 is any.
var offLimits = []struct {
	name string
	do   func(b *bench) int
	want cut.FaultKind
	at   string
}{
	{"straight plunge", func(b *bench) int {
		return b.insert(1, sinking, func(m cut.Move) []cut.Move {
			down, up := m, m
			down.To = r3.Vec{X: m.From.X, Y: m.From.Y, Z: m.To.Z}
			down.K, down.Feed = 0, b.opt.Tools[0].Plunge
			if down.Feed == 0 {
				down.Feed = 2000
			}
			up.From, up.To, up.K = down.To, m.From, 0
			return []cut.Move{down, up}
		})
	}, cut.Plunged, ""},
	{"ramps too steep for a cutter", func(b *bench) int {
		b.opt.Tools[1].Ramp = 3 * arc.Degree
		return 0
	}, cut.SteepEntry, ""},
	{"ramps too steep for the shop", func(b *bench) int { b.opt.Ramp = 4 * arc.Degree; return 0 }, cut.SteepEntry, ""},
	{"tab sides at full feed", func(b *bench) int {
		m := b.first(1, func(m cut.Move) bool { return sinking(m) && m.From.Z <= 3 && m.From.Z-m.To.Z > 0.3*m.Length() })
		m.Feed = 12000
		return m.Line
	}, cut.FastPlunge, ""},
	{"plunge slower in the list", func(b *bench) int { b.opt.Tools[0].Plunge = 300; return 0 }, cut.FastPlunge, ""},
	{"feed ten times too high", func(b *bench) int { m := b.first(1, feeding); m.Feed *= 10; return m.Line }, cut.WrongFeed, ""},
	{"feed ten times too low", func(b *bench) int { m := b.first(1, feeding); m.Feed /= 10; return m.Line }, cut.WrongFeed, ""},
	{"kerf feed ten times too high", func(b *bench) int { m := b.first(2, feeding); m.Feed *= 10; return m.Line }, cut.WrongFeed, ""},
	{"kerf feed ten times too low", func(b *bench) int { m := b.first(2, feeding); m.Feed /= 10; return m.Line }, cut.WrongFeed, ""},
	{"bevel feed ten times too high", func(b *bench) int { m := b.first(3, feeding); m.Feed *= 10; return m.Line }, cut.WrongFeed, ""},
	{"bevel feed ten times too low", func(b *bench) int { m := b.first(3, feeding); m.Feed /= 10; return m.Line }, cut.WrongFeed, ""},
	{"feed half as high again", func(b *bench) int { m := b.first(1, feeding); m.Feed *= 1.5; return m.Line }, cut.WrongFeed, ""},
	{"feed left over from the outline cutter", func(b *bench) int {
		return b.each(2, func(m *cut.Move) { m.Feed = 12000 })
	}, cut.WrongFeed, ""},
	{"feed left over from the kerf cutter", func(b *bench) int {
		f := b.first(2, feeding).Feed
		return b.each(1, func(m *cut.Move) { m.Feed = math.Min(f, m.Feed) })
	}, cut.WrongFeed, ""},
	{"list feeds ten times too fast", func(b *bench) int {
		b.opt.Tools[0].Feed = 120000
		b.each(1, func(m *cut.Move) { m.Feed *= 10 })
		return 0
	}, cut.WrongFeed, ""},
	{"list feeds ten times too slow", func(b *bench) int {
		b.opt.Tools[1].Feed = 548
		b.each(2, func(m *cut.Move) { m.Feed /= 10 })
		return 0
	}, cut.WrongFeed, ""},
	{"spindle at 180", func(b *bench) int { m := b.first(1, feeding); m.Speed = 180; return m.Line }, cut.WrongSpeed, ""},
	{"spindle at 180,000", func(b *bench) int { m := b.first(1, feeding); m.Speed = 180000; return m.Line }, cut.WrongSpeed, ""},
	{"spindle faster than the cutter may", func(b *bench) int {
		b.opt.Tools[2].Speed, b.opt.Tools[2].Fastest = 12000, 16000
		return 0
	}, cut.WrongSpeed, ""},
	{"spindle slower than the cutter may", func(b *bench) int { b.opt.Tools[1].Speed = 25000; return 0 }, cut.WrongSpeed, ""},
	{"spindle stopped in a cut", func(b *bench) int { m := b.first(2, feeding); m.Speed = 0; return m.Line }, cut.SpindleOff, ""},
	{"rapid 0.01 mm over the sheet", func(b *bench) int { return b.insert(2, sinking, aside(19.01)) }, cut.NearTravel, ""},
	{"rapid 1 mm over the sheet", func(b *bench) int { return b.insert(1, sinking, aside(20)) }, cut.NearTravel, ""},
	{"rapid at the sheet", func(b *bench) int { return b.insert(1, sinking, aside(19)) }, cut.NearTravel, ""},
	{"rapid down to 0.5 mm over the sheet", func(b *bench) int {
		m := b.first(1, func(m cut.Move) bool { return m.Rapid && m.To.Z < m.From.Z })
		m.To.Z = 19.5
		return m.Line
	}, cut.NearTravel, ""},
	{"rapid in the sheet", func(b *bench) int { return b.insert(1, sinking, aside(12)) }, cut.LowTravel, ""},
	{"no wait for the spindle", func(b *bench) int { b.opt.SpinUp = 4; return 0 }, cut.NotUpToSpeed, ""},
	{"half a wait", func(b *bench) int {
		b.opt.SpinUp = 4
		m := b.first(b.moves[0].Tool, func(m cut.Move) bool { return m.Speed > 0 })
		m.Dwell = 2
		return 0
	}, cut.NotUpToSpeed, ""},
	{"no wait after a change", func(b *bench) int {
		b.opt.SpinUp = 4
		waits(b, 4)
		m := b.first(3, func(m cut.Move) bool { return m.Speed > 0 })
		m.Dwell = 0
		return m.Line
	}, cut.NotUpToSpeed, ""},
	{"outline cutter too short", func(b *bench) int { b.opt.Tools[0].Edge = 12; return 0 }, cut.BeyondEdge, ""},
	{"kerf cutter too short", func(b *bench) int { b.opt.Tools[1].Edge = 17; return 0 }, cut.BeyondEdge, ""},
	{"kerf cutter too short, shank wider", func(b *bench) int { b.opt.Tools[1].Edge, b.opt.Tools[1].Shank = 17, 6; return 0 }, cut.BeyondEdge, ""},
	{"edges too short for a pass", func(b *bench) int { b.opt.Tools[1].Edge, b.opt.Tools[1].Shank = 2, 3; return 0 }, cut.DeepPass, "slot 1"},
	{"deeper than the cutter reaches", func(b *bench) int { b.opt.Tools[1].MaxDepth = 15; return 0 }, cut.BeyondReach, ""},
	{"unknown cutter", func(b *bench) int { m := b.first(1, feeding); m.Tool = 77; return m.Line }, cut.UnknownTool, ""},
	{"changed in the sheet", func(b *bench) int {
		i := slices.IndexFunc(b.moves, func(m cut.Move) bool { return m.Tool == 1 })
		b.moves[i-1].To.Z = 19.2
		return b.moves[i-1].Line
	}, cut.LowChange, ""},
	{"ends low", func(b *bench) int { m := &b.moves[len(b.moves)-1]; m.To.Z = 20; return m.Line }, cut.LowChange, ""},
	{"into the spoilboard", func(b *bench) int { m := b.first(1, feeding); m.To.Z = -0.4; return m.Line }, cut.Spoilboard, ""},
	{"a number lost", func(b *bench) int { m := b.first(1, feeding); m.To.X = math.NaN(); return m.Line }, cut.OffTravel, ""},
	{"off the sheet", func(b *bench) int { m := b.first(1, feeding); m.To.Y = -3; return m.Line }, cut.OffSheet, ""},
	{"off the machine", func(b *bench) int { b.opt.Travel = r2.Box{Max: r2.Vec{X: 600, Y: 600}}; return 0 }, cut.OffTravel, ""},
	{"into a clamp", func(b *bench) int {
		b.job.Stock.Forbidden = []arc.Region{{Outer: arc.Rect(22, 200, 40, 240)}}
		return 0
	}, cut.Clamped, ""},
}

// waits puts a wait before the first move of every cutter.
func waits(b *bench, s float64) {
	tool := -1
	for i := range b.moves {
		if m := &b.moves[i]; m.Speed > 0 && m.Tool != tool {
			tool, m.Dwell = m.Tool, s
		}
	}
}

func (b *bench) replay(t testing.TB) cut.Report {
	t.Helper()
	rep, err := cut.Replay(context.Background(), b.job, b.moves, b.opt)
	if err != nil {
		require.ErrorIs(t, err, cut.ErrFaulty)
	}
	return rep
}

func TestReplayHoldsTheProgramToTheCutters(t *testing.T) {
	good := newBench(t, nil)
	require.Empty(t, good.replay(t).Faults)
	for _, c := range offLimits {
		t.Run(c.name, func(t *testing.T) {
			b := *good
			b.moves, b.opt.Tools = slices.Clone(good.moves), slices.Clone(good.opt.Tools)
			line := c.do(&b)
			rep := b.replay(t)
			for _, f := range rep.Faults {
				if f.Kind == c.want && (c.at == "" || f.Feature == c.at) {
					require.Positive(t, f.Line)
					require.NotEmpty(t, f.Error())
					if line > 0 && f.Count == 1 {
						require.Equal(t, line, f.Line, f.Error())
					}
					return
				}
			}
			require.Failf(t, "not seen", "want %v, got %v", c.want, rep.Faults)
		})
	}
}

// What is within the limits is no fault.
func TestReplayLetsPassWhatIsWithinTheLimits(t *testing.T) {
	good := newBench(t, nil)
	for name, do := range map[string]func(b *bench){
		"waited":                func(b *bench) { b.opt.SpinUp = 4; waits(b, 4) },
		"edges long enough":     func(b *bench) { b.opt.Tools[0].Edge, b.opt.Tools[1].Edge = 25, 17.4 },
		"a thin shank":          func(b *bench) { b.opt.Tools[1].Edge, b.opt.Tools[1].Shank = 6, 3 },
		"ramps allowed":         func(b *bench) { b.opt.Tools[0].Ramp = 5 * arc.Degree },
		"speed within bounds":   func(b *bench) { b.opt.Tools[0].Slowest, b.opt.Tools[0].Fastest = 18000, 18000 },
		"a tenth slower":        func(b *bench) { b.each(2, func(m *cut.Move) { m.Feed *= 0.9 }) },
		"a rapid over the feed": func(b *bench) { b.insert(1, func(m cut.Move) bool { return m.Rapid && m.To.Z < m.From.Z }, aside(21)) },
	} {
		t.Run(name, func(t *testing.T) {
			b := *good
			b.moves, b.opt.Tools = slices.Clone(good.moves), slices.Clone(good.opt.Tools)
			do(&b)
			require.Empty(t, b.replay(t).Faults)
		})
	}
}

// Programs of another order or another shop, which cut all that is asked.
var offOrder = []struct {
	name string
	do   func(j *cut.Job, o *cut.Options, p *cut.Program)
	want cut.FaultKind
	part string
	at   string
}{
	{"outline in one pass", func(_ *cut.Job, o *cut.Options, _ *cut.Program) { o.Tools[0].Step = 20 }, cut.DeepPass, "sweep.1", "outline"},
	{"opening in one pass", func(_ *cut.Job, o *cut.Options, _ *cut.Program) { o.Tools[0].Step = 20 }, cut.DeepPass, "cheek.2", "opening 1"},
	{"outline in passes half too deep", func(_ *cut.Job, o *cut.Options, _ *cut.Program) { o.Tools[0].Step = 14 }, cut.DeepPass, "skirt.1", "outline"},
	{"ramps of 80 degrees", func(_ *cut.Job, o *cut.Options, _ *cut.Program) { o.Ramp = 80 * arc.Degree }, cut.SteepEntry, "", ""},
	{"ramps of 10 degrees", func(_ *cut.Job, o *cut.Options, _ *cut.Program) { o.Ramp = 10 * arc.Degree }, cut.SteepEntry, "", ""},
	{"kerf after the outline", last(cut.SlotCut, "sweep.1"), cut.AfterFree, "sweep.1", "slot 1"},
	{"dado after the outline", last(cut.SlotCut, "skirt.1"), cut.AfterFree, "skirt.1", "slot 1"},
	{"pocket after the outline", last(cut.PocketCut, "cheek.1"), cut.AfterFree, "cheek.1", "pocket 1"},
	{"opening after the outline", last(cut.OpeningCut, "cheek.2"), cut.AfterFree, "cheek.2", "opening 1"},
	{"bevel after the outline", last(cut.BevelCut, "skirt.1"), cut.AfterFree, "skirt.1", "bevel 1"},
}

// last moves the operations of a kind on a part to the end of the program.
func last(k cut.Kind, part string) func(*cut.Job, *cut.Options, *cut.Program) {
	return func(_ *cut.Job, _ *cut.Options, p *cut.Program) {
		var now, then []cut.Operation
		for _, o := range p.Operations {
			if o.Kind == k && o.Name == part {
				then = append(then, o)
			} else {
				now = append(now, o)
			}
		}
		p.Operations = append(now, then...)
	}
}

func TestReplayTellsWrongOrdersAndPasses(t *testing.T) {
	for _, c := range offOrder {
		t.Run(c.name, func(t *testing.T) {
			job, opt := workshop()
			var p cut.Program
			c.do(&job, &opt, &p)
			p, err := cut.Plan(context.Background(), job, opt)
			require.NoError(t, err)
			c.do(&job, &opt, &p)
			job, opt = workshop()
			rep, err := cut.Replay(context.Background(), job, readBack(t, p), opt)
			require.ErrorIs(t, err, cut.ErrFaulty)
			for _, f := range rep.Faults {
				if f.Kind == c.want && f.Name == c.part && f.Feature == c.at {
					require.Positive(t, f.Line)
					return
				}
			}
			require.Failf(t, "not seen", "want %v, got %v", c.want, rep.Faults)
		})
	}
}

// A cutter is fed less the farther it has to reach, and its reach is told.
func TestReachSlowsTheCutter(t *testing.T) {
	require.Equal(t, 1.0, cut.Slowing(9.525, 19.2))
	require.Equal(t, 1.0, cut.Slowing(3, 9))
	require.InDelta(t, 0.5, cut.Slowing(3, 18), 1e-12)
	for _, v := range specials {
		require.GreaterOrEqual(t, cut.Slowing(3, v), 0.0)
		require.LessOrEqual(t, cut.Slowing(v, 3), 1.0)
	}
	job, opt := workshop()
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	low, _ := cut.ChipLoad(3.2, 3.2)
	most := 0.0
	for _, o := range p.Operations {
		for _, m := range o.Moves {
			if o.Tool == 2 {
				most = math.Max(most, m.Feed)
			}
		}
	}
	require.InDelta(t, 18000*2*low*3*3.2/17.4, most, 1)
	for _, r := range p.Reaches() {
		require.Positive(t, r.Depth)
		require.Equal(t, r.Tool.Number == 2, r.Caution != "", r)
	}
}

// A cutter of 1/8 in cuts a kerf of 3.2 mm in one lane.
func TestOneLaneWhereTheCutterFills(t *testing.T) {
	job, opt := workshop()
	opt.Tools[1].Diameter = 3.175
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	for _, o := range p.Operations {
		for _, m := range o.Moves {
			if o.Tool == 2 {
				require.InDelta(t, o.Moves[0].From.Y, m.To.Y, 1e-9)
			}
		}
	}
	require.Empty(t, replay(t, job, opt, text(t, job, opt)).Faults)
}

// An edge that is square but for rounding gets no bevel.
func TestNoBevelOfRounding(t *testing.T) {
	for _, a := range []arc.Angle{7.9e-16, -7.9e-16, 1e-6, -1e-5} {
		job, opt := workshop()
		job.Works[2].Bevels[1].Angle = a
		p, err := cut.Plan(context.Background(), job, opt)
		require.NoError(t, err)
		require.Empty(t, p.Saw)
		require.Empty(t, replay(t, job, opt, text(t, job, opt)).Faults)
	}
	job, opt := workshop()
	job.Works[2].Bevels[1].Angle = 0.5 * arc.Degree
	opt.NoSteps = true
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	require.Len(t, p.Saw, 1)
}

// What is planned keeps to the limits of the cutters.
func TestPlanObeysTheCutters(t *testing.T) {
	job, opt := workshop()
	opt.SpinUp = 4
	opt.Tools[0].Edge, opt.Tools[0].Ramp = 20, 2*arc.Degree
	opt.Tools[1].Edge, opt.Tools[1].Shank, opt.Tools[1].Ramp = 2, 3, arc.Degree
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	rep, err := cut.Replay(context.Background(), job, p.Moves(), opt)
	require.NoError(t, err, "%v", rep.Faults)
	opt.Tools[0].Edge = 15
	_, err = cut.Plan(context.Background(), job, opt)
	require.ErrorIs(t, err, cut.ErrNoTool)
}
