package sheet

import (
	"cmp"
	"slices"
)

const dealTries = 3 // for two sheets

// regroup deals what lies on two sheets of a kind anew, job by job, and packs both
// again, where jobs come to lie nearer together by that and the plan is no worse.
func (r *run) regroup(p *plan) *plan {
	stop := r.opt.afterwards(r.ctx)
	apart := r.newGathering(p).apart()
	for i := range p.sheets {
		for j := range i {
			for k := 0; k < dealTries && !stop(); k++ {
				q, ok := r.dealt(p, j, i, k)
				if !ok {
					continue
				}
				if d := r.newGathering(q).apart(); d < apart-1 && !r.prefers(p, q) && len(r.faults(q)) == 0 {
					p, apart = q, d
					break
				}
			}
		}
	}
	return p
}

// dealt returns a plan in which the jobs that lie more on sheet i than on j, and
// then others, are packed on i, and the rest on j.
func (r *run) dealt(p *plan, i, j, try int) (q *plan, ok bool) {
	stock := p.sheets[i].Stock
	if p.sheets[j].Stock != stock {
		return nil, false
	}
	on := [2][][]int{r.copiesOn(p.sheets[i]), r.copiesOn(p.sheets[j])}
	lean := map[string]float64{} // area of each job on i, less that on j
	room := p.sheets[i].area(r.sizes) * (1 - 0.02*float64(try))
	var order []int
	for k, part := range r.group.parts {
		job := r.parts[part].Near
		lean[job] += float64(len(on[0][k])-len(on[1][k])) * r.areas[k]
		if len(on[0][k])+len(on[1][k]) > 0 {
			order = append(order, k)
		}
		if r.parts[part].Set != "" && len(on[0][k])+len(on[1][k]) > 0 {
			return nil, false
		}
	}
	rank := func(k int) int { return b2i(r.parts[r.group.parts[k]].Near == "") } // these fill up
	job := func(k int) string { return r.parts[r.group.parts[k]].Near }
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), -cmp.Compare(lean[job(a)], lean[job(b)]), cmp.Compare(job(a), job(b)), -cmp.Compare(r.areas[a], r.areas[b]))
	})
	var deal [2][][]int
	for s := range deal {
		deal[s] = make([][]int, len(on[0]))
	}
	for _, k := range order {
		for _, c := range slices.Concat(on[0][k], on[1][k]) {
			s := 1
			if r.areas[k] <= room {
				s, room = 0, room-r.areas[k]
			}
			deal[s][k] = append(deal[s][k], c)
		}
	}
	q = p.clone()
	pack := packing{rectPacker: freeRects, join: !r.plain()}
	if r.saw != nil {
		pack = packing{rectPacker: sawPacker(*r.saw)}
	}
	for s, at := range [2]int{i, j} {
		if q.sheets[at], ok = r.packOne(deal[s], stock, budget{iterations: 1}, pack); !ok {
			return nil, false
		}
	}
	return q, true
}

// apart returns how far the copies of all jobs are apart.
func (g *gathering) apart() (sum float64) {
	var jobs []string
	for job := range g.jobs {
		jobs = append(jobs, job)
	}
	slices.Sort(jobs) // sums of floats depend on the order
	for _, job := range jobs {
		sum += g.spread(job)
	}
	return sum
}
