package rs274_test

import (
	"bytes"
	"context"
	"errors"
	"math"
	"regexp"
	"strings"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// panel is a program with lines, flat and round arcs, a pocket and tabs.
func panel(t testing.TB) cut.Program {
	t.Helper()
	job := cut.Job{
		Title: "Panel (test) × [1]; 100 %",
		Stock: sheet.Stock{Material: "mdf", Thickness: 18, Length: 900, Width: 600},
		Parts: []sheet.Part{{Name: "panel", Thickness: 18, Outline: arc.Region{
			Outer: arc.Path{Closed: true, V: []arc.Vertex{arc.V(0, 0, 0), arc.V(500, 0, 0.0001), arc.V(500, 300, -0.3), arc.V(0, 300, 0)}},
			Holes: []arc.Path{arc.Circle(r2.Vec{X: 200, Y: 100}, 40).Reverse()},
		}}},
		Works:      []cut.Work{{Pockets: []cut.Pocket{{Area: arc.Region{Outer: arc.Rect(300, 50, 400, 120)}, Depth: 6}}}},
		Placements: []sheet.Placement{{At: r2.Vec{X: 120.123456, Y: 100.98765}, Rotate: 7 * arc.Degree}},
	}
	p, err := cut.Plan(context.Background(), job, cut.Options{Tools: cut.Tools(10, 0, 18)})
	require.NoError(t, err)
	return p
}

func encoded(t testing.TB, p cut.Program, o rs274.Options) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, rs274.Encode(&b, p, o))
	return b.String()
}

// The rules of NISTIR 6556 that a text has to keep, looked for in the text
// itself.
func TestTextKeepsTheStandard(t *testing.T) {
	for _, unit := range []arc.Unit{arc.Millimeters, arc.Inches} {
		s := encoded(t, panel(t), rs274.Options{Unit: unit, Cautions: []string{strings.Repeat("long word ", 30)}})
		word := regexp.MustCompile(`^[A-Z]-?\d+(\.\d+)?$`)
		moving, speed, height := false, false, false
		for i, line := range strings.Split(strings.TrimSuffix(s, "\n"), "\n") {
			require.LessOrEqual(t, len(line), 80)
			if strings.HasPrefix(line, "(") {
				require.Equal(t, len(line)-1, strings.IndexByte(line, ')'), line)
				require.Equal(t, 0, strings.LastIndexByte(line, '('), line)
				continue
			}
			seen := map[byte]bool{}
			for _, w := range strings.Fields(line) {
				require.Regexp(t, word, w, "line %d", i+1)
				if c := w[0]; c != 'G' && c != 'M' {
					require.False(t, seen[c], line)
					seen[c] = true
				}
			}
			if !moving {
				require.Equal(t, map[arc.Unit]string{arc.Millimeters: "G17 G21 G40 G49 G54 G80 G90 G94 G61", arc.Inches: "G17 G20 G40 G49 G54 G80 G90 G94 G61"}[unit], line)
			}
			moving = true // no line of code comes before the modes
			if strings.ContainsAny(line, "XYZ") {
				height = height || strings.HasPrefix(line, "G0 G43 H")
				require.True(t, height, "Z, X or Y before a length: %s", line)
			}
			speed = speed || strings.HasSuffix(line, "M3")
			if strings.HasPrefix(line, "G1 ") || strings.HasPrefix(line, "G2 ") || strings.HasPrefix(line, "G3 ") {
				require.True(t, speed, "cut before the spindle runs: %s", line)
			}
			require.NotContains(t, line, "R")
		}
		require.True(t, strings.HasSuffix(s, "M5\nM2\n"))
		for _, want := range []string{"RS-274/NGC", "in air", "dust", "machine maker", "heavy", "Panel <test> x <1>, 100 ,"} {
			require.Contains(t, s, want)
		}
		require.NotContains(t, s, "ISO")
	}
}

