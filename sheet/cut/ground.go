package cut

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A ground is the sheet as it would be left without a single tab, in cells: by
// which way of an outline or opening each cell goes, and what of the rest is
// sound, which is what a tab has to lead to.
type ground struct {
	*standing
	by    [2][]int32 // 1 + index of the first and the second way a cell goes by; kept where none, fixed where a tab cannot keep it
	sound []int32    // of the waste, stands where wood reaches about half a tab's width all round
	clump *clumps    // of what is sound
	wood  *clumps    // of all that stands
}

const (
	kept  = 0
	fixed = -1
)

// groundCell is the share of a tab's width, or of the cutter, that a cell of a
// ground has at most: twice a replay's, for speed.
const groundCell = 6

// reaches are by how much the waste is eroded, in mm, the first that lets all
// parts hang together being taken. With the first, all that is sound here is
// sound on the finer cells of a replay too: a cut may come 0.7 of a cell nearer
// to a cell than the nearest center it takes. The second is what a replay
// takes, give or take half a cell.
func (g *ground) reaches(tab float64) [2]float64 {
	return [2]float64{tab/2 + 0.35*g.cell, tab/2 - 0.7*g.cell}
}

func (p *planner) newGround(rounds []*round) *ground {
	f := &field{job: p.job, opt: p.opt, top: p.top, pieces: p.pieces}
	for i := range p.pieces {
		f.surface = append(f.surface, surface{loops: loopsOf(p.pieces[i].outline)})
	}
	g := &ground{standing: newStanding(f, math.Min(p.opt.TabWidth, p.mill.Diameter)/groundCell)}
	g.by = [2][]int32{make([]int32, len(g.who)), make([]int32, len(g.who))}
	r := &replayer{field: f}
	r.size = tileSize
	for i := range p.ops {
		r.tool, _ = r.find(p.ops[i].Tool)
		for k := range p.ops[i].Moves {
			if m := &p.ops[i].Moves[k]; !m.Rapid {
				g.lose(r, m, fixed, false)
			}
		}
	}
	r.tool = p.mill
	for i, v := range rounds {
		for _, s := range v.way.t.seg {
			g.lose(r, &Move{From: lift(s.A, -p.opt.Through), To: lift(s.B, -p.opt.Through), K: s.K}, int32(i+1), false)
		}
	}
	for i, v := range rounds {
		if v.kind == OutlineCut {
			p.loseBevels(g, r, v, int32(i+1))
		}
	}
	g.wood = g.clumps(g.died, false)
	g.wood.join()
	return g
}

// erode settles what is sound.
func (g *ground) erode(reach float64) {
	g.sound = g.eroded(reach)
	g.clump = g.clumps(g.sound, false)
	g.clump.join()
}

// loseBevels takes away what bevels cut beyond the way around their part, as
// where they run on past their ends. Within it they rise over its tabs.
func (p *planner) loseBevels(g *ground, r *replayer, v *round, id int32) {
	ops, saw, rest, bevels := len(p.ops), len(p.saw), len(p.rest), len(p.bevels)
	for i, b := range v.q.work.Bevels {
		p.bevel(v.q, i, b, []way{*v.way})
	}
	for _, o := range p.ops[ops:] {
		r.tool, _ = r.find(o.Tool)
		for k := range o.Moves {
			if m := &o.Moves[k]; !m.Rapid {
				g.lose(r, m, id, true)
			}
		}
	}
	p.ops, p.saw, p.rest, p.bevels = p.ops[:ops], p.saw[:saw], p.rest[:rest], p.bevels[:bevels]
}

// lose takes away what a move cuts below what holds, on account of a way, or
// of a bevel of its part.
func (g *ground) lose(r *replayer, m *Move, way int32, bevel bool) {
	skip := func(c int) bool {
		a := g.by[0][c]
		return a == fixed || a == way || g.by[1][c] == way
	}
	r.inPieces(m, func(w *sweep) {
		g.under(r, w, skip, func(c int) {
			g.died[c] = 0
			switch {
			case bevel:
				g.by[0][c] = fixed
			case g.by[0][c] == kept && way != fixed:
				g.by[0][c] = way
			case g.by[1][c] == kept && way != fixed:
				g.by[1][c] = way
			default:
				g.by[0][c] = fixed
			}
		})
	})
}

// cellOf returns the cell of a point, or -1 off the sheet.
func (g *ground) cellOf(p r2.Vec) int {
	x, y := int(math.Floor((p.X-g.origin.X)/g.cell)), int(math.Floor((p.Y-g.origin.Y)/g.cell))
	if x < 0 || y < 0 || x >= g.nx || y >= g.ny || g.who[y*g.nx+x] < 0 {
		return -1
	}
	return y*g.nx + x
}

// clumpOf returns the root of what a cell hangs together with, -1 where it is
// not sound.
func (g *ground) clumpOf(c int) int32 {
	if c < 0 || g.sound[c] != stands {
		return -1
	}
	return g.clump.root(g.clump.of(c))
}
