package sheet

import (
	"context"
	"errors"
	"example.com/sagitta/internal/num"
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
	begin, end time.Time // end is zero where there is no limit
	iterations int
	outer      [][]r2.Vec // grown outlines of the group's parts, see grow
	holes      [][][]r2.Vec
	cores      [][][]r2.Vec // the parts themselves, where they may come nearer to an edge than half the gap
	areas      []float64    // of the group's parts
	sizes      []float64    // of all parts
	best       *plan        // so far
	trail      []*plan      // the best before it, in order
	rival      *plan        // of another run, that is reported until there is a better one
	gained     func()       // to call when there is a better plan; nil is none
	gainedBy   func(*plan)
	before     Layout // of the groups before this one
	memory     place.Memory
	joiners    []*joiner
	windows    windows
	frame      framing
	fits       []bool     // the part goes on an empty sheet, as far as its box tells
	tried      []bool     // its outline has been
	straight   bool       // cut by a saw: the windows are all of the sheets
	saw        *Saw       // that has to cut the layout; nil is none
	cuts       [][]SawCut // of the sheets of the plan that was last found sound
}

func newRun(ctx context.Context, parts []Part, stock []Stock, g group, opt Options) *run {
	r := &run{ctx: ctx, parts: parts, stock: stock, group: g, opt: opt, begin: opt.now(), windows: windows{}, frame: wholeSheets, sizes: sizesOf(parts)}
	if opt.Time > 0 {
		r.end = r.begin.Add(opt.Time)
	}
	for _, i := range g.parts {
		r.areas = append(r.areas, r.sizes[i])
	}
	r.fits, r.tried = make([]bool, len(g.parts)), make([]bool, len(g.parts))
	return r
}

// grow works out the outlines that are searched with, which boxes do without.
func (r *run) grow() {
	if r.outer != nil {
		return
	}
	for _, i := range r.group.parts {
		o, h := grown(r.parts[i].Outline, r.opt.Gap/2, r.opt.tolerance())
		r.outer, r.holes = append(r.outer, o), append(r.holes, h)
		r.cores = append(r.cores, r.core(r.parts[i]))
	}
	r.snap()
}

// areaDecimals is what areas are rounded to before they decide, in mm²: the last
// bits differ between processors, and equal layouts must not.
const areaDecimals = 3

// sizesOf returns the areas of the parts.
func sizesOf(parts []Part) []float64 {
	out := make([]float64, len(parts))
	for i := range parts {
		out[i] = num.Decimals(parts[i].Outline.Area(), areaDecimals)
	}
	return out
}

// share returns the options with the part of the budget that is due to group
// i: by the square root of the number of copies, of what is left of the time. A
// single copy needs hardly any.
func (o Options) share(i int, all []group, parts []Part) Options {
	if o.Iterations == 0 && o.Time == 0 {
		o.Iterations = 200
	}
	if o.Time == 0 {
		return o
	}
	sum, own := 0.0, 0.0
	for j, g := range all[i:] {
		n := 0
		for _, k := range g.parts {
			n += parts[k].Copies()
		}
		w := 0.0
		if len(g.stock) > 0 && n > 0 {
			w = math.Sqrt(float64(n)) - 0.9
		}
		if sum += w; j == 0 {
			own = w
		}
	}
	if sum > 0 {
		left := o.Time - o.since(o.began)
		o.Time = max(time.Millisecond, time.Duration(float64(left)*own/sum))
	}
	return o
}

