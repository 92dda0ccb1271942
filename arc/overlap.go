package arc

// overlaps returns the stretches on which the first path runs along the other.
func (t *tracks) overlaps(other int, at [][]int32) []Contact {
	on := make([][]int32, len(t.link))
	for i, p := range t.piece {
		if t.seg[t.of[i]].path == other {
			on[p.link] = append(on[p.link], int32(i))
		}
	}
	after := make(map[int32]pass) // by the piece that comes in, and by the one that goes out
	before := make(map[int32]pass)
	for _, p := range t.pass {
		if p.in >= 0 {
			after[p.in] = p
		}
		if p.out >= 0 {
			before[p.out] = p
		}
	}
	var out []Contact
	seen := make(map[[2]int32]bool)
	// First from where stretches start, then the loops that are left.
	for _, loops := range [2]bool{false, true} {
		for k, p := range t.piece {
			i := int32(k)
			if t.seg[t.of[i]].path != 0 {
				continue
			}
			for _, j := range on[p.link] {
				if other == 0 && j <= i || seen[[2]int32{i, j}] {
					continue
				}
				r := stretch{t, before, after, seen, t.piece[j].from == p.from}
				if back, _, _ := r.step(i, j, false); back < 0 || loops {
					out = append(out, r.whole(i, j))
				}
			}
		}
	}
	return out
}

// A stretch is two paths running along each other.
type stretch struct {
	*tracks
	before, after map[int32]pass
	seen          map[[2]int32]bool
	same          bool // both run the same way
}

// step goes from a pair of pieces to the next along the first path, or back. It
// returns -1 where the stretch ends, and the passes at the node between.
func (r *stretch) step(i, j int32, forward bool) (ni, nj int32, at [2]pass) {
	p, q := r.after[i], r.after[j]
	if !forward {
		p = r.before[i]
	}
	if forward != r.same {
		q = r.before[j]
	}
	ni, nj = p.out, q.out
	if !forward {
		ni = p.in
	}
	if forward != r.same {
		nj = q.in
	}
	at = [2]pass{p, q}
	if ni < 0 || nj < 0 || ni == j || nj == i || r.piece[ni].link != r.piece[nj].link {
		return -1, -1, at
	}
	return ni, nj, at
}

// whole follows a stretch from its first pair of pieces to its end.
func (r *stretch) whole(i, j int32) Contact {
	_, _, start := r.step(i, j, false)
	x := Contact{Kind: Overlapping, At: r.node[start[0].node], AtP: r.length(start[0]), AtQ: r.length(start[1])}
	var end [2]pass
	for {
		r.seen[[2]int32{i, j}], r.seen[[2]int32{j, i}] = true, true
		ni, nj, at := r.step(i, j, true)
		end = at
		if ni < 0 || r.seen[[2]int32{ni, nj}] {
			break
		}
		i, j = ni, nj
	}
	x.End, x.EndP, x.EndQ = r.node[end[0].node], r.length(end[0]), r.length(end[1])
	s, ok := r.side(start, true)
	e, ok2 := r.side(end, false)
	x.Crosses = ok && ok2 && s != e
	return x
}

// side tells whether the second path comes to, or leaves, the stretch on the
// left of the first.
func (r *stretch) side(at [2]pass, start bool) (left, ok bool) {
	p, q := at[0], at[1]
	in, out := r.spokeAt(p.node, p.in, false), r.spokeAt(p.node, p.out, true)
	free := r.spokeAt(q.node, q.in, false)
	if start != r.same {
		free = r.spokeAt(q.node, q.out, true)
	}
	if in < 0 || out < 0 || free < 0 || free == in || free == out {
		return false, false
	}
	return between(out, free, in), true
}
