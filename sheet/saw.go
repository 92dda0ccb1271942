package sheet

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/rects"
)

// A Direction is the way the first cuts of a sheet run.
type Direction int

const (
	EitherWay   Direction = iota // each sheet its own
	AlongLength                  // along x
	AlongWidth                   // along y
)

// String returns "either way", "along the length" or "along the width".
func (d Direction) String() string {
	return name(int(d), "either way", "along the length", "along the width")
}

// A Saw says which layouts can be cut: edge to edge, in stages between which
// the pieces are turned by a quarter.
//
// Mind the blade, the dust and the weight of whole sheets: guards, extraction
// and help at the saw are those its maker and local rules call for (common
// practice, no source).
type Saw struct {
	Kerf   float64   // width of the blade's cut, mm; 0 is a knife
	Trim   float64   // taken off each edge of a sheet before all else, mm, the kerf included; 0 is nothing
	Stages int       // 2 or 3; 0 is as many as the layout needs; where First is set, three are searched
	First  Direction // of the first stage's cuts
	Exact  bool      // no trimming cut after the last of three stages

	// What the work costs, in the currency of Stock.Price, so that it is weighed
	// against the price of sheets; 0 is nothing.
	CutCost  float64 // of a cut
	TurnCost float64 // of turning a piece
	RipCost  float64 // of setting the fence to another width, over the whole layout
	Stack    int     // equal sheets that are cut at once, as one; 0 means 1

	LongestRip float64 // longest cut, mm, trim cuts apart: these can be made on the pieces; 0 means any
}

// A SawCut is one straight cut, from edge to edge of a piece.
type SawCut struct {
	Stage    int  // from 1; 0 is a trim cut, or one that frees the usable rectangle of an irregular sheet
	AlongX   bool // runs along x, at a y
	At       float64
	From, To float64 // along the cut; of an irregular sheet first to the ends of its box
	Turn     bool    // the piece has to be turned for it
	Width    float64 // of what it frees, to which the fence is set; 0 for stage 0
}

// A SawLayout is a layout with the cuts of each sheet in the sequence in which
// they are made: the blade takes the kerf beyond At, toward larger x or y, or
// toward the edge for a trim cut.
type SawLayout struct {
	Layout
	Cuts   [][]SawCut
	Stages int // the most that a sheet needs, a last trimming cut included
	Turns  int // of pieces, over all sheets

	Stacks [][]int // indices of sheets that are cut at once, in the sequence of the first of each
	Widths int     // to which the fence is set, over all sheets
	Work   float64 // cost of cutting by the weights of the saw, each stack once
}

// NestStraight places the bounding boxes of the parts so that a saw can cut
// them out. It reads all of opt but Gap and Margin, for which it takes the kerf
// and the trim. Of a sheet with forbidden regions or an outline of its own it
// uses one rectangle, the largest along the sheet's axes that is clear, and
// cuts that out first, where need be through what is forbidden. Offcuts are
// what is left of the rectangle, or within the trim. For the rest it is like
// [Nest].
func NestStraight(ctx context.Context, parts []Part, stock []Stock, saw Saw, opt Options) (SawLayout, error) {
	const fn = "sheet.NestStraight"
	opt.Gap, opt.Margin, opt.began = saw.Kerf, saw.Trim, opt.now()
	if err := saw.check(fn); err != nil {
		return SawLayout{}, err
	}
	if err := checkInput(fn, parts, stock, opt); err != nil {
		return SawLayout{}, err
	}
	if len(opt.Fixed) > 0 {
		return SawLayout{}, &ParamError{Func: fn, Param: "opt.Fixed", Value: len(opt.Fixed), Unit: "sheets", Need: "none for straight cuts", Err: arc.ErrRange}
	}
	parts = measured(parts)
	defer opt.startReports()()
	var l SawLayout
	all, w := groups(parts, stock), windows{}
	for i, g := range all {
		r := newRun(ctx, parts, stock, g, opt.share(i, all, parts))
		r.before, r.windows = l.Layout, w
		done := r.watch(i == len(all)-1)
		r.frame, r.straight, r.saw = w.framing(opt), true, &saw
		p, err := r.searchKinds(func(r *run) (*plan, error) { return r.searchStraight(saw) })
		done()
		if err != nil {
			return SawLayout{}, err
		}
		l.add(r.gather(r.sound(p)), r) // equal shapes at most change places: the cuts stay
		l.Cuts = append(l.Cuts, r.cuts...)
	}
	l.Stopped = ctx.Err() != nil
	finish(&l.Layout, parts, stock, opt, w.framing(opt))
	l.sequence(saw)
	return l, nil
}

func (s Saw) check(fn string) error {
	for _, f := range []struct {
		name string
		v    float64
	}{{"saw.Kerf", s.Kerf}, {"saw.Trim", s.Trim}, {"saw.LongestRip", s.LongestRip}} {
		if err := needNotNegative(fn, f.name, f.v, "mm"); err != nil {
			return err
		}
		if f.v > maxSize {
			return needSize(fn, f.name, f.v)
		}
	}
	for _, f := range []struct {
		name string
		v    float64
	}{{"saw.CutCost", s.CutCost}, {"saw.TurnCost", s.TurnCost}, {"saw.RipCost", s.RipCost}, {"saw.Stack", float64(s.Stack)}} {
		if err := needNotNegative(fn, f.name, f.v, ""); err != nil {
			return err
		}
	}
	if s.Stages != 0 && s.Stages != 2 && s.Stages != 3 {
		return &ParamError{Func: fn, Param: "saw.Stages", Value: s.Stages, Need: "0, 2 or 3", Err: arc.ErrRange}
	}
	if s.First < EitherWay || s.First > AlongWidth {
		return &ParamError{Func: fn, Param: "saw.First", Value: int(s.First), Need: "EitherWay, AlongLength or AlongWidth", Err: arc.ErrRange}
	}
	return nil
}

