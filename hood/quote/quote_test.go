package quote

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
	"example.com/sagitta/sheet"
)

// A quote by hand: every amount worked out on paper from the rates below.
func TestByHand(t *testing.T) {
	r := Rates{
		Version: 1, Currency: "EUR", Machine: 60, Labor: 40,
		Work: Work{Job: 30, Sheet: 6, Kerfed: 45},
		Use:  Use{Glue: 2, Fill: 10, Finish: 3, Coats: 2},
		Molding: Molding{
			Band: []Bar{{2000, 11}}, Miter: 50, Kerf: 3,
		},
		Extras: []Extra{{"delivery", 1, "", 35}},
		Markup: 0.2, Tax: 0.1,
	}
	q, err := New(Takeoff{
		Sheets: []sheet.Taken{{Name: "mdf 19", Count: 2, Cost: 92}, {Name: "plywood 12", Count: 1}}, Offcuts: 12.5,
		Minutes: 45, Parts: 14, Assembled: 12, Kerfed: 1, Fill: 1.234, Glue: 0.5, Finish: 1.5,
		Moldings: []hood.Trim{{Name: "band-left", Length: 500, Miters: 1}, {Name: "band-front", Length: 1100, Miters: 2}, {Name: "band-right", Length: 500, Miters: 1}},
	}, r)
	require.NoError(t, err)
	want := []Line{
		{Sheets, "mdf 19", 2, "pcs", 46, 92, true},
		{Sheets, "plywood 12", 1, "pcs", 0, 0, false},
		{Sheets, "offcuts kept", 1, "lot", -12.5, -12.5, true},
		{Moldings, "band, bar of 2 m", 2, "pcs", 11, 22, true}, // 550 + 1200 + 550 and two cuts take more than 2000
		{Used, "glue, by area of joints", 0.5, "m²", 2, 1, true},
		{Used, "fill of kerfs", 1.234, "L", 10, 12.34, true},
		{Used, "finish, area × coats", 3, "m²", 3, 9, true},
		{Machine, "router", 0.75, "h", 60, 45, true},
		{Labor, "the job as a whole", 1, "job", 20, 20, true},
		{Labor, "sheets", 3, "sheets", 4, 12, true},
		{Labor, "parts from the router", 14, "parts", 0, 0, false},
		{Labor, "kerfed panels", 1, "panels", 30, 30, true},
		{Labor, "assembly", 12, "parts", 0, 0, false},
		{Labor, "mitered ends of moldings", 4, "ends", 0, 0, false},
		{Labor, "finish, area × coats", 3, "m²", 0, 0, false},
		{Extras, "delivery", 1, "pcs", 35, 35, true},
	}
	require.Equal(t, want, q.Lines)
	assert.Equal(t, 265.84, q.Cost) // 92 − 12.5 + 22 + 1 + 12.34 + 9 + 45 + 20 + 12 + 30 + 35
	assert.Equal(t, 53.17, q.Markup)
	assert.Equal(t, 31.9, q.Tax) // 31.901
	assert.Equal(t, 350.91, q.Total)
	assert.Equal(t, 5, q.Unpriced)
	assert.False(t, q.Complete())
	assert.Equal(t, 1.55, q.Hours) // 30 + 18 + 45 min
}

// sums reads a CSV back and adds it up in hundredths, knowing nothing of quotes.
func sums(t *testing.T, data []byte) (lines, cost, total, unpriced int) {
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	require.NoError(t, err)
	whole := func(s string, digits int) int { // of units of the last digit
		front, back, ok := strings.Cut(s, ".")
		require.True(t, ok && len(back) >= 2 && len(back) <= digits, s)
		n, err := strconv.Atoi(front + back + strings.Repeat("0", digits-len(back)))
		require.NoError(t, err)
		return n
	}
	hundredths := func(s string) int { return whole(s, 2) }
	extra := 0
	for _, r := range rows[1:] {
		switch {
		case r[0] != "total" && r[5] == "":
			unpriced++
		case r[0] != "total":
			n := float64(whole(r[2], 4)) * float64(whole(r[4], 4))
			assert.InDelta(t, n/1e6, hundredths(r[5]), 0.500001, "%v", r)
			lines += hundredths(r[5])
		case r[1] == "cost":
			cost = hundredths(r[5])
		case strings.HasPrefix(r[1], "total"):
			total = hundredths(r[5])
			assert.Equal(t, unpriced > 0, r[1] != "total")
		case r[1] == "":
			t.Errorf("a total without a name: %v", r)
		default:
			extra += hundredths(r[5])
		}
	}
	assert.Equal(t, total, cost+extra)
	return lines, cost, total, unpriced
}

