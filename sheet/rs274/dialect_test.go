package rs274_test

import (
	"context"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// Three made-up controllers that share as little as they can.
func dialects() map[string]rs274.Options {
	home := 0.0
	high := 120.0
	return map[string]rs274.Options{
		"heron": {
			Number: 10, Comment: rs274.Semicolon, Percent: true, Rewind: true, Decimals: 3,
			WorkOffset: 56, Change: rs274.ChangeLead, Dwell: 4, DwellForm: rs274.Milliseconds,
			Path: rs274.Blend, PathWord: "P", PathWithin: 0.02, Chord: 0.005, Retract: &home, Park: &r2.Vec{X: 30, Y: 570},
			Start: []string{"O1234", "G187"}, End: []string{"M11 ; vacuum off"}, Ignore: []string{"O", "G187", "M10", "M11"},
			BeforeOperation: []string{"M10 P2", "M8"}, AfterOperation: []string{"M9"}, Extension: "cnc",
		},
		"lapwing": {
			Unit: arc.Inches, Change: rs274.TwoLines, Length: rs274.ByController, Dwell: 2.5, Path: rs274.Blend,
			Measured: 18.3, BeforeChange: []string{"(hood up) M37"}, AfterChange: []string{"M38"}, Ignore: []string{"M37", "M38"}, PerTool: true,
		},
		"curlew": {
			Change: rs274.ByHand, Length: rs274.TouchOff, Dwell: 8, Retract: &high, Number: 1, Extension: ".tap",
			Cautions: []string{"The bench is wet on Mondays."},
		},
	}
}

// kerfed is a job with every kind of cut for two end mills and a V cutter.
func kerfed(t testing.TB) (cut.Job, cut.Options) {
	t.Helper()
	job := cut.Job{
		Title: "Lid", Stock: sheet.Stock{Material: "mdf", Thickness: 18, Length: 900, Width: 600},
		Parts: []sheet.Part{{Name: "lid", Thickness: 18, Outline: arc.Region{
			Outer: arc.Path{Closed: true, V: []arc.Vertex{arc.V(0, 0, 0), arc.V(500, 0, 0), arc.V(500, 300, 0.2), arc.V(0, 300, 0)}},
			Holes: []arc.Path{arc.Circle(r2.Vec{X: 120, Y: 100}, 40).Reverse()},
		}}},
		Works: []cut.Work{{
			Slots:   []cut.Slot{{From: r2.Vec{X: 250, Y: -10}, To: r2.Vec{X: 250, Y: 250}, Width: 3.2, Depth: 16}},
			Pockets: []cut.Pocket{{Area: arc.Region{Outer: arc.Circle(r2.Vec{X: 380, Y: 120}, 50)}, Depth: 6}},
			Bevels:  []cut.Bevel{{Edge: arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(500, 0, 0)}}, Angle: 45 * arc.Degree}},
		}},
		Placements: []sheet.Placement{{At: r2.Vec{X: 150, Y: 120}}},
	}
	return job, cut.Options{Tools: cut.Tools(9.525, 3.2, 18)}
}

// Programs of three controllers are written, read back and replayed.
func TestThreeControllers(t *testing.T) {
	job, opt := kerfed(t)
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	require.Len(t, p.Tools, 3)
	for name, o := range dialects() {
		t.Run(name, func(t *testing.T) {
			programs := []cut.Program{p}
			if o.PerTool {
				programs = rs274.Split(p)
				require.Equal(t, 4, len(programs), "cutters 2, 1, 3 and 1 again")
			}
			var moves []cut.Move
			for _, q := range programs {
				text := encoded(t, q, o)
				m, skipped, err := rs274.Read(strings.NewReader(text), o)
				require.NoError(t, err)
				moves = append(moves, m...)
				assert.Len(t, skipped, ownWords(text))
				height(t, text, o)
			}
			opt := opt
			opt.Tolerance = 0.05 + o.PathWithin
			rep, err := cut.Replay(context.Background(), job, moves, opt)
			require.NoError(t, err)
			assert.InDelta(t, -0.2, rep.Lowest, 1e-3)
			assert.InEpsilon(t, p.CutLength, rep.CutLength, 1e-3)
		})
	}
}

// ownWords counts the words that the dialects have ignored, in the text alone.
func ownWords(text string) int {
	return len(regexp.MustCompile(`(?m)\b(O1234|G187|M1[01]|M3[78]|P2$)`).FindAllString(text, -1))
}

