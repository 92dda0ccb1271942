package cut

import "math"

// A Hold is what holds what is cut free.
type Hold int

// The ways to hold. A shop takes one of the last two only for a machine whose
// vacuum holds every part by itself.
const (
	ByTabs       Hold = iota // tabs
	BySkin                   // a skin that stays under outlines and openings, to be cut by hand
	BySkinAtLast             // a skin, and vacuum once the last passes have cut it
	ByVacuum                 // vacuum alone
)

// String returns "tabs", "skin", "skin at last" or "vacuum".
func (h Hold) String() string {
	if h < 0 || h > ByVacuum {
		return "unknown"
	}
	return [...]string{"tabs", "skin", "skin at last", "vacuum"}[h]
}

func (h Hold) skin() bool { return h == BySkin || h == BySkinAtLast }

// floor returns the height down to which outlines and openings are cut first.
func (o Options) floor() float64 {
	if o.Hold.skin() {
		return o.Skin
	}
	return -o.Through
}

// stays returns how much of the sheet may be left under an outline at the end.
func (o Options) stays() float64 {
	if o.Hold == BySkin {
		return o.Skin
	}
	return 0
}

// holding returns how high waste has to stand to hold a part.
func (o Options) holding() float64 {
	if o.Hold.skin() {
		return o.Skin
	}
	return o.TabHeight
}

// lastGroup is the first of the passes that cut the skin, after all else:
// openings, then outlines.
const lastGroup = int(OutlineCut) + 3*(deepest+2)

// parted cuts the skin under the ways of a loop.
func (p *planner) parted(q *piece, k Kind, ways []way) {
	if p.opt.Hold != BySkinAtLast {
		return
	}
	for _, v := range ways {
		w := p.pen(p.mill)
		w.tool.Feed *= Slowing(p.mill.Diameter, p.top)
		w.rounds(v.t, p.opt.Skin, -p.opt.Through, nil)
		p.keep(w, q, k, p.top+p.opt.Through, 0)
		p.regroup(1, lastGroup+int(k-OpeningCut))
	}
}

// skinHolds reports a part that the skin does not hold, as its edges are cut
// through by bevels.
func (p *planner) skinHolds() error {
	if !p.opt.Hold.skin() {
		return nil
	}
	f := &field{job: p.job, opt: p.opt, top: p.top, pieces: p.pieces}
	for i := range p.pieces {
		f.surface = append(f.surface, surface{loops: loopsOf(p.pieces[i].outline)})
	}
	s := newStanding(f, p.opt.TabWidth/cellsOfTab)
	r := &replayer{field: f}
	r.size = tileSize
	for i := range p.ops {
		if p.ops[i].group >= lastGroup {
			continue
		}
		r.tool, _ = r.find(p.ops[i].Tool)
		for k := range p.ops[i].Moves {
			if m := &p.ops[i].Moves[k]; !m.Rapid {
				r.inPieces(m, func(w *sweep) { s.sweep(r, w) })
			}
		}
	}
	for _, l := range s.clumps(s.eroded(s.halfTab(p.opt.TabWidth)), true).loose(int(math.Ceil(p.opt.Scrap / (s.cell * s.cell)))) {
		for _, v := range l.runs {
			if v.who > 0 {
				return p.fault(&p.pieces[v.who-1], "hold", p.opt.Skin, "mm", "edges that a skin can hold: bevels cut it through all around; take tabs", ErrNoHold)
			}
		}
	}
	return nil
}
