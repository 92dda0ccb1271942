package sheet_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// A legal layout of two panels, and what each change to it breaks.
func TestCheckNamesEachFault(t *testing.T) {
	type job struct {
		parts []sheet.Part
		stock []sheet.Stock
		l     sheet.Layout
		opt   sheet.Options
	}
	legal := func() *job {
		a, b := panel("a", 300, 200, 1), panel("b", 100, 50, 2)
		a.Grain, b.Turns = sheet.Along, sheet.HalfTurns
		return &job{
			[]sheet.Part{a, b}, []sheet.Stock{sheetOf(500, 300)},
			sheet.Layout{Sheets: []sheet.Sheet{{Placements: []sheet.Placement{
				{Part: 0, At: r2.Vec{X: 10, Y: 10}},
				{Part: 1, At: r2.Vec{X: 418, Y: 60}, Rotate: 180 * arc.Degree},
			}}}, Unplaced: []sheet.Unplaced{{Part: 1, Copy: 1, Reason: sheet.NoRoom}}},
			sheet.Options{Gap: 8, Margin: 10},
		}
	}
	j := legal()
	require.NoError(t, sheet.Check(j.parts, j.stock, j.l, j.opt))
	for rule, changes := range map[string][]func(*job){
		"gap": {
			func(j *job) { j.l.Sheets[0].Placements[1].At.X -= 0.01 },
			func(j *job) { j.opt.Gap = 8.01 },
			func(j *job) { j.l.Sheets[0].Placements[1].At.X = 200 },
		},
		"margin": {
			func(j *job) { j.l.Sheets[0].Placements[0].At.Y -= 0.01 },
			func(j *job) { j.stock[0].Length = 427.9 },
			func(j *job) { j.stock[0].Width = 219.9 },
			func(j *job) { j.l.Sheets[0].Placements[0].At.X = -1000 },
			func(j *job) { j.stock[0].Outline = arc.Region{Outer: arc.Rect(0, 0, 500, 219.9)} },
			func(j *job) {
				j.stock[0].Outline = arc.Region{Outer: arc.Rect(0, 0, 500, 300), Holes: []arc.Path{arc.Circle(r2.Vec{X: 100, Y: 100}, 5).Reverse()}}
			},
		},
		"forbidden": {
			func(j *job) { j.stock[0].Forbidden = []arc.Region{{Outer: arc.Rect(317.9, 100, 320, 120)}} },
			func(j *job) { j.stock[0].Forbidden = []arc.Region{{Outer: arc.Rect(0, 0, 500, 300)}} },
			func(j *job) { j.stock[0].Forbidden = []arc.Region{{Outer: arc.Rect(100, 100, 101, 101)}} },
		},
		"grain": {func(j *job) { j.stock[0].GrainAcross = true }, func(j *job) { j.parts[0].Grain = sheet.Across }},
		"turn": {
			func(j *job) { j.parts[1].Turns = sheet.NoTurn },
			func(j *job) {
				j.l.Sheets[0].Placements[1].Rotate = 90 * arc.Degree
				j.l.Sheets[0].Placements[1].At = r2.Vec{X: 400, Y: 20}
			},
		},
		"mirror": {func(j *job) {
			j.l.Sheets[0].Placements[0].Mirror = true
			j.l.Sheets[0].Placements[0].At.X = 310
		}},
		"stock": {
			func(j *job) { j.stock[0].Material = "oak" },
			func(j *job) { j.stock[0].Thickness = 12.01 },
			func(j *job) { j.l.Sheets[0].Stock = 1 },
			func(j *job) {
				j.stock[0].Count = 1
				j.l.Sheets = append(j.l.Sheets, sheet.Sheet{Placements: []sheet.Placement{{Part: 1, Copy: 1, At: r2.Vec{X: 50, Y: 50}}}})
				j.l.Unplaced = nil
			},
		},
		"count": {
			func(j *job) { j.l.Unplaced = nil },
			func(j *job) { j.parts[0].Qty = 2 },
			func(j *job) { j.l.Sheets[0].Placements = j.l.Sheets[0].Placements[:1] },
			func(j *job) { j.l.Sheets[0].Placements[1].Copy = 1 },
			func(j *job) { j.l.Sheets[0].Placements[1].Part = 7 },
			func(j *job) { j.l.Unplaced[0].Part = -1 },
			func(j *job) { j.l.Sheets[0].Placements[1].At.X = math.NaN() },
		},
		"set": {
			func(j *job) { j.parts[1].Set = "pair" },
			func(j *job) {
				j.parts[1].Set = "pair"
				j.l.Sheets = append(j.l.Sheets, sheet.Sheet{Placements: []sheet.Placement{{Part: 1, Copy: 1, At: r2.Vec{X: 50, Y: 50}}}})
				j.l.Unplaced = nil
			},
		},
	} {
		for i, change := range changes {
			j := legal()
			change(j)
			err := sheet.Check(j.parts, j.stock, j.l, j.opt)
			var f sheet.Faults
			if assert.ErrorAs(t, err, &f, "%s %d", rule, i) {
				assert.ErrorIs(t, err, sheet.ErrIllegal)
				rules := []string{}
				for _, x := range f {
					rules = append(rules, x.Rule)
				}
				assert.Contains(t, rules, rule, "%s %d: %v", rule, i, err)
			}
		}
	}
}

