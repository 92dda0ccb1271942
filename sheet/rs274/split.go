package rs274

import (
	"fmt"

	"example.com/sagitta/sheet/cut"
)

// Split returns a program for each stretch of operations with one cutter, in
// the sequence in which they have to be run, for machines that change none. Of
// a program with one cutter it returns that program. What is said of the whole
// sheet, such as the time, is in none of them.
func Split(p cut.Program) []cut.Program {
	var out []cut.Program
	for _, op := range p.Operations {
		if len(op.Moves) == 0 {
			continue
		}
		if n := len(out); n == 0 || out[n-1].Operations[0].Tool != op.Tool {
			q := p
			q.Operations, q.Tools, q.Minutes, q.CutLength, q.TravelLength = nil, nil, 0, 0, 0
			for _, t := range p.Tools {
				if t.Number == op.Tool {
					q.Tools = append(q.Tools, t)
				}
			}
			out = append(out, q)
		}
		q := &out[len(out)-1]
		q.Operations = append(q.Operations, op)
	}
	if len(out) < 2 {
		return []cut.Program{p}
	}
	for i := range out {
		out[i].Title = fmt.Sprintf("%s, program %d of %d of this sheet, in this sequence", p.Title, i+1, len(out))
	}
	return out
}
