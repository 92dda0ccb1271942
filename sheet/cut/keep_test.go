package cut_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// pair is two parts with an opening and kerfs that run out.
func pair() (cut.Job, cut.Options) {
	job := cut.Job{
		Stock: sheet.Stock{Material: "mdf", Thickness: 18, Length: 700, Width: 360},
		Parts: []sheet.Part{
			{Name: "a", Thickness: 18, Material: "mdf", Outline: arc.Region{Outer: arc.Rect(0, 0, 260, 240), Holes: []arc.Path{arc.Circle(r2.Vec{X: 130, Y: 120}, 60).Reverse()}}},
			{Name: "b", Thickness: 18, Material: "mdf", Outline: arc.Region{Outer: arc.Rect(0, 0, 240, 200)}},
		},
		Placements: []sheet.Placement{{At: r2.Vec{X: 60, Y: 60}}, {Part: 1, At: r2.Vec{X: 380, Y: 80}}},
	}
	var kerfs []cut.Slot
	for i := range 11 {
		x := 30 + 18*float64(i)
		kerfs = append(kerfs, cut.Slot{From: r2.Vec{X: x, Y: -1.6}, To: r2.Vec{X: x, Y: 201.6}, Width: 3.2, Depth: 16.4})
	}
	job.Works = []cut.Work{{}, {Slots: kerfs}}
	return job, cut.Options{Tools: cut.Tools(6, 3.2, 18)}
}

// Every way to hold makes a program that Replay takes; a raster says what hangs
// together, before the last passes and at the end.
func TestWaysToHold(t *testing.T) {
	for _, c := range []struct {
		hold      cut.Hold
		high      float64 // of what holds
		last, end bool    // all hangs together before the passes that cut through, and at the end
	}{
		{cut.ByTabs, 2.9, true, true}, {cut.BySkin, 0.45, true, true}, {cut.BySkinAtLast, 0.45, true, false}, {cut.ByVacuum, 0.45, true, false},
	} {
		job, opt := pair()
		opt.Hold = c.hold
		p, err := cut.Plan(context.Background(), job, opt)
		require.NoError(t, err, c.hold)
		assert.Equal(t, c.hold, p.Hold)
		m := p.Moves()
		rep, err := cut.Replay(context.Background(), job, m, opt)
		require.NoError(t, err, c.hold)
		assert.Equal(t, c.hold == cut.ByTabs, rep.Tabs > 0, c.hold)
		hangs := func(m []cut.Move) bool {
			return len(newRaster(t, job, m, opt.Tools).Loose(c.high, 0, 500)) == 0
		}
		through := slices.IndexFunc(m, func(v cut.Move) bool { return v.To.Z < 0 })
		if c.hold == cut.BySkin {
			assert.Equal(t, -1, through)
			through = len(m)
		}
		assert.Equal(t, c.last, hangs(m[:through]), c.hold)
		assert.Equal(t, c.end, hangs(m), c.hold)
	}
}

// A program that holds otherwise than the shop does is refused for that.
func TestReplaySeesAnotherHold(t *testing.T) {
	for _, c := range []struct {
		planned, shop cut.Hold
		want          cut.FaultKind
	}{
		{cut.BySkin, cut.ByTabs, cut.Uncut}, {cut.BySkin, cut.ByVacuum, cut.Uncut}, {cut.BySkin, cut.BySkinAtLast, cut.Uncut},
		{cut.ByVacuum, cut.ByTabs, cut.Loose}, {cut.ByVacuum, cut.BySkin, cut.Loose}, {cut.ByVacuum, cut.BySkinAtLast, cut.AfterFree},
		{cut.BySkinAtLast, cut.BySkin, cut.Loose}, {cut.ByTabs, cut.ByVacuum, cut.Uncut},
	} {
		job, opt := pair()
		opt.Hold = c.planned
		p, err := cut.Plan(context.Background(), job, opt)
		require.NoError(t, err)
		opt.Hold = c.shop
		rep, err := cut.Replay(context.Background(), job, p.Moves(), opt)
		require.Error(t, err)
		assert.True(t, rep.Faults.Has(c.want), "%v for %v: %v", c.planned, c.shop, err)
	}
}

// A skin that is cut before all else is done is told of.
func TestSkinCutTooEarly(t *testing.T) {
	job, opt := pair()
	opt.Hold = cut.BySkinAtLast
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	is := func(name string) func(cut.Operation) bool {
		return func(o cut.Operation) bool { return o.Kind == cut.OutlineCut && (name == "" || o.Name == name) }
	}
	first := slices.IndexFunc(p.Operations, is(""))
	early := p.Operations[first]
	last := len(p.Operations) - 1
	for !is(early.Name)(p.Operations[last]) {
		last--
	}
	require.Greater(t, last, first)
	through := p.Operations[last]
	p.Operations = slices.Insert(slices.Delete(slices.Clone(p.Operations), last, last+1), first+1, through)
	rep, err := cut.Replay(context.Background(), job, p.Moves(), opt)
	require.Error(t, err)
	assert.True(t, slices.ContainsFunc(rep.Faults, func(f cut.Fault) bool {
		return f.Kind == cut.AfterFree && f.Name != early.Name && f.Feature == "outline"
	}), "the other part is cut when vacuum alone holds: %v", err)
}