func randomQuote(r *rand.Rand) (Takeoff, Rates) {
	v := func(most float64) float64 {
		if r.IntN(4) == 0 {
			return 0
		}
		return r.Float64() * most
	}
	t := Takeoff{
		Title: "job", Offcuts: v(40), Minutes: v(300), Parts: r.IntN(40), Assembled: r.IntN(30), SawEdges: r.IntN(9),
		Kerfed: r.IntN(4), Plies: r.IntN(9), Banding: v(9), Fill: v(3), Glue: v(4), Finish: v(6),
	}
	for range r.IntN(4) {
		t.Sheets = append(t.Sheets, sheet.Taken{Name: "=sheet", Count: 1 + r.IntN(3), Cost: v(400)})
	}
	for _, n := range []string{"band-left", "band-front", "crown-front"} {
		if r.IntN(2) == 0 {
			t.Moldings = append(t.Moldings, hood.Trim{Name: n, Length: 300 + v(900), Miters: 1 + r.IntN(2)})
		}
	}
	w := func() float64 { return v(60) }
	return t, Rates{
		Version: 1, Machine: v(90), Labor: v(70), Work: Work{w(), w(), w(), w(), w(), w(), w(), w(), w(), w()},
		Use: Use{v(5), v(20), v(2), v(9), r.IntN(4)}, Molding: Molding{Band: []Bar{{2440, v(20)}}, Kerf: 3, Miter: v(150)},
		Extras: []Extra{{"@extra", v(9), "", v(30)}}, Markup: v(0.5), Tax: v(0.2),
	}
}

// Every quote adds up by the hundredth, in its CSV as in its value; more of
// anything never costs less.
func TestAddsUp(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 9))
	for range 500 {
		off, rates := randomQuote(r)
		q, err := New(off, rates)
		require.NoError(t, err)
		var b bytes.Buffer
		require.NoError(t, q.WriteCSV(&b))
		lines, cost, total, unpriced := sums(t, b.Bytes())
		assert.Equal(t, lines, cost)
		assert.Equal(t, int(math.Round(q.Total*100)), total)
		assert.Equal(t, q.Unpriced, unpriced)
		assert.NotContains(t, b.String(), ",=")
		assert.NotContains(t, b.String(), ",@")
		var back Quote
		b.Reset()
		require.NoError(t, q.WriteJSON(&b))
		require.NoError(t, json.Unmarshal(b.Bytes(), &back))
		assert.Equal(t, q, back)
		more := off
		more.Minutes, more.Fill, more.Parts, more.Finish = off.Minutes+60, off.Fill+1, off.Parts+1, off.Finish+1
		dearer, err := New(more, rates)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, dearer.Total, q.Total)
	}
}

// What has no price is never in a total: with it left out of the takeoff the
// total is the same.
func TestUnpricedAddsNothing(t *testing.T) {
	r := ExampleRates()
	r.Use.Fill = 0
	off := Takeoff{Fill: 2, Minutes: 10}
	q, err := New(off, r)
	require.NoError(t, err)
	off.Fill = 0
	without, err := New(off, r)
	require.NoError(t, err)
	assert.Equal(t, without.Total, q.Total)
	assert.Equal(t, without.Unpriced+1, q.Unpriced)
	var b bytes.Buffer
	require.NoError(t, q.WriteHTML(&b))
	assert.Equal(t, 1, strings.Count(b.String(), "<td class=\"n\">not priced</td>"))
	assert.Contains(t, b.String(), "invented rates, to try the arithmetic: not an offer")
}

