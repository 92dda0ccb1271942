package cut_test

import (
	"bytes"
	"context"
	"os"
	"strconv"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// full reports whether long sweeps are to run whole.
func full() bool { return os.Getenv("SAGITTA_FULL") != "" }

// workshop is a small sheet with everything on it: a kerfed panel, a panel with
// a rabbet and a round opening, laid mirrored and turned, and one with a bevel.
func workshop() (cut.Job, cut.Options) {
	const t = 19
	kerfed := sheet.Part{Name: "sweep", Thickness: t, Outline: arc.Region{Outer: arc.Rect(0, 0, 300, 200)}}
	var kerfs cut.Work
	for i := range 6 {
		y := 20 + 32*float64(i)
		kerfs.Slots = append(kerfs.Slots, cut.Slot{From: r2.Vec{X: -1.6, Y: y}, To: r2.Vec{X: 301.6, Y: y}, Width: 3.2, Depth: 17.4})
	}
	back := sheet.Part{Name: "cheek", Thickness: t, Outline: arc.Region{
		Outer: arc.Path{Closed: true, V: []arc.Vertex{arc.V(0, 0, 0), arc.V(260, 0, 0), arc.V(260, 80, -0.2), arc.V(180, 240, 0), arc.V(0, 240, 0)}},
		Holes: []arc.Path{arc.Circle(r2.Vec{X: 100, Y: 120}, 45).Reverse()},
	}}
	rabbet := cut.Work{Pockets: []cut.Pocket{{Area: arc.Region{Outer: arc.Rect(-4.7625, -4.7625, 12, 244.7625)}, Depth: 9}}}
	beveled := sheet.Part{Name: "skirt", Thickness: t, Outline: arc.Region{Outer: arc.Rect(0, 0, 300, 120)}}
	bevel := cut.Work{
		Slots: []cut.Slot{{From: r2.Vec{X: -6, Y: 70}, To: r2.Vec{X: 306, Y: 70}, Width: 12, Depth: 6}},
		Bevels: []cut.Bevel{
			{Edge: arc.Polyline(r2.Vec{X: 0, Y: 0}, r2.Vec{X: 300, Y: 0}), Angle: 45 * arc.Degree},
			{Edge: arc.Polyline(r2.Vec{X: 300, Y: 120}, r2.Vec{X: 0, Y: 120}), Angle: 11 * arc.Degree},
		},
	}
	job := cut.Job{
		Title: "Workshop test", Stock: sheet.Stock{Material: "mdf", Thickness: t, Length: 700, Width: 600},
		Parts: []sheet.Part{kerfed, back, beveled}, Works: []cut.Work{kerfs, rabbet, bevel},
		Placements: []sheet.Placement{
			{Part: 0, At: r2.Vec{X: 20, Y: 20}},
			{Part: 1, At: r2.Vec{X: 660, Y: 20}, Mirror: true},
			{Part: 1, Copy: 1, At: r2.Vec{X: 660, Y: 300}, Rotate: 90 * arc.Degree},
			{Part: 2, At: r2.Vec{X: 20, Y: 260}},
		},
	}
	return job, cut.Options{Tools: cut.Tools(9.525, 3.2, t)}
}

// text returns the program of a job as text.
func text(t testing.TB, job cut.Job, opt cut.Options) string {
	t.Helper()
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, rs274.Encode(&b, p, rs274.Options{}))
	return b.String()
}

// replay reads a text and replays it.
func replay(t testing.TB, job cut.Job, opt cut.Options, text string) cut.Report {
	t.Helper()
	moves, _, err := rs274.Read(bytes.NewReader([]byte(text)), rs274.Options{})
	require.NoError(t, err)
	rep, err := cut.Replay(context.Background(), job, moves, opt)
	if len(rep.Faults) == 0 {
		require.NoError(t, err)
	} else {
		require.ErrorIs(t, err, cut.ErrFaulty)
	}
	return rep
}

func TestProgramMakesTheParts(t *testing.T) {
	job, opt := workshop()
	rep := replay(t, job, opt, text(t, job, opt))
	require.Empty(t, rep.Faults, rep.Faults.Error())
	require.Greater(t, rep.Tabs, 7)
	t.Logf("%+v", rep)
}

func BenchmarkReplay(b *testing.B) {
	job, opt := workshop()
	moves, _, err := rs274.Read(bytes.NewReader([]byte(text(b, job, opt))), rs274.Options{})
	require.NoError(b, err)
	for b.Loop() {
		if _, err := cut.Replay(context.Background(), job, moves, opt); err != nil {
			b.Fatal(err)
		}
	}
}

func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic(err)
	}
	return v
}

func decimal(v float64) string { return strconv.FormatFloat(v, 'f', 4, 64) }
