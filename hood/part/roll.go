package part

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/hood/internal/rise"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// roll bends a part evenly along its stretches, its middle keeping its length.
func (p Folded) roll(length float64) (Folded, error) {
	p.Curved, p.Web = true, p.Thickness
	at, heading, y := r2.Vec{X: -p.Web / 2}, math.Pi/2, 0.0
	p.Neutral = arc.Path{V: []arc.Vertex{{P: at}}}
	run := func(to, turn float64) {
		l := to - y
		if l <= 1e-12*length {
			return
		}
		p.Neutral.V[len(p.Neutral.V)-1].K = math.Tan(turn / 4)
		chord := l
		if turn != 0 {
			chord = l * math.Sin(turn/2) / (turn / 2)
		}
		sin, cos := math.Sincos(heading + turn/2)
		at = r2.Add(at, r2.Vec{X: chord * cos, Y: chord * sin})
		p.Neutral.V = append(p.Neutral.V, arc.Vertex{P: at})
		p.starts = append(p.starts, y)
		heading += turn
		y = to
	}
	for _, s := range p.Bent {
		run(s.From, 0)
		run(s.To, float64(s.Turn))
		p.bendRows(s)
	}
	run(length, 0)
	p.Breaks = append(p.Breaks, length)
	back, ok := rise.Parallel(p.Neutral, p.Web/2)
	if !ok {
		return p, fmt.Errorf("%s: %w", p.Name, bend.ErrTooTight)
	}
	p.BackLine = back
	return p, nil
}

// bendRows adds the heights at which a stretch is measured and meshed.
func (p *Folded) bendRows(s Stretch) {
	radius := (s.To - s.From) / math.Abs(float64(s.Turn))
	n, err := arc.Facets(radius+p.Thickness, s.Turn, meshTol)
	if err != nil {
		n = 1
	}
	n = max(n, 4)
	for i := range n + 1 {
		if y := s.From + (s.To-s.From)*float64(i)/float64(n); y > p.Breaks[len(p.Breaks)-1] {
			p.Breaks = append(p.Breaks, y)
		}
	}
}

// Frame returns the directions up and in at a height of a bent part.
func (p Folded) Frame(y float64) (up, in r3.Vec) {
	_, left := p.onNeutral(y)
	t := r2.Vec{X: left.Y, Y: -left.X}
	turned := func(v r2.Vec) r3.Vec { return r3.Sub(r3.Scale(v.Y, p.Pose.Up), r3.Scale(v.X, p.Pose.In)) }
	return turned(t), turned(left)
}

// SetAt moves a bent part so that a point of its show face comes to lie in a
// place, with the directions up and in of its frame there.
func (p Folded) SetAt(point r2.Vec, at, up, in r3.Vec) Folded {
	q, left := p.onNeutral(point.Y)
	q = r2.Sub(q, r2.Scale(p.Web/2, left))
	t := r2.Vec{X: left.Y, Y: -left.X}
	p.Pose.Up = r3.Add(r3.Scale(t.Y, up), r3.Scale(t.X, in))
	p.Pose.In = r3.Sub(r3.Scale(t.Y, in), r3.Scale(t.X, up))
	at = r3.Sub(at, r3.Scale(point.X, p.Pose.Right))
	p.Pose.At = r3.Add(r3.Sub(at, r3.Scale(q.Y, p.Pose.Up)), r3.Scale(q.X, p.Pose.In))
	return p
}