// What is read back is what was written, to the last digit printed.
func TestReadBack(t *testing.T) {
	p := panel(t)
	for _, unit := range []arc.Unit{arc.Millimeters, arc.Inches} {
		moves, _, err := rs274.Read(strings.NewReader(encoded(t, p, rs274.Options{Unit: unit})), rs274.Options{Unit: unit})
		require.NoError(t, err)
		const digit = 0.5e-5*arc.Inch + 1e-9 // the coarser of the two
		length, area := totals(moves)
		wantLength, wantArea := totals(p.Moves())
		require.InDelta(t, wantLength, length, 0.05)
		require.InDelta(t, wantArea, area, 1)
		// Every place the plan goes to is met, in sequence.
		i := 0
		for _, m := range p.Moves() {
			for i < len(moves) && r3.Norm(r3.Sub(moves[i].To, m.To)) > 2*digit {
				i++
			}
			require.Less(t, i, len(moves), "%v", m.To)
			require.Equal(t, m.Tool, moves[i].Tool)
			if !m.Rapid && m.K != 0 {
				require.InDelta(t, m.Feed, moves[i].Feed, 0.2)
			}
		}
	}
}

// totals returns the length of all feed moves and the signed area they sweep about the origin.
func totals(moves []cut.Move) (length, area float64) {
	for _, m := range moves {
		if m.Rapid {
			continue
		}
		length += m.Length()
		s := arc.Segment{A: r2.Vec{X: m.From.X, Y: m.From.Y}, B: r2.Vec{X: m.To.X, Y: m.To.Y}, K: m.K}
		area += r2.Cross(s.A, s.B)/2 + arc.Path{V: []arc.Vertex{{P: s.A, K: s.K}, {P: s.B}}, Closed: true}.Area()
	}
	return length, area
}

// head and tail make a program of a few lines.
const head = "G17 G21 G40 G49 G54 G80 G90 G94 G61\nT1 M6\nS9000 M3\nG0 G43 H1 Z20\nG0 X0 Y0\n"

func TestReadArcs(t *testing.T) {
	for _, c := range []struct {
		line string
		turn float64 // degrees, all moves
		n    int
	}{
		{"G3 X10 Y10 I0 J10 F100", 90, 1},
		{"G2 X10 Y10 I10 J0 F100", -90, 1},
		{"G2 X10 Y10 I0 J10 F100", -270, 2},
		{"G3 X0 Y0 I10 J0 F100", 360, 2}, // end = start is a full circle, §3.5.3.2
		{"G2 X0 I10 F100", -360, 2},
		{"g3x2 0y0i1 0j0f100", 180, 1},
		{"N12 G03 X20. I10.0 F100 (half)", 180, 1},
	} {
		moves, _, err := rs274.Read(strings.NewReader(head+c.line+"\nM2\n"), rs274.Options{})
		require.NoError(t, err, c.line)
		var turn arc.Angle
		n := 0
		for _, m := range moves {
			if !m.Rapid {
				turn += arc.Segment{K: m.K}.Angle()
				n++
			}
		}
		require.InDelta(t, c.turn, turn.Degrees(), 1e-9, c.line)
		require.Equal(t, c.n, n, c.line)
	}
}

