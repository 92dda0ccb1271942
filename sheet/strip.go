package sheet

import (
	"context"
	"fmt"
	"math"
	"time"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/place"
	"example.com/sagitta/internal/rects"
)

// A Strip is a layout on a roll or a board that is cut to length.
type Strip struct {
	Placements []Placement
	Length     float64 // mm along x, the margins included
	Use        float64 // area of the parts by Length times the width
	Iterations int
	Stopped    bool
}

// NestStrip places all copies on a strip of a width along y, whose grain runs
// along x, and makes its length as short as it finds within the budget. The
// parts have to be of one material and thickness; sets and priorities say
// nothing here. What is returned has passed [Check]. It is a [*ParamError] if a
// part cannot lie across the strip. Nothing is placed where ctx ends before the
// parts are read and one of them fits at a slant only.
func NestStrip(ctx context.Context, parts []Part, width float64, opt Options) (Strip, error) {
	const fn = "sheet.NestStrip"
	opt.began = opt.now()
	if err := needSize(fn, "width", width); err != nil {
		return Strip{}, err
	}
	if err := checkInput(fn, parts, nil, opt); err != nil {
		return Strip{}, err
	}
	parts = measured(parts)
	defer opt.startReports()()
	for i := range parts {
		if !alike(parts[i], parts[0]) {
			return Strip{}, &ParamError{Func: fn, Param: fmt.Sprintf("parts[%d].Material", i), Value: parts[i].Material, Need: "one material and thickness", Err: arc.ErrRange}
		}
	}
	if len(parts) == 0 {
		return Strip{}, nil
	}
	roll := Stock{Material: parts[0].Material, Thickness: parts[0].Thickness, Width: width, Length: maxSize}
	r := newRun(ctx, parts, []Stock{roll}, group{parts: canonical(parts), stock: []int{0}}, opt.share(0, nil, parts))
	done := r.watch(false)
	s, err := r.strip(width)
	done()
	if err != nil {
		return Strip{}, err
	}
	s.Iterations, s.Stopped = r.iterations, ctx.Err() != nil
	if s.Stopped && len(s.Placements) == 0 {
		return s, nil
	}
	out, err := r.soundStrip(s, width)
	if err != nil {
		return Strip{}, fmt.Errorf("%s: the search made a faulty layout: %w", fn, err)
	}
	out.measure(parts, width, opt)
	out.Iterations, out.Stopped = s.Iterations, s.Stopped
	return out, nil
}

// unset returns the parts without their sets.
func (r *run) unset() []Part {
	out := append([]Part(nil), r.parts...)
	for i := range out {
		out[i].Set = ""
	}
	return out
}

func (s *Strip) measure(parts []Part, width float64, opt Options) {
	area := 0.0
	for _, p := range s.Placements {
		b := parts[p.Part].boxAt(p)
		s.Length = math.Max(s.Length, b.Max.X+opt.Margin)
		area += parts[p.Part].Outline.Area()
	}
	s.Use = area / (s.Length * width)
}

func (r *run) strip(width float64) (Strip, error) {
	inset := r.opt.Margin - r.opt.Gap/2
	if r.plain() {
		if s, ok := r.rectStrip(width-2*inset, budget{r.opt.Iterations, r.opt.Time}); ok {
			return s, nil
		}
	}
	r.grow()
	items := make([]place.Item, len(r.group.parts))
	of := make([]int, len(items))
	for k, i := range r.group.parts {
		p := r.parts[i]
		of[k] = k
		turns := angles(p, r.stock[0])
		if len(turns) == 0 || width <= 2*inset {
			return Strip{}, r.tooWide(i)
		}
		items[k] = place.Item{Outer: r.outer[k], Holes: r.holes[k], Rotations: radians(turns), Mirror: p.MirrorOK, Demand: p.Copies(), AnyRotation: p.anyTurn()}
	}
	res, err := place.Strip(r.ctx, items, width-2*inset, place.Options{
		Seed: r.opt.Seed, Iterations: r.opt.Iterations, Time: r.opt.Time, Now: r.opt.Clock, Workers: r.opt.Workers, Progress: r.stripProgress(),
	})
	if err != nil {
		return Strip{}, r.explain("sheet.NestStrip", err, of)
	}
	r.iterations += res.Iterations
	var s Strip
	if len(res.Placed) < r.count() { // stopped before it began
		if s, ok := r.rectStrip(width-2*inset, budget{}); ok {
			return s, nil
		}
	}
	for _, q := range res.Placed {
		s.Placements = append(s.Placements, Placement{
			Part: r.group.parts[q.Item], Copy: q.Copy, At: r2.Add(q.At, r2.Vec{X: inset, Y: inset}),
			Rotate: arc.Angle(q.Rotation), Mirror: q.Mirrored,
		})
	}
	return s, nil
}

func (r *run) stripProgress() func(place.Progress) {
	if r.opt.news == nil && r.gained == nil {
		return nil
	}
	first := true
	return func(p place.Progress) {
		if r.gained != nil {
			r.gained()
		}
		if r.opt.news == nil {
			return
		}
		g := LargerOffcut
		if first {
			g, first = MorePlaced, false
		}
		r.opt.news.report(Progress{Gain: g, Placed: p.Placed, Sheets: 1, Use: p.Density, Iterations: p.Iterations})
	}
}

// count returns how many copies there are in the group.
func (r *run) count() int {
	n := 0
	for _, i := range r.group.parts {
		n += r.parts[i].Copies()
	}
	return n
}

func (r *run) tooWide(part int) error {
	return &ParamError{Func: "sheet.NestStrip", Param: fmt.Sprintf("parts[%d].Outline", part), Value: r.parts[part].Name, Need: "a part that can lie across the strip", Err: arc.ErrRange}
}

// rectStrip packs rectangles within a width from which the margins have been
// taken; the packer's strip grows in height.
func (r *run) rectStrip(width float64, b budget) (Strip, bool) {
	items, of := r.boxes(r.copies(), r.stock[0])
	for i := range items {
		items[i].W, items[i].H = items[i].H, items[i].W
	}
	orders := 0
	stop := r.stopIn(b.time, b.iterations, &orders)
	placed, _ := rects.Strip(items, width, r.opt.Seed, stop)
	r.iterations += (orders + ordersPerSweep - 1) / ordersPerSweep
	if len(items) == 0 || len(placed) < len(items) {
		return Strip{}, false
	}
	var s Strip
	for _, q := range placed {
		q.X, q.Y, q.W, q.H = q.Y, q.X, q.H, q.W
		s.Placements = append(s.Placements, of[q.Item].placed(q, r2.Vec{X: r.opt.Margin, Y: r.opt.Margin})...)
	}
	return s, true
}

// stopIn returns when packing ends: after a while, no while being no limit, or a
// number of orders.
func (r *run) stopIn(d time.Duration, iterations int, count *int) rects.Stop {
	s := rects.Stop{Ctx: r.ctx, Now: r.opt.Clock, Iterations: max(b2i(d == 0), iterations*ordersPerSweep), Count: count}
	if d > 0 {
		s.End = r.opt.now().Add(d)
	}
	return s
}