// height follows the Z words of a text with nothing but string functions: each
// but those of G53 comes after the length of its cutter is known, and the
// deepest is 0.2 mm in the spoilboard.
func height(t *testing.T, text string, o rs274.Options) {
	t.Helper()
	mm, top := 1.0, o.Measured
	if o.Unit == arc.Inches {
		mm = 25.4
	}
	ready, low, tool, on := false, math.Inf(1), "", false
	for _, line := range strings.Split(text, "\n") {
		if i := strings.IndexAny(line, "(;"); i >= 0 {
			line = line[:i]
		}
		for _, w := range strings.Fields(line) {
			switch {
			case w[0] == 'T':
				tool, ready = w[1:], o.Length == rs274.ByController
			case w == "M0":
				require.False(t, on, line)
				ready = true
			case w == "G43":
				require.Contains(t, strings.Fields(line), "H"+tool)
				require.NotRegexp(t, `[XY]`, line)
				ready = true
			case w == "M3":
				on = true
			case w == "M5":
				on = false
			case w[0] == 'Z' && !strings.Contains(line, "G53"):
				require.True(t, ready, line)
				z, err := strconv.ParseFloat(w[1:], 64)
				require.NoError(t, err)
				low = math.Min(low, z*mm+top)
			}
		}
	}
	require.False(t, on)
	require.Less(t, low, 18.0-5.9)
}

// What a dialect says is in the text, and nothing else is.
func TestDialectsInTheText(t *testing.T) {
	job, opt := kerfed(t)
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	for name, want := range map[string]struct{ has, hasNot []string }{
		"heron": {
			[]string{"%\nO1234\nG187\n; RS-274", "N10 G17 G21 G40 G49 G56 G80 G90 G94 G64 P0.02\nN20 G53 G0 Z0\n", " M6 T2\n", " G4 P4000\n", "G0 G43 H2 Z33\n", "M10 P2\nM8\n; 1: ", " M30\n%\n", " G0 X30 Y570\n", "within 0.02 mm"},
			[]string{"(", "G2 ", "G3 ", "M0\n", "UNPROVED"},
		},
		"lapwing": {
			[]string{"G17 G20 G40 G54 G80 G90 G94 G64\n", "T1\nM6\nM38\n", "G4 P2.5\n", "top of the sheet", "measured 0.72 in", "every web", "controller has to apply", "CORNERS ARE UNPROVED"},
			[]string{"G43", "G49", "%", "M30", "G53"},
		},
		"curlew": {
			[]string{"N2 G53 G0 Z120\n", "T1\n(stop: put in tool 1)\n", "(stop: touch off the spoilboard)\n", " M0\n", "wet on Mondays", "stops after each change", " G61\n"},
			[]string{"G43", "M6", "%", "UNPROVED"},
		},
	} {
		text := encoded(t, p, dialects()[name])
		flat := strings.NewReplacer("\n(", " ", "\n;", "", ")", "").Replace(text)
		for _, s := range want.has {
			assert.True(t, strings.Contains(text, s) || strings.Contains(flat, s), "%s: %q", name, s)
		}
		for _, s := range want.hasNot {
			assert.NotContains(t, regexp.MustCompile(`(?m)^\(.*$|;.*$`).ReplaceAllString(text, "")+flat[:0], s, name)
		}
	}
	assert.Equal(t, ".nc", rs274.Options{}.Ext())
	assert.Equal(t, ".tap", dialects()["curlew"].Ext())
	assert.Equal(t, ".cnc", dialects()["heron"].Ext())
}

// A text of one controller is refused where another reads it.
func TestReadsItsOwnDialectOnly(t *testing.T) {
	job, opt := kerfed(t)
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	all := dialects()
	all["plain"] = rs274.Options{}
	for a, oa := range all {
		text := encoded(t, p, oa)
		for b, ob := range all {
			_, _, err := rs274.Read(strings.NewReader(text), ob)
			if a == b {
				assert.NoError(t, err, a)
			} else {
				assert.Error(t, err, "%s read as %s", a, b)
			}
		}
	}
}