// sawPacker packs in stages. With no limit of stages and no first direction one
// of the two seeds searches three stages and the other any. Where the saw cannot
// cut a sheet all along, the first cuts go across it.
func sawPacker(s Saw) rectPacker {
	saw := rects.Saw{Stages: s.Stages, First: rects.Direction(s.First), Exact: s.Exact}
	if s.Stages == 0 {
		saw.Stages = 3
	}
	return func(items []rects.Item, bin rects.Size, seed uint64, stop rects.Stop) [][]rects.Placed {
		saw := saw
		if s.Stages == 0 && s.First == EitherWay && seed%2 == 1 && s.LongestRip == 0 {
			return rects.SlicedBins(items, bin, seed, stop)
		}
		if most := s.LongestRip; most > 0 && s.First == EitherWay {
			switch {
			case bin.W-s.Kerf > most:
				saw.First = rects.AlongH
			case bin.H-s.Kerf > most:
				saw.First = rects.AlongW
			}
		}
		return rects.StagedBins(items, bin, saw, seed, stop)
	}
}

// sequence works out what the cuts of the sheets take.
func (l *SawLayout) sequence(saw Saw) {
	for _, cuts := range l.Cuts {
		for _, c := range cuts {
			l.Turns += b2i(c.Turn)
			l.Stages = max(l.Stages, c.Stage)
		}
	}
	w := saw.workOf(l.Sheets, l.Cuts)
	l.Stacks, l.Widths, l.Work = w.stacks, w.widths, w.cost
}

// cuts returns the cuts that free the parts of a sheet within a window, in the
// direction that costs less and then takes fewer stages, then turns; not ok where
// there are none that the saw can make.
func (s Saw) cuts(sh Sheet, parts []Part, all, window r2.Box) (best []SawCut, stages int, ok bool) {
	bin := rects.Size{W: window.Max.X - window.Min.X + s.Kerf, H: window.Max.Y - window.Min.Y + s.Kerf}
	var placed []rects.Placed
	for i, p := range sh.Placements {
		b := parts[p.Part].boxAt(p)
		placed = append(placed, rects.Placed{Item: i, X: b.Min.X - window.Min.X, Y: b.Min.Y - window.Min.Y,
			W: b.Max.X - b.Min.X + s.Kerf, H: b.Max.Y - b.Min.Y + s.Kerf})
	}
	fewest, least := 0, 0.0
	for _, alongX := range [2]bool{true, false} {
		if s.First == AlongLength && !alongX || s.First == AlongWidth && alongX {
			continue
		}
		raw, n, can := rects.Cuts(placed, bin, alongX)
		if !can {
			continue
		}
		c, turns := s.placed(raw, all, window)
		if s.tooLong(c) {
			continue
		}
		work := s.CutCost*float64(len(c)) + s.TurnCost*float64(turns) + s.RipCost*float64(len(addWidths(nil, c)))
		if !ok || work < least || work == least && (n < stages || n == stages && turns < fewest) {
			best, stages, fewest, least, ok = c, n, turns, work, true
		}
	}
	return best, stages, ok
}

// tooLong reports whether a cut is longer than the saw can make.
func (s Saw) tooLong(cuts []SawCut) bool {
	return s.LongestRip > 0 && slices.ContainsFunc(cuts, func(c SawCut) bool { return c.Stage > 0 && c.To-c.From > s.LongestRip+1e-6 })
}

// addWidths adds to a list the widths of cuts that are not in it, to a hundredth
// of a millimeter.
func addWidths(list []float64, cuts []SawCut) []float64 {
	for _, c := range cuts {
		if w := math.Round(c.Width*100) / 100; c.Stage > 0 && !slices.Contains(list, w) {
			list = append(list, w)
		}
	}
	return list
}

// placed brings cuts from the packer's coordinates, in which pieces are larger
// by the kerf, to the sheet's, and puts the trim cuts before them.
func (s Saw) placed(raw []rects.Cut, all, window r2.Box) (out []SawCut, turns int) {
	out = trims(all, window)
	at := window.Min
	var room rects.Placed
	from := 0.0
	for i, c := range raw {
		turn := c.Stage > 1 && (i == 0 || c.Room != room)
		if i == 0 || c.Room != room || c.AlongW != raw[i-1].AlongW {
			if from = c.Room.X; c.AlongW {
				from = c.Room.Y
			}
		}
		room = c.Room
		if turn {
			turns++
		}
		across, along := at.X, at.Y
		if c.AlongW {
			across, along = along, across
		}
		out = append(out, SawCut{c.Stage, c.AlongW, c.At + across - s.Kerf, c.From + along, c.To + along - s.Kerf, turn, max(0, c.At-from-s.Kerf)})
		from = c.At
	}
	return out, turns
}

// trims returns the cuts that free a window of a sheet, none where a side of
// it is the sheet's.
func trims(all, window r2.Box) (out []SawCut) {
	const flush = 1e-9
	cut := func(depth float64, c SawCut) {
		if depth > flush {
			out = append(out, c)
		}
	}
	cut(window.Min.Y-all.Min.Y, SawCut{AlongX: true, At: window.Min.Y, From: all.Min.X, To: all.Max.X})
	cut(all.Max.Y-window.Max.Y, SawCut{AlongX: true, At: window.Max.Y, From: all.Min.X, To: all.Max.X})
	cut(window.Min.X-all.Min.X, SawCut{At: window.Min.X, From: window.Min.Y, To: window.Max.Y})
	cut(all.Max.X-window.Max.X, SawCut{At: window.Max.X, From: window.Min.Y, To: window.Max.Y})
	return out
}