func TestReadRefuses(t *testing.T) {
	for _, c := range []struct {
		text string
		want error
	}{
		{"", rs274.ErrModal},
		{head, rs274.ErrModal},                                  // no end
		{head + "G1 X1\nM2", rs274.ErrModal},                    // no feed
		{head + "G1 F100\nM2", rs274.ErrModal},                  // no axis
		{head + "G2 X1 F100\nM2", rs274.ErrArc},                 // no center
		{head + "G2 X0 Y0 I0 J0 F100\nM2", rs274.ErrArc},        // no radius
		{head + "G2 X1 R5 F100\nM2", rs274.ErrCode},             // by radius
		{head + "G2 X10 Y10 I0 J10.003 F100\nM2", rs274.ErrArc}, // 0.003 mm between the radii
		{head + "G1 X1 X2 F100\nM2", rs274.ErrSyntax},           // a letter twice
		{head + "G1 G0 X1 F100\nM2", rs274.ErrModal},            // two of a group
		{head + "G1 X1e3 F100\nM2", rs274.ErrCode},              // exponent, read as a word E
		{head + "G1 X#1 F100\nM2", rs274.ErrSyntax},             // parameter
		{head + "G1 X[1] F100\nM2", rs274.ErrSyntax},            // expression
		{head + "G1 X1..2 F100\nM2", rs274.ErrSyntax},           // two points
		{head + "G1 X- F100\nM2", rs274.ErrSyntax},              // no digit
		{head + "G1 X1 F0\nM2", rs274.ErrModal},                 // feed 0
		{head + "/G1 X1 F10\nM2", rs274.ErrSyntax},              // may be skipped
		{head + "G1 X1 F10 ; end\nM2", rs274.ErrSyntax},         // no comment of the standard
		{head + "(open\nM2", rs274.ErrSyntax},                   // comment not closed
		{head + "(a (b))\nM2", rs274.ErrSyntax},                 // nested
		{head + "G91\nM2", rs274.ErrCode},                       // relative
		{head + "G41 D1\nM2", rs274.ErrCode},                    // compensation
		{head + "G20\nM2", rs274.ErrModal},                      // another unit
		{head + "T2 M6\nM2", rs274.ErrModal},                    // changed with the spindle on
		{head + "M2\nG0 X1", rs274.ErrSyntax},                   // after the end
		{head + "N123456 G0 X1\nM2", rs274.ErrSyntax},           // six digits
		{head + "G0 X1 N5\nM2", rs274.ErrSyntax},                // N not first
		{head + "X 1 2" + strings.Repeat(" ", 260) + "\nM2", rs274.ErrSyntax},
		{strings.Replace(head, "G21 ", "", 1) + "M2", rs274.ErrModal},
		{strings.Replace(head, "G90 ", "", 1) + "M2", rs274.ErrModal},
		{strings.Replace(head, "G0 G43 H1 Z20\n", "", 1) + "M2", rs274.ErrModal}, // z not known
		{strings.Replace(head, "T1 M6\n", "", 1) + "M2", rs274.ErrModal},         // no tool
		{strings.Replace(head, "S9000 ", "", 1) + "M2", rs274.ErrModal},          // no speed
		{strings.Replace(head, "T1 M6", "M6", 1) + "M2", rs274.ErrModal},
		{"%\n%\n", rs274.ErrModal},
	} {
		_, _, err := rs274.Read(strings.NewReader(c.text), rs274.Options{})
		require.ErrorIs(t, err, c.want, c.text)
		var e *rs274.SyntaxError
		require.ErrorAs(t, err, &e)
		require.Positive(t, e.Line)
		require.NotEmpty(t, e.Need)
	}
}

func TestReadPercentAndModes(t *testing.T) {
	moves, _, err := rs274.Read(strings.NewReader("%\n"+head+"G1 X10 F200\nY5\n\n(pause)\nM9\nG0 Z20\nM5\nM30\n%\n\n"), rs274.Options{})
	require.NoError(t, err)
	var at []r3.Vec
	for _, m := range moves {
		if !m.Rapid {
			at = append(at, m.To)
			require.Equal(t, 200.0, m.Feed)
			require.Equal(t, 9000.0, m.Speed)
		}
	}
	require.Equal(t, []r3.Vec{{X: 10, Z: 20}, {X: 10, Y: 5, Z: 20}}, at)
}

type broken struct{}

func (broken) Read([]byte) (int, error)  { return 0, errors.New("broken") }
func (broken) Write([]byte) (int, error) { return 0, errors.New("broken") }

func TestFaultsOfTheStream(t *testing.T) {
	_, _, err := rs274.Read(broken{}, rs274.Options{})
	require.EqualError(t, err, "broken")
	require.EqualError(t, rs274.Encode(broken{}, panel(t), rs274.Options{}), "broken")
}

func TestEncodeRefuses(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300} {
		for name, do := range map[string]func(*cut.Program){
			"x":    func(p *cut.Program) { p.Operations[0].Moves[3].To.X = v },
			"turn": func(p *cut.Program) { p.Operations[1].Moves[3].K = v; p.Operations[1].Moves[3].Rapid = false },
			"safe": func(p *cut.Program) { p.Safe = v },
			"feed": func(p *cut.Program) { p.Operations[0].Moves[2].Feed = v },
		} {
			p := panel(t)
			do(&p)
			var b bytes.Buffer
			var e *rs274.ParamError
			require.ErrorAs(t, rs274.Encode(&b, p, rs274.Options{}), &e, "%s %v", name, v)
			require.Zero(t, b.Len())
		}
	}
	for name, do := range map[string]func(*cut.Program){
		"tool":  func(p *cut.Program) { p.Operations[0].Tool = 0 },
		"speed": func(p *cut.Program) { p.Operations[0].Moves[0].Speed = 0 },
		"feed":  func(p *cut.Program) { p.Operations[0].Moves[2].Feed = 0 },
	} {
		p := panel(t)
		do(&p)
		require.Error(t, rs274.Encode(new(bytes.Buffer), p, rs274.Options{}), name)
	}
	require.NoError(t, rs274.Encode(new(bytes.Buffer), cut.Program{}, rs274.Options{}))
}