// Each way to leave the length, the stop or the height in doubt is named.
func TestReadChecksLengths(t *testing.T) {
	home := -5.0
	table := rs274.Options{Retract: &home}
	touch := rs274.Options{Length: rs274.TouchOff}
	auto := rs274.Options{Length: rs274.ByController}
	hand := rs274.Options{Change: rs274.ByHand}
	blend := rs274.Options{Path: rs274.Blend, PathWord: "P", PathWithin: 0.05}
	const set, bare, auts = "G17 G21 G40 G49 G54 G80 G90 G94 G61\n", "T1 M6\nS900 M3\n", "G17 G21 G40 G54 G80 G90 G94 G61\n"
	const way = "G0 X0 Y0\nG1 X5 F100\nG0 Z20\nM5\nM2\n"
	for _, c := range []struct {
		o    rs274.Options
		text string
		want error // nil is taken
	}{
		{table, set + bare + "G0 G43 H1 Z20\n" + way, nil},
		{table, set + "G53 G0 Z-5\n" + bare + "G4 P3\nG0 G43 H1 Z20\n" + way, nil},
		{table, set + "G0 Z20\n" + bare + "G0 G43 H1 Z20\n" + way, rs274.ErrLength},
		{table, set + bare + "G0 Z20\n" + way, rs274.ErrLength},
		{table, set + bare + "G0 G43 H2 Z20\n" + way, rs274.ErrLength},
		{table, set + bare + "G0 G43 Z20\n" + way, rs274.ErrLength},
		{table, set + bare + "G43 H1\nG0 Z20\n" + way, rs274.ErrLength},
		{table, set + bare + "G0 G43 H1 X0 Z20\n" + way, rs274.ErrLength},
		{table, set + bare + "G1 G43 H1 Z20 F9\n" + way, rs274.ErrLength},
		{table, set + "G0 G43 H1 Z20\n" + bare + way, rs274.ErrLength},
		{table, set + bare + "G0 X0 Y0\nG0 G43 H1 Z20\n" + way, rs274.ErrModal},
		{table, set + bare + "G0 G43 H1 Z20\nG49\n" + way, rs274.ErrModal},
		{table, set + bare + "G0 G43 H1 Z20\nM5\nT2 M6\nS9 M3\n" + way, rs274.ErrModal},
		{table, set + bare + "G0 G43 H1 Z20\nM5\nT2 M6\nS9 M3\nG0 Z20\n" + way, rs274.ErrLength},
		{table, set + bare + "G0 G43 H1 Z20\nG53 G0 Z-5\n" + way, rs274.ErrModal},
		{table, set + bare + "G53 G0 Z-6\n" + way, rs274.ErrModal},
		{table, set + bare + "G53 G1 Z-5 F9\n" + way, rs274.ErrModal},
		{table, set + bare + "G53 G0 X1 Z-5\n" + way, rs274.ErrModal},
		{table, set + bare + "M5\nM0\n" + way, rs274.ErrCode},
		{table, set + bare + "G4\nG0 G43 H1 Z20\n" + way, rs274.ErrModal},
		{table, set + bare + "G4 P-1\nG0 G43 H1 Z20\n" + way, rs274.ErrModal},
		{table, set + bare + "G0 G43 H1 Z20 P3\n" + way, rs274.ErrCode},
		{rs274.Options{}, set + "G53 G0 Z-5\n" + bare + "G0 G43 H1 Z20\n" + way, rs274.ErrCode},
		{touch, set + "T1 M6\nM5\nM0\nS900 M3\nG0 Z20\n" + way, nil},
		{touch, set + bare + "G0 Z20\n" + way, rs274.ErrLength},
		{touch, set + bare + "M0\nG0 Z20\n" + way, rs274.ErrModal},
		{touch, set + "M0\n" + bare + "G0 Z20\n" + way, rs274.ErrModal},
		{touch, set + "T1 M6\nM0\nS900 M3\nG0 Z20\nM5\nT2 M6\nS900 M3\nG0 Z20\n" + way, rs274.ErrLength},
		{touch, set + "T1 M6\nM0\nS900 M3\nG0 G43 H1 Z20\n" + way, rs274.ErrCode},
		{auto, auts + bare + "G0 Z20\n" + way, nil},
		{auto, auts + "G0 Z20\n" + bare + way, rs274.ErrLength},
		{auto, set + bare + "G0 Z20\n" + way, rs274.ErrCode},
		{hand, set + "T1\nM0\nS900 M3\nG0 G43 H1 Z20\n" + way, nil},
		{hand, set + bare + "G0 G43 H1 Z20\n" + way, rs274.ErrCode},
		{hand, set + "T1\nM0\nS900 M3\nT2\nG0 G43 H2 Z20\n" + way, rs274.ErrLength},
		{blend, strings.Replace(set, "G61", "G64 P0.05", 1) + bare + "G0 G43 H1 Z20\n" + way, nil},
		{blend, strings.Replace(set, "G61", "G64 P0.06", 1) + bare + "G0 G43 H1 Z20\n" + way, rs274.ErrModal},
		{blend, strings.Replace(set, "G61", "G64", 1) + bare + "G0 G43 H1 Z20\n" + way, rs274.ErrModal},
		{table, strings.Replace(set, "G61", "G64", 1) + bare + "G0 G43 H1 Z20\n" + way, rs274.ErrCode},
		{table, strings.Replace(set, "G54", "G55", 1) + bare + "G0 G43 H1 Z20\n" + way, rs274.ErrCode},
		{rs274.Options{Ignore: []string{"M10"}}, set + "M10 X5\n" + bare + "G0 G43 H1 Z20\n" + way, rs274.ErrCode},
		{rs274.Options{Ignore: []string{"M10"}}, set + "M11\n" + bare + "G0 G43 H1 Z20\n" + way, rs274.ErrCode},
		{rs274.Options{Ignore: []string{"M10"}}, set + "M10 Q5\n" + bare + "G0 G43 H1 Z20\n" + way, nil},
	} {
		_, _, err := rs274.Read(strings.NewReader(c.text), c.o)
		if c.want == nil {
			assert.NoError(t, err, c.text)
		} else {
			assert.ErrorIs(t, err, c.want, "%v in %s", err, c.text)
		}
	}
	moves, skipped, err := rs274.Read(strings.NewReader(set+"M10 Q5\n"+bare+"G0 G43 H1 Z20\n"+way), rs274.Options{Ignore: []string{"M10"}})
	require.NoError(t, err)
	assert.Equal(t, []rs274.Skipped{{2, 1, "M10"}, {2, 5, "Q5"}}, skipped)
	assert.NotEmpty(t, moves)
}