// A part that lies in the opening of another is legal, and one that is laid
// exactly upon its twin is not, nor upon a part that it fills.
func TestCheckInsideAndUpon(t *testing.T) {
	frame := ply("frame", arc.Region{Outer: arc.Rect(0, 0, 100, 100), Holes: []arc.Path{arc.Rect(20, 20, 80, 80).Reverse()}})
	plug := ply("plug", square(60))
	stock := []sheet.Stock{sheetOf(100, 100)}
	lay := func(at ...r2.Vec) sheet.Layout {
		var s sheet.Sheet
		for i, v := range at {
			s.Placements = append(s.Placements, sheet.Placement{Part: i, At: v})
		}
		return sheet.Layout{Sheets: []sheet.Sheet{s}}
	}
	in := r2.Vec{X: 20, Y: 20}
	assert.NoError(t, sheet.Check([]sheet.Part{frame, plug}, stock, lay(r2.Vec{}, in), sheet.Options{}))
	assert.Error(t, sheet.Check([]sheet.Part{frame, plug}, stock, lay(r2.Vec{}, in), sheet.Options{Gap: 1e-3}))
	assert.Error(t, sheet.Check([]sheet.Part{frame, plug, plug}, stock, lay(r2.Vec{}, in, in), sheet.Options{}))
	assert.Error(t, sheet.Check([]sheet.Part{frame, frame}, stock, lay(r2.Vec{}, r2.Vec{}), sheet.Options{}))
	full := frame
	full.Outline.Holes = nil
	assert.Error(t, sheet.Check([]sheet.Part{full, plug}, stock, lay(r2.Vec{}, in), sheet.Options{}))
	assert.Error(t, sheet.Check([]sheet.Part{plug, full}, stock, lay(in, r2.Vec{}), sheet.Options{}))
}