func TestRefused(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 1e7, math.MaxFloat64} {
		for _, set := range []func(*Rates, *Takeoff){
			func(r *Rates, _ *Takeoff) { r.Labor = bad },
			func(r *Rates, _ *Takeoff) { r.Work.Finish = bad },
			func(r *Rates, _ *Takeoff) { r.Molding.Band[0].Length = bad },
			func(r *Rates, _ *Takeoff) { r.Molding.Crown[0].Price = bad },
			func(r *Rates, _ *Takeoff) { r.Extras[0].Count = bad },
			func(_ *Rates, t *Takeoff) { t.Minutes = bad },
			func(_ *Rates, t *Takeoff) { t.Sheets = []sheet.Taken{{Cost: bad}} },
		} {
			r, off := ExampleRates(), Takeoff{}
			set(&r, &off)
			var pe *arc.ParamError
			_, err := New(off, r)
			assert.ErrorAs(t, err, &pe, "%v", bad)
		}
	}
	r := ExampleRates()
	r.Version = 2
	assert.ErrorIs(t, r.Validate(), arc.ErrRange)
	_, err := New(Takeoff{Moldings: []hood.Trim{{Name: "crown-front", Length: 6000}}}, ExampleRates())
	assert.ErrorContains(t, err, "molding.crown")
}

// The fill of a panel is the area between the walls of its kerfs as they come
// to stand, by the shoelace formula, times their length.
func TestFillOfKerfs(t *testing.T) {
	s := hood.Spec{
		Version: hood.Version, Width: 1100, Height: 880, Depth: 500, Skirt: 120, Neck: hood.Neck{Depth: 280},
		Sweep: hood.Sweep{Shape: "cove", Sag: 50},
		Board: hood.Board{Material: "mdf", Thickness: 19, Sheets: []hood.Sheet{{Length: 2800, Width: 2070}}},
		Back:  hood.Back{Material: "plywood", Thickness: 9, Rabbet: 9},
		Bend:  hood.Bend{KerfWidth: 3.2, Web: 1.6, Facet: 0.1}, Cut: hood.Cut{Gap: 10, Margin: 15, Tool: 9.5},
	}
	d, err := hood.Build(s)
	require.NoError(t, err)
	off := TakeOff(d)
	var want, area float64
	for _, p := range d.Parts {
		for i, k := range p.Kerfs {
			slot, a := p.Work.Slots[i], float64(k.Turn)/2
			// The walls stand at the ends of the web, half its chord from the
			// middle, and lean out by half the turn (to the show face's hollow side).
			half := slot.Width / 2
			if a != 0 {
				half = slot.Width / (2 * a) * math.Sin(a)
			}
			x, y := half-slot.Depth*math.Sin(a), slot.Depth*math.Cos(a)
			quad := arc.Region{Outer: arc.Path{Closed: true, V: []arc.Vertex{{P: r2.Vec{X: -half}}, {P: r2.Vec{X: half}}, {P: r2.Vec{X: x, Y: y}}, {P: r2.Vec{X: -x, Y: y}}}}}
			want += math.Abs(quad.Area()) * math.Hypot(slot.To.X-slot.From.X, slot.To.Y-slot.From.Y) / 1e6
		}
		switch p.Name {
		case "skirt-front", "sweep-front", "cheek-left", "cheek-right", "skirt", "sweep":
			area += math.Abs(p.Outline.Area()) / 1e6
		}
	}
	assert.Equal(t, 1, off.Kerfed)
	assert.InEpsilon(t, want, off.Fill, 0.01)
	assert.InDelta(t, area, off.Finish, 1e-9)
	assert.Equal(t, len(d.Parts), off.Parts)
	assert.Zero(t, off.Plies)
	t.Logf("fill %.3f L, glue %.3f m², banding %.3f m, finish %.3f m²", off.Fill, off.Glue, off.Banding, off.Finish)
}
