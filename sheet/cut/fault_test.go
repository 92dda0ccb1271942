package cut_test

import (
	"bytes"
	"context"
	"regexp"
	"strings"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// In these the program is that of another job or another shop, and the replay
// has to tell it from the one asked.
var wrongPlans = []struct {
	name string
	do   func(*cut.Job, *cut.Options)
	want cut.FaultKind
	at   string // feature
}{
	{"kerf 0.15 mm aside", func(j *cut.Job, _ *cut.Options) { j.Works[0].Slots[2].From.Y += 0.15; j.Works[0].Slots[2].To.Y += 0.15 }, cut.Gouge, "slot 3"},
	{"kerf aside, what is missing", func(j *cut.Job, _ *cut.Options) { j.Works[0].Slots[2].From.Y += 0.15; j.Works[0].Slots[2].To.Y += 0.15 }, cut.Uncut, "slot 3"},
	{"kerf askew", func(j *cut.Job, _ *cut.Options) { j.Works[0].Slots[0].To.Y += 0.3 }, cut.Gouge, "slot 1"},
	{"kerf 0.1 mm deeper", func(j *cut.Job, _ *cut.Options) { j.Works[0].Slots[1].Depth += 0.1 }, cut.Gouge, "slot 2"},
	{"kerf 0.1 mm shallower", func(j *cut.Job, _ *cut.Options) { j.Works[0].Slots[1].Depth -= 0.1 }, cut.Uncut, "slot 2"},
	{"kerf dropped", func(j *cut.Job, _ *cut.Options) { j.Works[0].Slots = j.Works[0].Slots[:5] }, cut.Uncut, "slot 6"},
	{"kerf too short", func(j *cut.Job, _ *cut.Options) { j.Works[0].Slots[4].To.X -= 8 }, cut.Uncut, "slot 5"},
	{"a kerf too many", func(j *cut.Job, _ *cut.Options) {
		j.Works[0].Slots = append(j.Works[0].Slots, cut.Slot{From: r2.Vec{Y: 190}, To: r2.Vec{X: 300, Y: 190}, Width: 3.2, Depth: 2})
	}, cut.Gouge, "face"},
	{"pocket deeper", func(j *cut.Job, _ *cut.Options) { j.Works[1].Pockets[0].Depth = 9.2 }, cut.Gouge, "pocket 1"},
	{"pocket shallower", func(j *cut.Job, _ *cut.Options) { j.Works[1].Pockets[0].Depth = 8.8 }, cut.Uncut, "pocket 1"},
	{"pocket dropped", func(j *cut.Job, _ *cut.Options) { j.Works[1].Pockets = nil }, cut.Uncut, "pocket 1"},
	{"pocket wider", func(j *cut.Job, _ *cut.Options) {
		j.Works[1].Pockets[0].Area.Outer = arc.Rect(-4.7625, -4.7625, 12.2, 244.7625)
	}, cut.Gouge, "pocket 1"},
	{"opening dropped", func(j *cut.Job, _ *cut.Options) { j.Parts[1].Outline.Holes = nil }, cut.Uncut, "opening 1"},
	{"opening 0.2 mm aside", func(j *cut.Job, _ *cut.Options) {
		j.Parts[1].Outline.Holes = []arc.Path{arc.Circle(r2.Vec{X: 100.2, Y: 120}, 45).Reverse()}
	}, cut.Gouge, "opening 1"},
	{"opening 0.2 mm small", func(j *cut.Job, _ *cut.Options) {
		j.Parts[1].Outline.Holes = []arc.Path{arc.Circle(r2.Vec{X: 100, Y: 120}, 44.8).Reverse()}
	}, cut.Uncut, "opening 1"},
	{"bevel dropped", func(j *cut.Job, _ *cut.Options) { j.Works[2].Bevels = nil }, cut.Uncut, "bevel 1"},
	{"bevel on the other side", func(j *cut.Job, _ *cut.Options) {
		j.Works[2].Bevels[0].Edge = arc.Polyline(r2.Vec{X: 300, Y: 120}, r2.Vec{X: 0, Y: 120})
	}, cut.Gouge, "face"},
	{"bevel 0.2 mm in", func(j *cut.Job, _ *cut.Options) {
		j.Works[2].Bevels[0].Edge = arc.Polyline(r2.Vec{Y: 0.2}, r2.Vec{X: 300, Y: 0.2})
	}, cut.Gouge, "bevel 1"},
	{"bevel 0.2 mm out", func(j *cut.Job, _ *cut.Options) {
		j.Works[2].Bevels[0].Edge = arc.Polyline(r2.Vec{Y: -0.2}, r2.Vec{X: 300, Y: -0.2})
	}, cut.Uncut, "bevel 1"},
	{"bevel too short", func(j *cut.Job, _ *cut.Options) {
		j.Works[2].Bevels[0].Edge = arc.Polyline(r2.Vec{}, r2.Vec{X: 297})
	}, cut.Uncut, "bevel 1"},
	{"outline 0.2 mm large", func(j *cut.Job, _ *cut.Options) { j.Parts[0].Outline.Outer = arc.Rect(0, 0, 300.2, 200) }, cut.Uncut, "outline"},
	{"outline 0.2 mm small", func(j *cut.Job, _ *cut.Options) { j.Parts[0].Outline.Outer = arc.Rect(0.2, 0, 300, 200) }, cut.Gouge, "outline"},
	{"outline on the wrong side", func(j *cut.Job, _ *cut.Options) {
		j.Parts[0].Outline.Outer = arc.Rect(9.525, 9.525, 300-9.525, 200-9.525)
	}, cut.Gouge, "outline"},
	{"outline not through", func(j *cut.Job, o *cut.Options) {
		j.Stock.Thickness, j.Parts[0].Thickness, j.Parts[1].Thickness, j.Parts[2].Thickness = 18.5, 18.5, 18.5, 18.5
		raise(j, 0.5)
	}, cut.Uncut, "outline"},
	{"arc the other way", func(j *cut.Job, _ *cut.Options) { j.Parts[1].Outline.Outer.V[2].K = 0.2 }, cut.Uncut, "outline"},
	{"arc the other way, of the bow", func(j *cut.Job, _ *cut.Options) { j.Parts[1].Outline.Outer.V[2].K = -0.3 }, cut.Gouge, "outline"},
	{"part not mirrored", func(j *cut.Job, _ *cut.Options) {
		j.Placements[1].Mirror = false
		j.Placements[1].At.X -= 260
	}, cut.Gouge, "face"},
	{"part turned by 180 degrees", func(j *cut.Job, _ *cut.Options) {
		j.Placements[3].Rotate = 180 * arc.Degree
		j.Placements[3].At = r2.Add(j.Placements[3].At, r2.Vec{X: 300, Y: 120})
	}, cut.Gouge, "face"},
	{"no tabs", func(_ *cut.Job, o *cut.Options) { o.Hold = cut.ByVacuum }, cut.Loose, "part"},
	{"tabs too high", func(_ *cut.Job, o *cut.Options) { o.TabHeight = 5 }, cut.Uncut, "outline"},
	{"tabs too wide", func(_ *cut.Job, o *cut.Options) { o.TabWidth = 30 }, cut.Uncut, "outline"},
	{"too deep into the spoilboard", func(_ *cut.Job, o *cut.Options) { o.Through = 1 }, cut.Spoilboard, ""},
	{"passes too deep", func(_ *cut.Job, o *cut.Options) { o.Tools[1].Step = 6 }, cut.DeepPass, "slot 1"},
	{"another cutter than the list says", func(_ *cut.Job, o *cut.Options) { o.Tools[0].Diameter = 9 }, cut.Gouge, "outline"},
	{"a thinner cutter than the list says", func(_ *cut.Job, o *cut.Options) { o.Tools[1].Diameter = 3 }, cut.Gouge, "slot 1"},
	{"a cutter of an unknown number", func(_ *cut.Job, o *cut.Options) { o.Tools[1].Number = 9 }, cut.UnknownTool, ""},
}

// raise makes all depths of a job less by d, so that floors keep their height.
func raise(j *cut.Job, d float64) {
	for i := range j.Works {
		for k := range j.Works[i].Slots {
			j.Works[i].Slots[k].Depth -= d
		}
		for k := range j.Works[i].Pockets {
			j.Works[i].Pockets[k].Depth -= d
		}
	}
}

func TestReplayTellsWrongPlans(t *testing.T) {
	for i, c := range wrongPlans {
		if testing.Short() && i%4 > 0 {
			continue
		}
		t.Run(c.name, func(t *testing.T) {
			wrong, shop := workshop()
			c.do(&wrong, &shop)
			program := text(t, wrong, shop)
			if c.name == "outline not through" {
				// The sheet's top is lower, and so are the passes; z = 0.5 is
				// where the last one ends.
				program = strings.ReplaceAll(program, "Z-0.2", "Z0.3")
			}
			job, opt := workshop()
			rep := replay(t, job, opt, program)
			requireFault(t, rep, c.want, c.at)
		})
	}
}

func requireFault(t *testing.T, rep cut.Report, kind cut.FaultKind, feature string) {
	t.Helper()
	for _, f := range rep.Faults {
		if f.Kind == kind && f.Feature == feature {
			return
		}
	}
	require.Failf(t, "not seen", "want %v at %q, got %v", kind, feature, rep.Faults)
}

// In these the text is damaged.
var wrongTexts = []struct {
	name string
	do   func(string) string
	want cut.FaultKind
}{
	{"first travel low", func(s string) string { return strings.Replace(s, "G0 Z21", "G0 Z18", 1) }, cut.LowTravel},
	{"a cut made at rapid", func(s string) string { return strings.Replace(s, "G1 X321.6", "G0 X321.6", 1) }, cut.LowTravel},
	{"no retract between cuts", func(s string) string { return nth(s, `(?m)^G0 Z34\n`, 4, "") }, cut.LowTravel},
	{"spindle stopped", func(s string) string { return strings.Replace(s, "(1:", "M5\n(1:", 1) }, cut.SpindleOff},
	{"cutters swapped", func(s string) string {
		return strings.NewReplacer("T1 M6", "T2 M6", "T2 M6", "T1 M6", "G43 H1", "G43 H2", "G43 H2", "G43 H1").Replace(s)
	}, cut.Gouge},
	{"tool changed low", func(s string) string { return nth(s, `(?m)^G0 Z34\nM5\nT`, 0, "G0 Z20\nM5\nT") }, cut.LowChange},
	{"ends low", func(s string) string { return strings.Replace(s, "G0 Z34\nM5\nM2", "G0 Z20.5\nM5\nM2", 1) }, cut.LowChange},
	{"kerf pass missing", func(s string) string { return drop(s, "Z7.4", "Z7.4") }, cut.DeepPass},
	{"last kerf pass missing", func(s string) string { return strings.ReplaceAll(s, "Z1.6", "Z4.5") }, cut.Uncut},
	{"last outline pass missing", func(s string) string { return strings.ReplaceAll(s, "Z-0.2", "Z9.4") }, cut.Uncut},
	{"one decimal point lost", func(s string) string { return strings.Replace(s, "X321.6", "X3216", 1) }, cut.OffSheet},
	{"decimal point lost, travel", func(s string) string { return strings.Replace(s, "X321.6", "X3216", 1) }, cut.OffTravel},
	{"sign lost", func(s string) string { return strings.ReplaceAll(s, "Z-0.2", "Z0.2") }, cut.Uncut},
	{"cuts below the table", func(s string) string { return strings.Replace(s, "Z1.6", "Z-1.6", 1) }, cut.Spoilboard},
	{"all 1 mm aside", func(s string) string { return shiftX(s, 1) }, cut.Gouge},
	{"all 0.1 mm aside", func(s string) string { return shiftX(s, 0.1) }, cut.Gouge},
	{"arcs made straight", func(s string) string {
		return regexp.MustCompile(`(?m)^G[23]( X\S+ Y\S+(?: Z\S+)?) I\S+ J\S+`).ReplaceAllString(s, "G1$1")
	}, cut.Gouge},
}

func nth(s, pattern string, n int, with string) string {
	loc := regexp.MustCompile(pattern).FindAllStringIndex(s, -1)
	return s[:loc[n][0]] + with + s[loc[n][1]:]
}

// drop removes the lines from the first that holds a word to the line before
// the next ramp.
func drop(s, from, _ string) string {
	lines := strings.Split(s, "\n")
	for i, l := range lines {
		if strings.Contains(l, from) {
			return strings.Join(append(lines[:i:i], lines[i+3:]...), "\n")
		}
	}
	return s
}

var xWord = regexp.MustCompile(`(?m)^(G\d[^(\n]*?) X(-?[\d.]+)`)

func shiftX(s string, by float64) string {
	return xWord.ReplaceAllStringFunc(s, func(m string) string {
		p := xWord.FindStringSubmatch(m)
		return p[1] + " X" + decimal(number(p[2])+by)
	})
}

func TestReplayTellsDamagedTexts(t *testing.T) {
	job, opt := workshop()
	good := text(t, job, opt)
	for _, c := range wrongTexts {
		t.Run(c.name, func(t *testing.T) {
			bad := c.do(good)
			require.NotEqual(t, good, bad)
			rep := replay(t, job, opt, bad)
			require.True(t, rep.Faults.Has(c.want), "want %v, got %v", c.want, rep.Faults)
		})
	}
}

// An arc with a wrong sign in I or J is stopped by the reader, since its radii
// no longer agree, or else by the replay.
func TestEveryWrongCenterIsTold(t *testing.T) {
	job, opt := workshop()
	good := text(t, job, opt)
	re := regexp.MustCompile(`([IJ])(-?)(\d\S*)`)
	for i, loc := range re.FindAllStringSubmatchIndex(good, -1) {
		if !full() && i%3 > 0 || testing.Short() && i%12 > 0 {
			continue
		}
		if good[loc[6]:loc[7]] == "0" || strings.Contains(good[strings.LastIndexByte(good[:loc[0]], '\n')+1:loc[0]], "(") {
			continue
		}
		sign := "-"
		if loc[4] != loc[5] {
			sign = ""
		}
		bad := good[:loc[4]] + sign + good[loc[6]:]
		moves, _, err := rs274.Read(strings.NewReader(bad), rs274.Options{})
		if err != nil {
			require.ErrorIs(t, err, rs274.ErrArc)
			continue
		}
		_, err = cut.Replay(context.Background(), job, moves, opt)
		require.ErrorIs(t, err, cut.ErrFaulty)
	}
}

func TestReplayKeepsOffClamps(t *testing.T) {
	job, opt := workshop()
	program := text(t, job, opt)
	job.Stock.Forbidden = []arc.Region{{Outer: arc.Rect(330, 200, 340, 210)}}
	require.Empty(t, replay(t, job, opt, program).Faults)
	job.Stock.Forbidden = []arc.Region{{Outer: arc.Rect(322, 100, 340, 110)}}
	require.True(t, replay(t, job, opt, program).Faults.Has(cut.Clamped))
}

func TestReplayOfAnIrregularSheet(t *testing.T) {
	job, opt := workshop()
	program := text(t, job, opt)
	job.Stock.Outline = arc.Region{Outer: arc.Rect(-5, -5, 705, 605)}
	require.Empty(t, replay(t, job, opt, program).Faults)
	job.Stock.Outline = arc.Region{Outer: arc.Polygon(r2.Vec{}, r2.Vec{X: 700}, r2.Vec{X: 700, Y: 600}, r2.Vec{X: 100, Y: 600}, r2.Vec{Y: 300})}
	require.True(t, replay(t, job, opt, program).Faults.Has(cut.OffSheet))
}

// A part that lies too near another is gouged by the other's outline.
func TestReplayTellsNeighborsTooNear(t *testing.T) {
	job, opt := workshop()
	job.Placements = []sheet.Placement{{At: r2.Vec{X: 20, Y: 20}}, {Part: 2, At: r2.Vec{X: 328, Y: 20}}}
	rep := replay(t, job, opt, text(t, job, opt))
	requireFault(t, rep, cut.Gouge, "outline")
	job.Placements[1].At.X = 20 + 300 + cut.Clearance(job, opt)
	rep = replay(t, job, opt, text(t, job, opt))
	require.Empty(t, rep.Faults)
}

func TestReplayOfNothing(t *testing.T) {
	job, opt := workshop()
	rep, err := cut.Replay(context.Background(), job, nil, opt)
	require.ErrorIs(t, err, cut.ErrFaulty)
	require.True(t, rep.Faults.Has(cut.Uncut))
	var b bytes.Buffer
	job.Placements = nil
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	require.NoError(t, rs274.Encode(&b, p, rs274.Options{}))
	moves, _, err := rs274.Read(&b, rs274.Options{})
	require.NoError(t, err)
	_, err = cut.Replay(context.Background(), job, moves, opt)
	require.NoError(t, err)
}