// No value makes the functions panic or hang, and each fault names its field.
func TestBadInput(t *testing.T) {
	base := func() ([]sheet.Part, []sheet.Stock, sheet.Options) {
		return []sheet.Part{panel("p", 100, 50, 1)}, []sheet.Stock{sheetOf(500, 300)}, sheet.Options{Iterations: 1}
	}
	type change func(*sheet.Part, *sheet.Stock, *sheet.Options)
	bad := map[string]change{}
	for name, v := range map[string]float64{"NaN": math.NaN(), "Inf": math.Inf(1), "-Inf": math.Inf(-1), "-1": -1, "huge": 1e300} {
		for field, set := range map[string]change{
			"parts[0].Thickness": func(p *sheet.Part, _ *sheet.Stock, _ *sheet.Options) { p.Thickness = v },
			"parts[0].Outline":   func(p *sheet.Part, _ *sheet.Stock, _ *sheet.Options) { p.Outline.Outer.V[2].P.X = v },
			"stock[0].Length":    func(_ *sheet.Part, s *sheet.Stock, _ *sheet.Options) { s.Length = v },
			"stock[0].Width":     func(_ *sheet.Part, s *sheet.Stock, _ *sheet.Options) { s.Width = v },
			"stock[0].Thickness": func(_ *sheet.Part, s *sheet.Stock, _ *sheet.Options) { s.Thickness = v },
			"opt.Gap":            func(_ *sheet.Part, _ *sheet.Stock, o *sheet.Options) { o.Gap = v },
			"opt.Margin":         func(_ *sheet.Part, _ *sheet.Stock, o *sheet.Options) { o.Margin = v },
			"opt.Eps":            func(_ *sheet.Part, _ *sheet.Stock, o *sheet.Options) { o.Eps = v },
			"opt.Tolerance":      func(_ *sheet.Part, _ *sheet.Stock, o *sheet.Options) { o.Tolerance = v },
			"opt.LeastSide":      func(_ *sheet.Part, _ *sheet.Stock, o *sheet.Options) { o.LeastSide = v },
		} {
			if field == "parts[0].Outline" && name == "-1" {
				continue // a legal number there
			}
			bad[field+" "+name] = set
		}
	}
	bad["zero thickness"] = func(p *sheet.Part, _ *sheet.Stock, _ *sheet.Options) { p.Thickness = 0 }
	bad["zero length"] = func(_ *sheet.Part, s *sheet.Stock, _ *sheet.Options) { s.Length = 0 }
	bad["qty"] = func(p *sheet.Part, _ *sheet.Stock, _ *sheet.Options) { p.Qty = -1 }
	bad["many"] = func(p *sheet.Part, _ *sheet.Stock, _ *sheet.Options) { p.Qty = 1 << 40 }
	bad["grain"] = func(p *sheet.Part, _ *sheet.Stock, _ *sheet.Options) { p.Grain = 9 }
	bad["turns"] = func(p *sheet.Part, _ *sheet.Stock, _ *sheet.Options) { p.Turns = -1 }
	bad["clockwise"] = func(p *sheet.Part, _ *sheet.Stock, _ *sheet.Options) { p.Outline.Outer = p.Outline.Outer.Reverse() }
	bad["open"] = func(p *sheet.Part, _ *sheet.Stock, _ *sheet.Options) { p.Outline.Outer.Closed = false }
	bad["empty"] = func(p *sheet.Part, _ *sheet.Stock, _ *sheet.Options) { p.Outline = arc.Region{} }
	bad["crossing"] = func(p *sheet.Part, _ *sheet.Stock, _ *sheet.Options) {
		p.Outline.Outer = arc.Polygon(r2.Vec{}, r2.Vec{X: 100, Y: 100}, r2.Vec{X: 100}, r2.Vec{X: -20, Y: 90})
	}
	bad["hole out"] = func(p *sheet.Part, _ *sheet.Stock, _ *sheet.Options) {
		p.Outline.Holes = []arc.Path{arc.Circle(r2.Vec{X: 100, Y: 25}, 10).Reverse()}
	}
	bad["count"] = func(_ *sheet.Part, s *sheet.Stock, _ *sheet.Options) { s.Count = -1 }
	bad["price"] = func(_ *sheet.Part, s *sheet.Stock, _ *sheet.Options) { s.Price = math.NaN() }
	bad["eps below rounding"] = func(_ *sheet.Part, _ *sheet.Stock, o *sheet.Options) { o.Eps = 5e-324 }
	bad["iterations"] = func(_ *sheet.Part, _ *sheet.Stock, o *sheet.Options) { o.Iterations = -1 }
	bad["time"] = func(_ *sheet.Part, _ *sheet.Stock, o *sheet.Options) { o.Time = -1 }
	bad["workers"] = func(_ *sheet.Part, _ *sheet.Stock, o *sheet.Options) { o.Workers = -1 }
	for name, set := range bad {
		parts, stock, opt := base()
		set(&parts[0], &stock[0], &opt)
		_, err := sheet.Nest(context.Background(), parts, stock, opt)
		var p *sheet.ParamError
		if assert.ErrorAs(t, err, &p, name) {
			assert.NotEmpty(t, p.Need, name)
			assert.NotNil(t, errors.Unwrap(p), name)
		}
		assert.ErrorAs(t, sheet.Check(parts, stock, sheet.Layout{}, opt), &p, name)
	}
	for _, w := range []float64{0, -1, math.NaN(), math.Inf(1), 1e300} {
		parts, _, opt := base()
		_, err := sheet.NestStrip(context.Background(), parts, w, opt)
		assert.Error(t, err)
	}
	for _, saw := range []sheet.Saw{{Kerf: -1}, {Trim: math.NaN()}, {Stages: 1}, {First: 3}} {
		parts, stock, opt := base()
		_, err := sheet.NestStraight(context.Background(), parts, stock, saw, opt)
		assert.Error(t, err)
	}
}