// A plan is sheets that have been filled in order, and what is left over.
type plan struct {
	sheets []Sheet
	left   [][]int // copies of each part of the group
	large  []bool  // the part fits no empty sheet that was tried
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

// limited returns what of b is left until the end of the run.
func (r *run) limited(b budget) budget {
	if !r.end.IsZero() {
		b.time = max(time.Millisecond, min(b.time, r.end.Sub(r.opt.now())))
	}
	return b
}

// late reports whether the search has to come to its end.
func (r *run) late() bool {
	return r.ctx.Err() != nil || !r.end.IsZero() && !r.opt.now().Before(r.end)
}

// past reports whether the search has to end, or a share of its time is over.
func (r *run) past(share float64) bool {
	return r.late() || !r.end.IsZero() && r.opt.since(r.begin) >= time.Duration(share*float64(r.opt.Time))
}

// fill places copies on the sheets of the list, which have the same grain, and
// says what is left.
func (r *run) fill(left [][]int, sheets []int, b budget) (*plan, error) {
	if len(r.setsIn(left)) > 0 {
		return r.fillSets(left, sheets, b)
	}
	return r.fillPinned(left, sheets, nil, nil, b)
}

// fillPinned is fill with some sets pinned to sheets, an index of the list
// each; sets that are not pinned stay out. It may begin with a legal layout of
// the sheets.
func (r *run) fillPinned(left [][]int, sheets []int, pins map[string]int, begin []Sheet, b budget) (*plan, error) {
	p := r.nothing(left)
	items, of := r.items(left, r.stock[sheets[0]], pins)
	for k, i := range r.group.parts {
		_, pinned := pins[r.parts[i].Set]
		p.large[k] = r.parts[i].Set == "" || pinned // the others are not tried
	}
	if len(items) == 0 {
		return p, nil
	}
	containers, shift := r.containers(sheets)
	b = r.limited(b)
	res, err := place.Fit(r.ctx, items, containers, place.Options{
		Seed: r.opt.Seed, Iterations: b.iterations, Time: b.time, Now: r.opt.Clock, Workers: r.opt.Workers, Progress: r.progress(),
		Memory: &r.memory, Rough: begin == nil, Start: r.startOf(begin, left, shift, of),
	})
	if err != nil {
		return nil, r.explain("sheet.Nest", err, of)
	}
	r.iterations += res.Iterations
	on := make([]Sheet, len(containers))
	for _, q := range res.Placed {
		k := of[q.Item]
		c := left[k][q.Copy]
		on[q.Container].Placements = append(on[q.Container].Placements, Placement{
			Part: r.group.parts[k], Copy: c, At: r2.Add(q.At, shift[q.Container]),
			Rotate: arc.Angle(q.Rotation), Mirror: q.Mirrored,
		})
		p.left[k] = slices.DeleteFunc(slices.Clone(p.left[k]), func(d int) bool { return d == c })
	}
	for c, s := range on {
		if len(s.Placements) > 0 {
			s.Stock = sheets[c]
			p.sheets = append(p.sheets, s)
		}
	}
	r.noteLarge(p, res, of)
	return p, nil
}

// startOf returns a layout for the engine to begin with.
func (r *run) startOf(begin []Sheet, left [][]int, shift []r2.Vec, of []int) []place.Placement {
	var out []place.Placement
	for c, s := range begin {
		for _, q := range s.Placements {
			k := slices.Index(r.group.parts, q.Part)
			out = append(out, place.Placement{
				Item: slices.Index(of, k), Copy: slices.Index(left[k], q.Copy), Container: c,
				At: r2.Sub(q.At, shift[c]), Rotation: float64(q.Rotate), Mirrored: q.Mirror,
			})
		}
	}
	return out
}

// noteLarge notes which parts the engine found too large for every sheet.
func (r *run) noteLarge(p *plan, res place.Result, of []int) {
	for _, k := range of {
		p.large[k] = false
		r.tried[k] = r.tried[k] || len(res.Placed)+len(res.Unplaced) > 0
	}
	for _, u := range res.Unplaced {
		if u.Reason == place.TooLarge {
			p.large[of[u.Item]] = true
		}
	}
	for _, k := range of {
		r.fits[k] = r.fits[k] || r.tried[k] && !p.large[k]
	}
}

// items returns what is left as items of the engine, and the part within the
// group of each.
func (r *run) items(left [][]int, s Stock, pins map[string]int) (items []place.Item, of []int) {
	r.grow()
	for k, copies := range left {
		part := r.parts[r.group.parts[k]]
		turns := angles(part, s)
		pin, pinned := pins[part.Set]
		if len(copies) == 0 || len(turns) == 0 || part.Set != "" && !pinned {
			continue
		}
		it := place.Item{
			Outer: r.outer[k], Holes: r.holes[k], Core: r.cores[k], Rotations: radians(turns), AnyRotation: part.anyTurn(), Mirror: part.MirrorOK,
			Demand: len(copies), Priority: 2 * r.rank(k),
		}
		if pinned {
			it.Priority++ // before others that may go elsewhere
			it.Containers = []int{pin}
		}
		items, of = append(items, it), append(of, k)
	}
	return items, of
}

func radians(a []arc.Angle) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = float64(a[i])
	}
	return out
}

// explain turns an error of the engine into one about the parts.
func (r *run) explain(fn string, err error, of []int) error {
	var e *place.Error
	var i int
	if !errors.As(err, &e) {
		return err
	}
	if _, scan := fmt.Sscanf(e.Param, "items[%d]", &i); scan != nil || i >= len(of) {
		return fmt.Errorf("%s: %w", fn, err)
	}
	part := r.group.parts[of[i]]
	kind := arc.ErrCrossing
	if errors.Is(err, place.ErrTooLarge) {
		kind = arc.ErrRange
	}
	return &ParamError{Func: fn, Param: fmt.Sprintf("parts[%d].Outline", part), Value: r.parts[part].Name, Need: e.Need, Err: kind}
}

// clone returns a plan whose list of sheets can be changed.
func (p *plan) clone() *plan {
	q := *p
	q.sheets = slices.Clone(p.sheets)
	return &q
}
