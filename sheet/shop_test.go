package sheet_test

import (
	"context"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/sheet"
)

// Some parts are spoiled: they are taken off a layout, which is finished again.
// All that stands stays where it is, on the first sheets, and the whole is legal;
// where the room is still there no sheet is opened.
func TestFixedStaysAndTheRestIsLaidAround(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 2))
	parts, stock := curvedCase(1), boards()
	parts[6].Set, parts[7].Set = "x", "x"
	opt := sheet.Options{Gap: 8, Margin: 10, Iterations: 15}
	first, err := sheet.Nest(context.Background(), parts, stock, opt)
	require.NoError(t, err)
	require.Empty(t, first.Unplaced)
	for k := range 2 {
		again := opt
		again.Seed = uint64(k)
		stands := map[sheet.Placement]int{}
		for i, s := range first.Sheets {
			var kept []sheet.Placement
			for _, q := range s.Placements {
				if rng.IntN(5) > 0 {
					kept = append(kept, q)
					stands[q] = i
				}
			}
			again.Fixed = append(again.Fixed, sheet.Sheet{Stock: s.Stock, Placements: kept})
		}
		l, err := sheet.Nest(context.Background(), parts, stock, again)
		require.NoError(t, err)
		require.NoError(t, sheet.Check(parts, stock, l, opt))
		require.Empty(t, l.Unplaced)
		require.Len(t, l.Sheets, len(first.Sheets))
		found := 0
		for i, s := range l.Sheets {
			for _, q := range s.Placements {
				if at, ok := stands[q]; ok {
					require.Equal(t, at, i)
					found++
				}
			}
		}
		require.Equal(t, len(stands), found)
		require.Equal(t, first.Cost, l.Cost)
		for _, s := range l.Sheets {
			require.NotZero(t, s.Use)
		}
	}
}

func TestFixedIsCheckedAndCounted(t *testing.T) {
	a, b := panel("a", 300, 200, 2), panel("b", 100, 90, 1)
	st := sheetOf(500, 300)
	st.Count = 1
	opt := sheet.Options{Gap: 8, Margin: 10, Iterations: 10}
	opt.Fixed = []sheet.Sheet{{Placements: []sheet.Placement{{At: r2.Vec{X: 5, Y: 10}}}}}
	_, err := sheet.Nest(context.Background(), []sheet.Part{a, b}, []sheet.Stock{st}, opt)
	require.ErrorIs(t, err, sheet.ErrIllegal)
	require.ErrorContains(t, err, "opt.Fixed")
	opt.Fixed[0].Placements[0].At.X = 10
	l, err := sheet.Nest(context.Background(), []sheet.Part{a, b}, []sheet.Stock{st}, opt)
	require.NoError(t, err)
	require.Equal(t, []sheet.Unplaced{{Part: 0, Copy: 1, Reason: sheet.NoRoom}}, l.Unplaced, "the one sheet there is, is in use")
	require.Len(t, l.Sheets, 1)
	require.Equal(t, opt.Fixed[0].Placements[0], l.Sheets[0].Placements[0])
	// What belongs to a set that stands goes on its sheet or nowhere.
	st.Count = 0
	a.Set, b.Set = "s", "s"
	l, err = sheet.Nest(context.Background(), []sheet.Part{a, b}, []sheet.Stock{st}, opt)
	require.NoError(t, err)
	require.Len(t, l.Sheets, 1)
	require.Len(t, l.Unplaced, 2)
	require.Equal(t, sheet.SetSplit, l.Unplaced[0].Reason)
	a.Qty = 1
	l, err = sheet.Nest(context.Background(), []sheet.Part{a, b}, []sheet.Stock{st}, opt)
	require.NoError(t, err)
	require.Empty(t, l.Unplaced)
	require.Len(t, l.Sheets, 1)
	_, err = sheet.NestStraight(context.Background(), []sheet.Part{a, b}, []sheet.Stock{st}, sheet.Saw{}, opt)
	require.ErrorContains(t, err, "opt.Fixed")
}

// Each cause is told, with what would have to give.
func TestMissesTellByHowMuch(t *testing.T) {
	door := panel("door", 504, 250, 1)
	door.Turns = sheet.HalfTurns
	grain := panel("rail", 400, 50, 1)
	grain.Grain, grain.Turns = sheet.Across, sheet.HalfTurns
	oak := panel("knob", 10, 10, 1)
	oak.Material = "oak"
	big, small := sheetOf(520, 400), sheetOf(600, 266)
	big.Name, big.Count = "board", 1
	small.Name, small.Count = "leftover 2", 1
	opt := sheet.Options{Gap: 8, Margin: 10, Iterations: 5}
	parts, stock := []sheet.Part{door, grain, oak}, []sheet.Stock{big, small}
	l, err := sheet.Nest(context.Background(), parts, stock, opt)
	require.NoError(t, err)
	require.Len(t, l.Unplaced, 3)
	m, err := sheet.Misses(context.Background(), parts, stock, l, opt)
	require.NoError(t, err)
	var lines []string
	for _, x := range m {
		lines = append(lines, x.Text)
	}
	all := strings.Join(lines, "\n")
	require.Contains(t, all, `"door" is 4 mm too long for an empty sheet of "board"`)
	require.Contains(t, all, `"door" is 4 mm too wide for an empty sheet of "leftover 2"`)
	require.Contains(t, all, `"rail" has no turn that suits the grain of "board"`)
	require.Contains(t, all, `there is no stock of "oak"`)
	// Beside another part: 500 - 2*10 - 300 - 8 leaves 172 for 180.
	one := sheetOf(500, 220)
	one.Count = 1
	parts = []sheet.Part{panel("a", 300, 200, 1), panel("b", 180, 190, 1)}
	parts[1].Turns = sheet.HalfTurns
	l, err = sheet.Nest(context.Background(), parts, []sheet.Stock{one}, opt)
	require.NoError(t, err)
	require.Len(t, l.Unplaced, 1)
	m, err = sheet.Misses(context.Background(), parts, []sheet.Stock{one}, l, opt)
	require.NoError(t, err)
	require.Len(t, m, 1)
	require.Equal(t, sheet.NoRoom, m[0].Reason)
	require.InDelta(t, 8, m[0].Long, 1e-3)
	require.Zero(t, m[0].Wide)
}