// A part whose bevels cut through the skin all around is refused by name.
func TestSkinAndBevelsAllAround(t *testing.T) {
	job, opt := pair()
	opt.Tools = cut.Tools(6, 3.2, 18, 90*arc.Degree)
	opt.Hold, opt.NoSteps = cut.BySkin, true
	o := job.Parts[1].Outline.Outer
	job.Works[1] = cut.Work{Bevels: []cut.Bevel{{Edge: o, Angle: 45 * arc.Degree}}}
	_, err := cut.Plan(context.Background(), job, opt)
	require.ErrorIs(t, err, cut.ErrNoHold)
	assert.ErrorContains(t, err, "b.1")
	job.Works[1].Bevels[0].Edge = o.Segment(0).Path()
	requireSkin(t, job, opt)
}

func requireSkin(t *testing.T, job cut.Job, opt cut.Options) {
	t.Helper()
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	_, err = cut.Replay(context.Background(), job, p.Moves(), opt)
	require.NoError(t, err)
}

// The flat tops of tabs stand clear of where kerfs run out.
func TestNoTabAtAKerfsMouth(t *testing.T) {
	job, opt := pair()
	opt.TabSpacing = 60
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	tops := 0
	for _, o := range p.Operations {
		if o.Name != "b.1" || o.Kind != cut.OutlineCut {
			continue
		}
		for _, m := range o.Moves {
			if m.Rapid || math.Abs(m.From.Z-3)+math.Abs(m.To.Z-3) > 1e-9 {
				continue
			}
			x, y := (m.From.X+m.To.X)/2-380, (m.From.Y+m.To.Y)/2-80
			if y > 0 && y < 200 {
				continue // beside the part, where no kerf runs out
			}
			tops++
			for _, k := range job.Works[1].Slots {
				assert.Greater(t, math.Abs(x-k.From.X), (3.2+6)/2-0.01)
			}
		}
	}
	assert.GreaterOrEqual(t, tops, 2, "of tabs between kerfs")
}

func TestLeastTabs(t *testing.T) {
	job, opt := pair()
	for field, c := range map[string]func(*cut.Options){
		"TabWidth": func(o *cut.Options) { o.TabWidth = 0.4 }, "TabHeight": func(o *cut.Options) { o.TabHeight = 0.2 },
		"Skin": func(o *cut.Options) { o.Skin = 0.1 }, "Hold": func(o *cut.Options) { o.Hold = 4 },
	} {
		o := opt
		c(&o)
		_, err := cut.Plan(context.Background(), job, o)
		assert.ErrorContains(t, err, field)
	}
}

// A span is where along the right side of a rectangle, going up from its lower
// right corner, a tab is left.
type span struct{ side, at float64 }

// around cuts a rectangle out by hand: down in passes of 3 mm, over tabs with
// their middles at places on sides, numbered from below and counter-clockwise.
func around(box r2.Box, tabs []span) []cut.Move {
	const r, top = 3.0, 18.0
	b := r2.Box{Min: r2.Sub(box.Min, r2.Vec{X: r, Y: r}), Max: r2.Add(box.Max, r2.Vec{X: r, Y: r})}
	c := [5]r2.Vec{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}, b.Min}
	at := r3.Vec{X: c[0].X, Y: c[0].Y, Z: top + 15}
	var out []cut.Move
	to := func(p r2.Vec, z float64, rapid bool) {
		next := r3.Vec{X: p.X, Y: p.Y, Z: z}
		out = append(out, cut.Move{From: at, To: next, Rapid: rapid, Feed: 3000, Tool: 1, Speed: 18000})
		at = next
	}
	to(c[0], top+2, true)
	for z := top - 3; z > -3; z -= 3 {
		z := math.Max(z, -0.2)
		to(c[0], z, false)
		for side := range 4 {
			a, u := c[side], r2.Unit(r2.Sub(c[side+1], c[side]))
			for _, s := range tabs {
				if int(s.side) == side && z < 3 {
					to(r2.Add(a, r2.Scale(s.at-6, u)), z, false)
					to(r2.Add(a, r2.Scale(s.at-6, u)), 3, false)
					to(r2.Add(a, r2.Scale(s.at+6, u)), 3, false)
					to(r2.Add(a, r2.Scale(s.at+6, u)), z, false)
				}
			}
			to(c[side+1], z, false)
		}
	}
	to(c[0], top+15, true)
	return out
}

