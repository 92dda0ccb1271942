package packet

import (
	"slices"
	"strings"

	"example.com/sagitta/hood"
	"example.com/sagitta/sheet/cut"
)

// decide settles how every edge is made, from the parts and the cutters, before
// anything is laid out: the edges that no cutter makes are marked for the saw,
// with the reason, and no others. All that is printed takes it from there. It returns how each bevel is
// made, part by part.
func decide(d *hood.Design, shop Shop) ([][]cut.Made, error) {
	d.Parts = slices.Clone(d.Parts)
	ways := make([][]cut.Made, len(d.Parts))
	for i := range d.Parts {
		p := &d.Parts[i]
		opt, err := shop.cutters(d.Spec, p.Thickness)
		if err != nil {
			return nil, err
		}
		made, err := cut.Ways(p.OnSheet(), p.Work, opt)
		if err != nil {
			return nil, err
		}
		ways[i] = made
		p.Edges = slices.Clone(p.Edges)
		for k, b := range p.Work.Bevels {
			for j := range p.Edges {
				if e := &p.Edges[j]; e.Name == b.Name {
					e.Saw, e.Why = made[k].Way == cut.BySaw, made[k].Why
				}
			}
		}
		p.Note = strings.Join(sawLines(*p), "; ")
	}
	return ways, nil
}

// setWays records how the bevels are made.
func (r *record) setWays(ways [][]cut.Made) {
	for i, made := range ways {
		for k, m := range made {
			b := &r.Parts[i].Bevels[k]
			b.Way, b.Minutes, b.Scallop = m.Way.String(), float(m.Minutes), float(m.Scallop)
		}
	}
}

// sawLines returns a line for each edge of a part that is left to the saw.
func sawLines(p hood.Part) []string {
	var out []string
	for _, e := range p.Edges {
		if e.Saw {
			out = append(out, "finish by saw: "+cut.SawLine(e.Name, e.Bevel))
		}
	}
	return out
}

// saws replaces what a program leaves to the saw by all that its parts do, the
// edges that no program could make included. It returns how many bevels the
// program leaves that are not marked for the saw.
func (m *maker) saws(job cut.Job, p *cut.Program) (missing int) {
	var out []cut.Saw
	names := copyNames(job)
	for i, pl := range job.Placements {
		for _, e := range m.d.Parts[pl.Part].Edges {
			if e.Saw {
				out = append(out, cut.Saw{Placement: i, Name: names[i], Side: e.Name, Edge: e.Show.Transform(pl.Motion()), Angle: e.Bevel, Why: e.Why})
			}
		}
	}
	for _, s := range p.Saw {
		if !slices.ContainsFunc(out, func(o cut.Saw) bool {
			return o.Placement == s.Placement && o.Side == s.Side && o.Angle == s.Angle && o.Why == s.Why
		}) {
			missing++
		}
	}
	p.Saw = out
	return missing
}

func copyNames(job cut.Job) []string {
	out := make([]string, len(job.Placements))
	for i, pl := range job.Placements {
		out[i] = cut.CopyName(job.Parts[pl.Part].Name, pl.Copy)
	}
	return out
}

// sawCheck says that what a program leaves to the saw is what all else says.
func sawCheck(program string, missing int) checkRecord {
	return checkRecord{Name: program + ": bevels left to the saw and not listed", Value: float(missing), OK: missing == 0}
}