// Options that cannot be used are named, by Encode and by Read.
func TestOptionsRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	bad := map[string]rs274.Options{
		"Unit": {Unit: 7}, "Decimals": {Decimals: 2}, "Number": {Number: -1}, "Comment": {Comment: 9}, "WorkOffset": {WorkOffset: 53},
		"Change": {Change: -1}, "Length": {Length: 3}, "Dwell": {Dwell: nan}, "DwellForm": {DwellForm: 5}, "Path": {Path: 2},
		"PathWord": {PathWord: "X"}, "PathWithin": {PathWithin: 0.1}, "Chord": {Chord: 1e-9}, "Retract": {Retract: &nan}, "Park": {Park: &r2.Vec{X: inf}},
		"Measured": {Measured: -18}, "Start[0]": {Start: []string{"G0 X5"}}, "End[0]": {End: []string{"M10"}}, "Ignore": {Ignore: []string{"G28"}},
		"BeforeChange[1]": {BeforeChange: []string{"M8", "(open"}}, "AfterChange[0]": {AfterChange: []string{"a\nb"}},
		"BeforeOperation[0]": {BeforeOperation: []string{"M3"}}, "AfterOperation[0]": {AfterOperation: []string{strings.Repeat("M8 ", 40)}},
		"Extension": {Extension: "../nc"},
	}
	for name, o := range bad {
		for _, err := range []error{rs274.Encode(new(strings.Builder), cut.Program{}, o), second(rs274.Read(strings.NewReader(""), o)), o.Check()} {
			var e *rs274.ParamError
			if assert.ErrorAs(t, err, &e, name) {
				assert.Equal(t, "opt."+name, e.Param)
				assert.NotEmpty(t, e.Need)
			}
		}
	}
	for _, v := range []float64{nan, inf, -inf, -1, 1e300, 5e-324} {
		for _, o := range []rs274.Options{{Dwell: v}, {Chord: v}, {Measured: v}, {PathWithin: v, Path: rs274.Blend, PathWord: "P"}} {
			assert.Error(t, o.Check(), "%v", v)
		}
	}
	for _, c := range []string{"", "G0", "G28", "G92", "G91", "G43", "M3", "M0", "M98", "X", "Z", "F", "M", "G-1", "g187", "G187.25", "M010", "G9999999"} {
		assert.Error(t, rs274.Options{Ignore: []string{c}}.Check(), c)
	}
	for _, c := range []string{"O", "M10", "G187", "G5.1", "M3001"} {
		assert.NoError(t, rs274.Options{Ignore: []string{c}}.Check(), c)
	}
	p := cut.Program{Thickness: 18}
	assert.Error(t, rs274.Encode(new(strings.Builder), p, rs274.Options{Measured: 12}))
}

func second(_ []cut.Move, _ []rs274.Skipped, err error) error { return err }
