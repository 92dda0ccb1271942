package sheet

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

const (
	gatherWork   = 2e4 // exchanges tried
	gatherRounds = 6
	apartSheets  = 1e7 // mm that a further sheet counts for
)

// gather deals sheets anew by jobs, and then lets copies of parts of the same shape
// change places, so that those that are to be near each other are on fewer sheets
// and then closer together there.
func (r *run) gather(p *plan) *plan {
	if !slices.ContainsFunc(r.group.parts, func(i int) bool { return r.parts[i].Near != "" }) {
		return p
	}
	p = r.regroup(p)
	g := r.newGathering(p)
	for range gatherRounds {
		gained := false
		for i := range g.slots {
			for j := range i {
				gained = g.exchange(i, j) || gained
			}
		}
		if !gained {
			break
		}
	}
	return g.plan()
}

// A slot is a place on a sheet that a copy of any part of one shape can take.
type slot struct {
	sheet int
	at    Placement
	box   r2.Box
	class int // the first part of the group of the same shape
	near  string
}

type gathering struct {
	run   *run
	of    *plan
	slots []slot
	jobs  map[string][]int // slots of each
	work  int
}

func (r *run) newGathering(p *plan) *gathering {
	g := &gathering{run: r, of: p, jobs: map[string][]int{}}
	for i, s := range p.sheets {
		for _, q := range s.Placements {
			part := r.parts[q.Part]
			n := slot{sheet: i, at: q, class: r.shapeClass(q.Part), near: part.Near}
			n.box = part.boxAt(q)
			if n.near != "" {
				g.jobs[n.near] = append(g.jobs[n.near], len(g.slots))
			}
			g.slots = append(g.slots, n)
		}
	}
	return g
}

// shapeClass returns the first part of the group that a part can change places
// with, which is itself where it is in a set.
func (r *run) shapeClass(part int) int {
	a := r.parts[part]
	for _, i := range r.group.parts {
		b := r.parts[i]
		if i == part || a.Set == "" && b.Set == "" && a.Grain == b.Grain && a.Turns == b.Turns && a.MirrorOK == b.MirrorOK &&
			a.Priority == b.Priority && compareLoops(a.Outline, b.Outline) == 0 {
			return i
		}
	}
	return part
}

// exchange lets two copies change places where that is a gain.
func (g *gathering) exchange(i, j int) bool {
	a, b := &g.slots[i], &g.slots[j]
	if a.class != b.class || a.near == b.near || g.work >= gatherWork || g.run.ctx.Err() != nil {
		return false
	}
	g.work++
	before := g.spread(a.near) + g.spread(b.near)
	g.swap(i, j)
	if g.spread(a.near)+g.spread(b.near) < before-1e-6 {
		return true
	}
	g.swap(i, j)
	return false
}

func (g *gathering) swap(i, j int) {
	a, b := &g.slots[i], &g.slots[j]
	for _, s := range [2][2]int{{i, j}, {j, i}} {
		if list := g.jobs[g.slots[s[0]].near]; g.slots[s[0]].near != "" {
			list[slices.Index(list, s[0])] = s[1]
		}
	}
	a.near, b.near = b.near, a.near
	a.at.Part, b.at.Part = b.at.Part, a.at.Part
	a.at.Copy, b.at.Copy = b.at.Copy, a.at.Copy
}

// spread returns how far the copies of a job are apart: the half perimeters of
// their boxes on each sheet, and much for each further sheet.
func (g *gathering) spread(job string) float64 {
	if job == "" {
		return 0
	}
	boxes := map[int]r2.Box{}
	for _, k := range g.jobs[job] {
		s := g.slots[k]
		b, ok := boxes[s.sheet]
		if !ok {
			b = s.box
		}
		boxes[s.sheet] = box(min(b.Min.X, s.box.Min.X), min(b.Min.Y, s.box.Min.Y), max(b.Max.X, s.box.Max.X), max(b.Max.Y, s.box.Max.Y))
	}
	sum := apartSheets * float64(len(boxes))
	for i := range g.of.sheets {
		b := boxes[i]
		sum += b.Max.X - b.Min.X + b.Max.Y - b.Min.Y
	}
	return sum
}

// plan returns the plan with what has changed places.
func (g *gathering) plan() *plan {
	out := g.of.clone()
	for i := range out.sheets {
		out.sheets[i].Placements = nil
	}
	for _, s := range g.slots {
		out.sheets[s.sheet].Placements = append(out.sheets[s.sheet].Placements, s.at)
	}
	return out
}
