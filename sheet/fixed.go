package sheet

import (
	"context"
	"fmt"
	"slices"
)

const beginShare = 8 // part of the time, inverse, for the rest of a set that stands in part

// checkFixed demands that what stands is legal by itself.
func checkFixed(fn string, parts []Part, stock []Stock, opt Options) error {
	l := Layout{Sheets: opt.Fixed}
	on := map[[2]int]bool{}
	for _, s := range opt.Fixed {
		for _, q := range s.Placements {
			on[[2]int{q.Part, q.Copy}] = true
		}
	}
	for i, p := range parts {
		for c := range p.Copies() {
			if !on[[2]int{i, c}] {
				l.Unplaced = append(l.Unplaced, Unplaced{Part: i, Copy: c})
			}
		}
	}
	err := judge(parts, stock, l, opt)
	f, ok := err.(Faults)
	if !ok {
		return err
	}
	// A set of which some stands is finished by the search.
	split := func(f Fault) bool { return f.Rule == "set" && !on[[2]int{f.Part.Part, f.Part.Copy}] }
	if f = slices.DeleteFunc(f, split); len(f) == 0 {
		return nil
	}
	return fmt.Errorf("%s: opt.Fixed: %w", fn, f)
}

// nestAround lays what does not stand yet on the sheets that do, first, and on
// new ones. To the search a sheet that stands is stock that is paid for, on
// which the parts there are forbidden.
func nestAround(ctx context.Context, parts []Part, stock []Stock, opt Options) (Layout, error) {
	a := &standing{parts: parts, stock: stock, fixed: make([]Sheet, len(opt.Fixed))}
	for i, s := range opt.Fixed {
		a.fixed[i] = Sheet{Stock: s.Stock, Placements: slices.Clone(s.Placements)}
	}
	opt.Fixed = nil
	var out Layout
	for _, set := range a.begunSets() {
		some := opt
		some.Time = opt.Time / beginShare
		l, err := a.nest(ctx, some, set)
		if err != nil {
			return l, err
		}
		out.Iterations += l.Iterations
	}
	l, err := a.nest(ctx, opt, begunSet{})
	if err != nil {
		return l, err
	}
	l.Iterations += out.Iterations
	l.leaveOut(a.out)
	return l, nil
}

// A standing is a layout that is finished around what stands.
type standing struct {
	parts []Part
	stock []Stock
	fixed []Sheet
	out   []Unplaced // members of begun sets that have no room beside the others
}

// A begunSet is a set of which some parts stand on a sheet.
type begunSet struct {
	key   setKey
	sheet int
}

func (a *standing) begunSets() (out []begunSet) {
	c := &checker{parts: a.parts}
	for i, s := range a.fixed {
		for _, q := range s.Placements {
			if key, ok := c.setOf(q.Part); ok && !slices.ContainsFunc(out, func(b begunSet) bool { return b.key == key }) {
				out = append(out, begunSet{key, i})
			}
		}
	}
	return out
}

// nest lays the rest of a begun set on its sheet or, where none is given, all
// else, and adds it to what stands; what it returns is of the whole layout.
func (a *standing) nest(ctx context.Context, opt Options, set begunSet) (Layout, error) {
	c := &checker{parts: a.parts}
	parts, copies, from := a.rest(func(i int) bool {
		key, in := c.setOf(i)
		if set.key.set != "" {
			return in && key == set.key
		}
		return !in || !slices.ContainsFunc(a.begunSets(), func(b begunSet) bool { return b.key == key })
	})
	stock, kind := a.offer(set)
	if set.key.set != "" {
		for i := range parts {
			parts[i].Set = ""
		}
	}
	l, err := nest(ctx, parts, stock, opt)
	if err != nil {
		return l, err
	}
	back := func(q Placement) Placement {
		q.Copy = copies[q.Part][q.Copy]
		q.Part = from[q.Part]
		return q
	}
	if set.key.set != "" && len(l.Unplaced) > 0 {
		for i, n := range copies {
			for _, k := range n {
				a.out = append(a.out, Unplaced{from[i], k, SetSplit})
			}
		}
		return Layout{Iterations: l.Iterations}, nil
	}
	var fresh []Sheet
	for _, s := range l.Sheets {
		for k := range s.Placements {
			s.Placements[k] = back(s.Placements[k])
		}
		if k := kind[s.Stock]; k < 0 {
			f := &a.fixed[-1-k]
			f.Placements = append(f.Placements, s.Placements...)
		} else {
			s.Stock = k
			fresh = append(fresh, s)
		}
	}
	for i, u := range l.Unplaced {
		q := back(Placement{Part: u.Part, Copy: u.Copy})
		l.Unplaced[i].Part, l.Unplaced[i].Copy = q.Part, q.Copy
	}
	l.Sheets = append(slices.Clone(a.fixed), fresh...)
	return l, nil
}

// rest lists the parts that are wanted and the copies of each that do not stand.
func (a *standing) rest(wanted func(part int) bool) (parts []Part, copies [][]int, from []int) {
	stands := map[[2]int]bool{}
	for _, s := range a.fixed {
		for _, q := range s.Placements {
			stands[[2]int{q.Part, q.Copy}] = true
		}
	}
	for i, p := range a.parts {
		var left []int
		for c := range p.Copies() {
			if !stands[[2]int{i, c}] {
				left = append(left, c)
			}
		}
		if len(left) > 0 && wanted(i) {
			p.Qty = len(left)
			parts, copies, from = append(parts, p), append(copies, left), append(from, i)
		}
	}
	return parts, copies, from
}

// offer returns the stock to search with and what each kind is: an index in the
// list of stock, or -1 less that of a sheet that stands.
func (a *standing) offer(set begunSet) (out []Stock, kind []int) {
	used := make([]int, len(a.stock))
	for i, s := range a.fixed {
		used[s.Stock]++
		if set.key.set != "" && i != set.sheet {
			continue
		}
		st := a.stock[s.Stock]
		st.Count, st.Price, st.LeastGain, st.stands = 1, 0, 0, true
		st.Forbidden = slices.Clone(st.Forbidden)
		for _, q := range s.Placements {
			st.Forbidden = append(st.Forbidden, a.parts[q.Part].Outline.Transform(q.Motion()))
		}
		out, kind = append(out, st), append(kind, -1-i)
	}
	for i, st := range a.stock {
		if set.key.set != "" || st.Count > 0 && used[i] >= st.Count {
			continue
		}
		if st.Count > 0 {
			st.Count -= used[i]
		}
		out, kind = append(out, st), append(kind, i)
	}
	return out, kind
}