// Tabs cut by hand that hold and others that do not: off the sheet, on a wall
// of 0.25 mm, ending in a neighbor's cut, bridged and the bridge cut later. The
// part that is loose or weak is named.
func TestPlantedHolds(t *testing.T) {
	const gap = 6.01
	box := func(x, y float64) r2.Box { return r2.Box{Min: r2.Vec{X: x, Y: y}, Max: r2.Vec{X: x + 100, Y: y + 80}} }
	frame := []span{{0, 50}, {2, 50}}
	right, left := []span{{1, 30}, {1, 60}}, []span{{3, 26}, {3, 56}}
	for name, c := range map[string]struct {
		at     [2]r2.Vec
		tabs   [2][]span
		again  bool // the second outline once more, without tabs
		loose  string
		accept []cut.FaultKind
	}{
		"to the frame":      {at: [2]r2.Vec{{X: 50, Y: 50}, {X: 250, Y: 50}}, tabs: [2][]span{frame, frame}},
		"one bridge of two": {at: [2]r2.Vec{{X: 50, Y: 50}, {X: 150 + gap, Y: 50}}, tabs: [2][]span{{{1, 46}}, append(slices.Clone(frame), span{3, 40})}},
		"off the sheet": {at: [2]r2.Vec{{X: 3, Y: 50}, {X: 250, Y: 50}}, tabs: [2][]span{{{3, 26}, {3, 56}}, frame},
			loose: "p.1", accept: []cut.FaultKind{cut.Loose}},
		"on a wall of 0.25 mm": {at: [2]r2.Vec{{X: 50, Y: 50}, {X: 150 + 12.25, Y: 50}}, tabs: [2][]span{right, frame},
			loose: "p.1", accept: []cut.FaultKind{cut.Loose, cut.Weak}},
		"in a neighbor's cut": {at: [2]r2.Vec{{X: 50, Y: 50}, {X: 150 + gap, Y: 50}}, tabs: [2][]span{right, frame},
			loose: "p.1", accept: []cut.FaultKind{cut.Loose}},
		"bridge cut later": {at: [2]r2.Vec{{X: 50, Y: 50}, {X: 150 + gap, Y: 50}}, tabs: [2][]span{right, append(slices.Clone(frame), left...)}, again: true,
			loose: "p.1", accept: []cut.FaultKind{cut.Loose}},
		"no tabs": {at: [2]r2.Vec{{X: 50, Y: 50}, {X: 250, Y: 50}}, tabs: [2][]span{frame, nil},
			loose: "p.2", accept: []cut.FaultKind{cut.Loose}},
	} {
		job := cut.Job{
			Stock:      sheet.Stock{Thickness: 18, Length: 420, Width: 200},
			Parts:      []sheet.Part{{Name: "p", Thickness: 18, Outline: arc.Region{Outer: arc.Rect(0, 0, 100, 80)}}},
			Placements: []sheet.Placement{{At: c.at[0]}, {Copy: 1, At: c.at[1]}},
		}
		var moves []cut.Move
		for i, at := range c.at {
			moves = append(moves, around(box(at.X, at.Y), c.tabs[i])...)
		}
		if c.again {
			moves = append(moves, around(box(c.at[1].X, c.at[1].Y), nil)...)
		}
		for i := range moves {
			moves[i].Line = i + 1
			if i > 0 && moves[i].From != moves[i-1].To {
				moves[i].From = moves[i-1].To
			}
		}
		rep, _ := cut.Replay(context.Background(), job, moves, cut.Options{Tools: []cut.Tool{{Number: 1, Diameter: 6, Center: true}}})
		var found []string
		for _, f := range rep.Faults {
			if f.Kind == cut.Loose || f.Kind == cut.Weak {
				found = append(found, f.Name)
				assert.Contains(t, c.accept, f.Kind, "%s: %v", name, f)
				assert.Positive(t, f.Line, name)
			}
		}
		if c.loose == "" {
			assert.Empty(t, found, name)
		} else {
			assert.Contains(t, found, c.loose, "%s: %v", name, strings.Join(found, " "))
		}
	}
}

// A move no longer than a digit printed is no plunge, however it is tilted; a
// long one as steep is.
func TestShortMovesAreNoPlunges(t *testing.T) {
	job, opt := pair()
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	for _, c := range []struct {
		by   float64
		want bool
	}{{1e-4, false}, {0.5, true}} {
		m := p.Moves()
		at := slices.IndexFunc(m, func(v cut.Move) bool { return !v.Rapid && v.From.Z < 18 && v.To.Z < v.From.Z })
		require.Positive(t, at)
		tilted := m[at]
		tilted.To, tilted.K = r3.Vec{X: tilted.From.X + c.by, Y: tilted.From.Y, Z: tilted.From.Z - c.by}, 0
		tilted.Feed = m[at].Feed * 1.2
		m = slices.Insert(slices.Clone(m), at, tilted)
		m[at+1].From = tilted.To
		rep, _ := cut.Replay(context.Background(), job, m, opt)
		assert.Equal(t, c.want, rep.Faults.Has(cut.FastPlunge), "%v: %v", c.by, rep.Faults)
	}
}
