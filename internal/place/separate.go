package place

// effort bounds one separation.
type effort struct {
	patience int // sweeps without a better layout
	strikes  int // patience spent this often without real progress
}

// separate drives the overlaps out of the layout, by guided local search. It
// reports success; otherwise it leaves the layout of least loss it met.
func (l *lane) separate(e effort) bool {
	l.sweeps++ // a layout that is legal at once costs something too
	l.measure()
	best, least := l.layout.clone(), l.total()
	for strikes := 0; least > 0 && strikes < e.strikes; {
		from := least
		for idle := 0; idle < e.patience; idle++ {
			if !l.sweep() {
				l.restore(best)
				return false
			}
			t := l.total()
			if t == 0 {
				return true
			}
			if t < least {
				if t < 0.98*least {
					idle = 0
				}
				least = t
				best.copyFrom(l.layout)
			}
			l.reweigh()
		}
		if least < 0.98*from {
			strikes = 0
		} else {
			strikes++
		}
		l.restore(best)
	}
	return least == 0
}

// sweep gives each colliding copy, in random order, the best place found.
func (l *lane) sweep() bool {
	l.sweeps++
	if l.limit > 0 && l.sweeps > l.limit {
		return false
	}
	for _, i := range l.rng.Perm(l.movable) {
		if l.row[i] == 0 {
			continue
		}
		if l.stop.done() {
			return false
		}
		old := l.weighted(i)
		if s := l.search(i); s.v < old {
			l.move(i, s.o, s.x, s.y)
		}
	}
	return true
}

func (l *lane) weighted(i int) float64 {
	n, sum := len(l.x), 0.0
	w := l.weight[i*n : (i+1)*n]
	for j, v := range l.loss[i*n : (i+1)*n] {
		sum += float64(w[j] * v)
	}
	return sum
}

// reweigh raises the weights of colliding pairs by their severity and lets
// those of free pairs fade.
func (l *lane) reweigh() {
	n := len(l.x)
	worst := 0.0
	for i, sum := range l.row {
		if sum == 0 {
			continue
		}
		for _, v := range l.loss[i*n : (i+1)*n] {
			worst = max(worst, v)
		}
	}
	if worst == 0 {
		return
	}
	for i, out := range l.absent {
		if out {
			continue
		}
		w := l.weight[i*n : (i+1)*n]
		for k, v := range l.loss[i*n : (i+1)*n] {
			if v > 0 {
				w[k] *= grow + (grow2-grow)*v/worst
			} else if w[k] > 1 {
				w[k] = max(1, w[k]*decay)
			}
		}
	}
}
