package sheet

import (
	"slices"
	"time"

	"example.com/sagitta/internal/place"
)

// progress returns the engine's callback.
func (r *run) progress() func(place.Progress) {
	if r.opt.Progress == nil {
		return nil
	}
	return func(p place.Progress) { r.report(p.Iterations) }
}

// report tells of the best plan so far.
func (r *run) report(iterations int) {
	if r.opt.Progress == nil || r.best == nil || r.rival != nil && !r.better(r.best, r.rival) {
		return
	}
	p := Progress{Iterations: r.before.Iterations + r.iterations + iterations, Elapsed: time.Since(r.opt.began)}
	area, total := 0.0, 0.0
	for _, s := range slices.Concat(r.before.Sheets, r.best.sheets) {
		p.Sheets++
		p.Placed += len(s.Placements)
		area += s.area(r.sizes)
		total += r.stock[s.Stock].Area()
	}
	if total > 0 {
		p.Use = area / total
	}
	r.opt.Progress(p)
}
