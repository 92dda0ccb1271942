package cut

import (
	"context"
	"fmt"
	"math"
)

// holds reports what comes loose, or hangs by less than a tab. Where the shop
// holds parts by vacuum alone it looks at nothing.
func (r *replayer) holds(ctx context.Context) error {
	if r.opt.Hold == ByVacuum {
		return nil
	}
	s := r.sheet
	least := int(math.Ceil(r.opt.Scrap / (s.cell * s.cell)))
	var told []bool // cells, once there is a piece to tell
	for _, l := range s.clumps(s.died, true).loose(least) {
		told = r.tellLump(l, Loose, told)
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	for _, l := range s.clumps(s.eroded(s.halfTab(r.opt.TabWidth)), true).loose(least) {
		told = r.tellLump(l, Weak, told)
	}
	return ctx.Err()
}

// halfTab returns by how much the waste is eroded: half of a tab less the
// diagonal of a cell, so that no tab as wide as agreed is lost.
func (s *standing) halfTab(width float64) float64 {
	return math.Max(0, width/2-s.cell*math.Sqrt2)
}

// tellLump reports the parts of a piece, or the piece as waste where it has
// none, unless they are known. Waste that hangs by less than a tab is no fault.
func (r *replayer) tellLump(l lump, kind FaultKind, told []bool) []bool {
	s := r.sheet
	if told == nil {
		told = make([]bool, len(s.who))
	}
	count, first := map[int16]int{}, map[int16]int32{}
	known := 0
	for _, v := range l.runs {
		if count[v.who] == 0 {
			first[v.who] = v.from
		}
		count[v.who] += int(v.to - v.from)
		for c := v.from; c < v.to; c++ {
			if told[c] {
				known++
			}
			told[c] = true
		}
	}
	if 2*known > l.cells {
		return told
	}
	line := s.lines[min(int(max(0, l.event)), len(s.lines)-1)]
	area := func(n int) float64 { return float64(n) * s.cell * s.cell }
	parts := false
	for i := range r.pieces {
		q := &r.pieces[i]
		if n := count[int16(i+1)]; area(n) >= r.opt.Scrap {
			parts = true
			r.book.add(Fault{Kind: kind, Placement: q.at, Name: q.name, Feature: "part", At: s.at(int(first[int16(i+1)])), Z: 0, Need: r.opt.TabWidth, Line: line})
		}
	}
	if parts {
		return told
	}
	at := s.at(int(l.runs[0].from))
	f := Fault{Kind: kind, Placement: -1, Name: "waste", Feature: fmt.Sprintf("%.0f mm2 at %.0f, %.0f", area(l.cells), at.X, at.Y), At: at, Need: r.opt.TabWidth, Line: line}
	if kind == Weak {
		r.rep.Slender = append(r.rep.Slender, f)
	} else {
		r.book.add(f)
	}
	return told
}