// A search ends when it has gained nothing for a while, or when it costs little
// enough, long before its time is over; both are no stop.
func TestSearchEndsWhenItIsGoodEnough(t *testing.T) {
	parts, stock := curvedCase(1), boards()
	for name, o := range map[string]sheet.Options{
		"patience": {Patience: 100 * time.Millisecond}, "enough": {Enough: 3 * 58},
	} {
		o.Gap, o.Margin, o.Time = 8, 10, 30*time.Second
		from := time.Now()
		l, err := sheet.Nest(context.Background(), parts, stock, o)
		require.NoError(t, err)
		require.Less(t, time.Since(from), 15*time.Second, name)
		require.False(t, l.Stopped, name)
		require.Empty(t, l.Unplaced, name)
		if name == "enough" {
			require.LessOrEqual(t, l.Cost, o.Enough)
		}
		from = time.Now()
		_, err = sheet.NestStraight(context.Background(), parts, stock, sheet.Saw{Kerf: 3, Trim: 10}, o)
		require.NoError(t, err)
		require.Less(t, time.Since(from), 15*time.Second, name)
	}
	from := time.Now()
	_, err := sheet.NestStrip(context.Background(), parts, 1245, sheet.Options{Gap: 8, Time: 30 * time.Second, Patience: 100 * time.Millisecond})
	require.NoError(t, err)
	require.Less(t, time.Since(from), 15*time.Second)
}

// A job is booked: what it takes, what it gives back, and what that comes to; and
// what it gives back is stock for the next.
func TestBookClosesTheCircle(t *testing.T) {
	st := sheetOf(1000, 600)
	st.Name, st.ID, st.Price, st.Worth = "board", "B", 40, 30
	p := panel("a", 480, 580, 3)
	p.Turns = sheet.NoTurn
	l, err := sheet.Nest(context.Background(), []sheet.Part{p}, []sheet.Stock{st}, sheet.Options{Gap: 8, Margin: 10, Iterations: 5})
	require.NoError(t, err)
	b, err := sheet.Book("J7", []sheet.Stock{st}, l, 0)
	require.NoError(t, err)
	require.Equal(t, []sheet.Taken{{Stock: 0, ID: "B", Name: "board", Count: 2, Cost: 80}}, b.Takes)
	sum, ids := 0.0, map[string]bool{}
	var largest sheet.Stock
	for _, g := range b.Gives {
		require.False(t, ids[g.ID])
		ids[g.ID] = true
		require.Equal(t, g.ID, g.Stock.ID)
		require.InDelta(t, g.Stock.Area()*30/1e6, g.Worth, 1e-9)
		sum += g.Worth
		if g.Stock.Area() > largest.Area() {
			largest = g.Stock
		}
	}
	require.Greater(t, sum, 0.45*0.5*30.0)
	require.InDelta(t, 80-sum, b.Net, 1e-9)
	next, err := sheet.Nest(context.Background(), []sheet.Part{panel("b", 400, 400, 1)}, []sheet.Stock{st, largest}, sheet.Options{Gap: 8, Margin: 10, Iterations: 5})
	require.NoError(t, err)
	require.Zero(t, next.Cost)
	_, err = sheet.Book("J7", nil, l, 0)
	require.Error(t, err)
	_, err = sheet.Book("J7", []sheet.Stock{st}, l, 3)
	require.Error(t, err)
}

// A leftover is opened where it saves as much as asked, and else left alone.
func TestLeastGain(t *testing.T) {
	full, left := sheetOf(1000, 600), sheetOf(500, 400)
	full.Price, left.Price, left.Count = 40, 0, 1
	for gain, want := range map[float64]float64{0: 0, 39: 0, 41: 40} {
		left.LeastGain = gain
		l, err := sheet.Nest(context.Background(), []sheet.Part{panel("a", 300, 200, 1)}, []sheet.Stock{full, left}, sheet.Options{Gap: 8, Margin: 10, Iterations: 5})
		require.NoError(t, err)
		require.Equal(t, want, l.Cost, "%g", gain)
	}
}