// Any arc that is written is read back within the last digit, radius and
// sense kept.
func TestArcsKeepTheirShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string) float64 { return rapid.Float64Range(-1000, 1000).Draw(t, name) }
		a := r3.Vec{X: v("ax"), Y: v("ay"), Z: 5}
		chord, dir := rapid.Float64Range(0.001, 2000).Draw(t, "chord"), rapid.Float64Range(0, 6.28).Draw(t, "dir")
		b := r3.Vec{X: a.X + chord*math.Cos(dir), Y: a.Y + chord*math.Sin(dir), Z: 3}
		k := rapid.Float64Range(0.0001, 2).Draw(t, "k")
		if rapid.Bool().Draw(t, "right") {
			k = -k
		}
		over := a
		over.Z = 30
		m := []cut.Move{
			{To: over, Rapid: true, Tool: 1, Speed: 9000},
			{From: over, To: a, Feed: 500, Tool: 1, Speed: 9000},
			{From: a, To: b, K: k, Feed: 500, Tool: 1, Speed: 9000},
		}
		p := cut.Program{Safe: 30, Tools: []cut.Tool{{Number: 1, Diameter: 6}}, Operations: []cut.Operation{{Tool: 1, Moves: m}}}
		unit := arc.Unit(rapid.IntRange(0, 1).Draw(t, "unit"))
		var text bytes.Buffer
		require.NoError(t, rs274.Encode(&text, p, rs274.Options{Unit: unit}))
		moves, _, err := rs274.Read(&text, rs274.Options{})
		require.NoError(t, err)
		want := arc.Segment{A: r2.Vec{X: a.X, Y: a.Y}, B: r2.Vec{X: b.X, Y: b.Y}, K: k}
		length, mids := 0.0, []r2.Vec{}
		for _, g := range moves {
			if !g.Rapid && (g.To.X != g.From.X || g.To.Y != g.From.Y) {
				s := arc.Segment{A: r2.Vec{X: g.From.X, Y: g.From.Y}, B: r2.Vec{X: g.To.X, Y: g.To.Y}, K: g.K}
				length += s.Length()
				mids = append(mids, s.Mid(), s.B)
			}
		}
		require.InDelta(t, want.Length(), length, 0.003*(1+k*k))
		for _, q := range mids {
			require.Less(t, offArc(want, q), 0.003*(1+k*k))
		}
	})
}

// offArc returns how far a point is from the circle of an arc, or from its
// chord where that is flat.
func offArc(s arc.Segment, p r2.Vec) float64 {
	return math.Abs(r2.Norm(r2.Sub(p, s.Center())) - s.Radius())
}

func FuzzRead(f *testing.F) {
	f.Add(head + "G1 X10 F200\nG2 X20 I5\nM2\n")
	f.Add(encoded(f, panel(f), rs274.Options{}))
	f.Add("%\nG20 G0 Z[1]")
	f.Fuzz(func(t *testing.T, s string) {
		moves, _, err := rs274.Read(strings.NewReader(s), rs274.Options{})
		if err != nil {
			var e *rs274.SyntaxError
			require.ErrorAs(t, err, &e)
			return
		}
		for i, m := range moves {
			for _, v := range []float64{m.To.X, m.To.Y, m.To.Z, m.K, m.Feed} {
				require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%v", m)
			}
			require.LessOrEqual(t, math.Abs(m.K), 1.0+1e-9)
			if i > 0 {
				require.Equal(t, moves[i-1].To, m.From)
			}
		}
	})
}

func BenchmarkRead(b *testing.B) {
	s := encoded(b, panel(b), rs274.Options{})
	b.SetBytes(int64(len(s)))
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := rs274.Read(strings.NewReader(s), rs274.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