// Extremes that are legal: nothing to place, no stock, margins that leave no
// sheet, parts as small as a micrometer, a context that has ended.
func TestExtremes(t *testing.T) {
	ctx := context.Background()
	l, err := sheet.Nest(ctx, nil, nil, sheet.Options{})
	require.NoError(t, err)
	assert.Empty(t, l.Sheets)
	p := []sheet.Part{panel("p", 100, 50, 2)}
	l, err = sheet.Nest(ctx, p, nil, sheet.Options{})
	require.NoError(t, err)
	assert.Equal(t, sheet.NoStock, l.Unplaced[0].Reason)
	for _, opt := range []sheet.Options{{Margin: 150}, {Margin: 1e5, Iterations: 1}} {
		l, err = sheet.Nest(ctx, p, []sheet.Stock{sheetOf(500, 300)}, opt)
		require.NoError(t, err)
		assert.Equal(t, sheet.TooLarge, l.Unplaced[0].Reason)
	}
	tiny := []sheet.Part{panel("tiny", 1e-3, 1e-3, 3), panel("large", 400, 200, 1)}
	l, err = sheet.Nest(ctx, tiny, []sheet.Stock{sheetOf(500, 300)}, sheet.Options{Iterations: 1, Gap: 1})
	require.NoError(t, err)
	assert.Empty(t, l.Unplaced)
	p[0].Grain, p[0].Turns = sheet.Across, sheet.NoTurn
	l, err = sheet.Nest(ctx, p, []sheet.Stock{sheetOf(500, 300)}, sheet.Options{})
	require.NoError(t, err)
	assert.Equal(t, sheet.WrongTurn, l.Unplaced[0].Reason)
	over, cancel := context.WithCancel(ctx)
	cancel()
	l, err = sheet.Nest(over, shopParts(), shopStock(), sheet.Options{Gap: 8, Margin: 10})
	require.NoError(t, err)
	assert.True(t, l.Stopped)
	assert.Len(t, l.Unplaced, 2, "what boxes can hold is placed at once")
	s, err := sheet.NestStrip(over, shopParts()[:4], 1220, sheet.Options{Gap: 8, Margin: 10})
	require.NoError(t, err)
	assert.Len(t, s.Placements, 22)
}

// All that cannot be used is told at once, each by its field and its name, and
// errors.As finds the first.
func TestAllFaultsOfAnInputAtOnce(t *testing.T) {
	bad := panel("lid", 300, 200, 1)
	bad.Thickness, bad.Qty, bad.Turns = 0, -1, 9
	open := panel("rail", 300, 200, 1)
	open.Outline.Outer.Closed = false
	st := sheetOf(-5, 300)
	st.Name, st.Price = "board", math.NaN()
	_, err := sheet.Nest(context.Background(), []sheet.Part{bad, panel("good", 10, 10, 1), open}, []sheet.Stock{st}, sheet.Options{Gap: -1, Workers: -1})
	var all sheet.ParamErrors
	require.ErrorAs(t, err, &all)
	want := []string{"opt.Gap", "opt.Workers", "parts[0].Thickness", "parts[0].Qty", "parts[0].Turns", "parts[2].Outline.Outer", "stock[0].Price", "stock[0].Length"}
	var got []string
	for _, p := range all {
		got = append(got, p.Param)
	}
	require.Equal(t, want, got)
	for k, called := range map[int]string{2: `"lid"`, 5: `"rail"`, 6: `"board"`} {
		require.Contains(t, all[k].Error(), called)
	}
	var first *sheet.ParamError
	require.ErrorAs(t, err, &first)
	require.Equal(t, "opt.Gap", first.Param)
	require.ErrorIs(t, err, arc.ErrOpen)
}

// A part that lies within another, near no edge of it, is found whatever the gap,
// and one in its opening is not.
func TestCheckSeesWhatLiesWithin(t *testing.T) {
	ring := arc.Region{Outer: arc.Rect(0, 0, 400, 400), Holes: []arc.Path{arc.Rect(250, 250, 380, 380).Reverse()}}
	for _, inner := range []arc.Region{{Outer: arc.Rect(0, 0, 50, 30)}, {Outer: arc.Circle(r2.Vec{X: 25, Y: 25}, 25)}} {
		parts := []sheet.Part{{Name: "ring", Thickness: 1, Outline: ring}, {Name: "inner", Thickness: 1, Outline: inner}}
		for _, gap := range []float64{0, 1e-9, 5} {
			for _, c := range []struct {
				at   r2.Vec
				want bool
			}{{r2.Vec{X: 100, Y: 90}, true}, {r2.Vec{X: 290, Y: 300}, false}, {r2.Vec{X: 420, Y: 100}, false}} {
				for k := range 2 { // in either order
					l := sheet.Layout{Sheets: []sheet.Sheet{{Placements: []sheet.Placement{{Part: 0}, {Part: 1, At: c.at}}}}}
					if k == 1 {
						slices.Reverse(l.Sheets[0].Placements)
					}
					err := sheet.Check(parts, []sheet.Stock{{Thickness: 1, Length: 600, Width: 500}}, l, sheet.Options{Gap: gap})
					require.Equal(t, c.want, err != nil, "gap %v at %v", gap, c.at)
				}
			}
		}
	}
}
