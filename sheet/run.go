package sheet

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/place"
)

// A run is the search for one group.
type run struct {
	ctx   context.Context
	parts []Part
	stock []Stock
	group
	opt        Options
	begin      time.Time
	iterations int
	outer      [][]r2.Vec // grown outlines of the group's parts
	holes      [][][]r2.Vec
	areas      []float64
}

func newRun(ctx context.Context, parts []Part, stock []Stock, g group, opt Options) *run {
	r := &run{ctx: ctx, parts: parts, stock: stock, group: g, opt: opt, begin: time.Now()}
	for _, i := range g.parts {
		o, h := grown(parts[i].Outline, opt.Gap/2, opt.tolerance())
		r.outer, r.holes = append(r.outer, o), append(r.holes, h)
		r.areas = append(r.areas, parts[i].Outline.Area())
	}
	return r
}

// share returns the options with the part of the budget that is due to group
// i: by the square root of the number of copies.
func (o Options) share(i int, all []group, parts []Part) Options {
	if o.Iterations == 0 && o.Time == 0 {
		o.Iterations = 200
	}
	sum, own := 0.0, 0.0
	for j, g := range all {
		n := 0
		for _, k := range g.parts {
			n += parts[k].Copies()
		}
		if sum += math.Sqrt(float64(n)); j == i {
			own = math.Sqrt(float64(n))
		}
	}
	o.Time = time.Duration(float64(o.Time) * own / sum)
	return o
}

// A plan is sheets that have been filled in order, and what is left over.
type plan struct {
	sheets []Sheet
	left   [][]int // copies of each part of the group
	large  []bool  // the part fits no empty sheet
}

// copies lists all copies of the group.
func (r *run) copies() [][]int {
	out := make([][]int, len(r.group.parts))
	for k, i := range r.group.parts {
		for j := range r.parts[i].Copies() {
			out[k] = append(out[k], j)
		}
	}
	return out
}

// A budget is what one call of the engine may use.
type budget struct {
	iterations int
	time       time.Duration
}

// fill places copies on the sheets of the list, which have the same grain, and
// takes them off left.
func (r *run) fill(left [][]int, sheets []int, b budget) (*plan, error) {
	p := &plan{left: slices.Clone(left), large: make([]bool, len(left))}
	for k := range p.large {
		p.large[k] = true // unless it fits one of these
	}
	var items []place.Item
	var of []int
	for k, copies := range left {
		part := r.parts[r.group.parts[k]]
		turns := angles(part, r.stock[sheets[0]])
		if len(copies) == 0 || len(turns) == 0 {
			continue
		}
		items = append(items, place.Item{
			Outer: r.outer[k], Holes: r.holes[k], Rotations: radians(turns), Mirror: part.MirrorOK,
			Demand: len(copies), Priority: part.Priority,
		})
		of = append(of, k)
	}
	containers, shift, which := r.containers(sheets)
	if len(items) == 0 || len(containers) == 0 {
		return p, nil
	}
	res, err := place.Fit(r.ctx, items, containers, place.Options{
		Seed: r.opt.Seed, Iterations: b.iterations, Time: b.time, Workers: r.opt.Workers, Progress: r.progress(p),
	})
	if err != nil {
		return nil, r.explain(err, of)
	}
	r.iterations += res.Iterations
	on := make([]Sheet, len(containers))
	for _, q := range res.Placed {
		k := of[q.Item]
		on[q.Container].Placements = append(on[q.Container].Placements, Placement{
			Part: r.group.parts[k], Copy: left[k][q.Copy], At: r2.Add(q.At, shift[q.Container]),
			Rotate: arc.Angle(q.Rotation), Mirror: q.Mirrored,
		})
	}
	for c, s := range on {
		if len(s.Placements) > 0 {
			s.Stock = which[c]
			p.sheets = append(p.sheets, s)
		}
	}
	for _, k := range of {
		p.left[k], p.large[k] = nil, false
	}
	for _, u := range res.Unplaced {
		k := of[u.Item]
		p.left[k] = append(p.left[k], left[k][u.Copy])
		p.large[k] = p.large[k] || u.Reason == place.TooLarge
	}
	return p, nil
}

func radians(a []arc.Angle) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = float64(a[i])
	}
	return out
}

// containers returns what the grown outlines have to stay in: the sheets less
// the margin, plus half the gap by which the parts have been grown.
func (r *run) containers(sheets []int) (out []place.Container, shift []r2.Vec, which []int) {
	inset := r.opt.Margin - r.opt.Gap/2
	for _, i := range sheets {
		s := r.stock[i]
		var c place.Container
		var at r2.Vec
		if s.irregular() {
			ring := s.Outline.Outer.Reverse()
			edge, ok := grownLoop(ring, math.Max(0, inset), r.opt.tolerance())
			if !ok {
				continue
			}
			slices.Reverse(edge)
			c.Outer = edge
			for _, h := range s.Outline.Holes {
				f, _ := grown(arc.Region{Outer: h.Reverse()}, math.Max(0, inset), r.opt.tolerance())
				c.Forbidden = append(c.Forbidden, f)
			}
		} else {
			at = r2.Vec{X: inset, Y: inset}
			c.Width, c.Height = s.Length-2*inset, s.Width-2*inset
			if c.Width <= 0 || c.Height <= 0 {
				continue
			}
		}
		for _, f := range s.Forbidden {
			p, _ := grown(arc.Region{Outer: f.Outer}, r.opt.Gap/2, r.opt.tolerance())
			for j := range p {
				p[j] = r2.Sub(p[j], at)
			}
			c.Forbidden = append(c.Forbidden, p)
		}
		out, shift, which = append(out, c), append(shift, at), append(which, i)
	}
	return out, shift, which
}

// explain turns an error of the engine into one about the parts.
func (r *run) explain(err error, of []int) error {
	var e *place.Error
	var i int
	if !errors.As(err, &e) {
		return err
	}
	if _, scan := fmt.Sscanf(e.Param, "items[%d]", &i); scan != nil || i >= len(of) {
		return fmt.Errorf("sheet.Nest: %w", err)
	}
	part := r.group.parts[of[i]]
	return &ParamError{Func: "sheet.Nest", Param: fmt.Sprintf("parts[%d].Outline", part), Value: r.parts[part].Name, Need: e.Need, Err: arc.ErrCrossing}
}

// progress returns the engine's callback, which adds what stands already.
func (r *run) progress(*plan) func(place.Progress) {
	if r.opt.Progress == nil {
		return nil
	}
	return func(p place.Progress) {
		r.opt.Progress(Progress{Placed: p.Placed, Use: p.Density, Iterations: r.iterations + p.Iterations, Elapsed: time.Since(r.begin)})
	}
}
