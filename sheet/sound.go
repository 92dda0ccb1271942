package sheet

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// sound returns a plan that passes [Check], and a saw where there is one: the
// best if it does, as it always should, else the best before it that does, else
// the best without what is at fault.
func (r *run) sound(best *plan) *plan {
	if len(r.faults(best)) == 0 {
		return best
	}
	for _, p := range slices.Backward(r.trail) {
		if len(r.faults(p)) == 0 {
			return p
		}
	}
	for p := best; ; {
		f := r.faults(p)
		if len(f) == 0 {
			return p
		}
		q, ok := r.without(p, f)
		if !ok {
			return r.nothing(r.copies())
		}
		p = q
	}
}

// faults judges a plan of the group by itself.
func (r *run) faults(p *plan) Faults {
	l := Layout{Sheets: p.sheets}
	own := make([]bool, len(r.parts))
	for k, i := range r.group.parts {
		own[i] = true
		for _, c := range p.left[k] {
			l.Unplaced = append(l.Unplaced, Unplaced{Part: i, Copy: c})
		}
	}
	for i, is := range own {
		for c := 0; !is && c < r.parts[i].Copies(); c++ {
			l.Unplaced = append(l.Unplaced, Unplaced{Part: i, Copy: c})
		}
	}
	var f Faults
	if err := judge(r.parts, r.stock, l, r.opt); err != nil {
		f, _ = err.(Faults)
	}
	r.cuts = nil
	for i, s := range p.sheets {
		if r.saw != nil && len(f) == 0 {
			cuts, _, ok := r.saw.cuts(s, r.parts, r.stock[s.Stock].Shape().Bounds(), r.windows[s.Stock])
			r.cuts = append(r.cuts, cuts)
			if !ok {
				r.cuts, f = nil, append(f, Fault{Rule: "cut", Sheet: i, Part: s.Placements[len(s.Placements)-1]})
			}
		}
	}
	return f
}

// without returns a plan without the placements that faults name; ok is false
// where there are none such.
func (r *run) without(p *plan, faults Faults) (q *plan, ok bool) {
	q = p.clone()
	q.left = slices.Clone(p.left)
	for _, f := range faults {
		if f.Sheet < 0 || f.Sheet >= len(q.sheets) {
			continue
		}
		s := &q.sheets[f.Sheet]
		at := slices.Index(s.Placements, f.Part)
		k := slices.Index(r.group.parts, f.Part.Part)
		if at < 0 || k < 0 {
			continue
		}
		s.Placements = slices.Delete(slices.Clone(s.Placements), at, at+1)
		q.left[k] = append(slices.Clone(q.left[k]), f.Part.Copy)
		slices.Sort(q.left[k])
		ok = true
	}
	q.sheets = slices.DeleteFunc(q.sheets, func(s Sheet) bool { return len(s.Placements) == 0 })
	return q, ok
}

// soundStrip returns a strip that passes [Check]: that given if it does, as it
// always should, else the bounding boxes packed, else side by side in a row.
func (r *run) soundStrip(s Strip, width float64) (Strip, error) {
	err := r.checkStrip(s, width)
	if err == nil {
		return s, nil
	}
	if t, ok := r.rectStrip(width-2*(r.opt.Margin-r.opt.Gap/2), budget{iterations: 1}); ok && r.checkStrip(t, width) == nil {
		return t, nil
	}
	if t := r.row(s); r.checkStrip(t, width) == nil {
		return t, nil
	}
	return Strip{}, err
}

// row lays the copies of a strip as they are turned there in a row.
func (r *run) row(s Strip) Strip {
	var out Strip
	x := r.opt.Margin
	for _, q := range s.Placements {
		q.At = r2.Vec{}
		b := r.parts[q.Part].boxAt(q)
		q.At = r2.Vec{X: x - b.Min.X, Y: r.opt.Margin - b.Min.Y}
		x += b.Max.X - b.Min.X + r.opt.Gap
		out.Placements = append(out.Placements, q)
	}
	return out
}

func (r *run) checkStrip(s Strip, width float64) error {
	s.measure(r.parts, width, r.opt)
	roll := r.stock[0]
	roll.Length = s.Length
	return judge(r.unset(), []Stock{roll}, Layout{Sheets: []Sheet{{Placements: s.Placements}}}, r.opt)
}
