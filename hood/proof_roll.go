package hood

import "example.com/sagitta/hood/internal/rise"

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// roll bends a part evenly along its stretches, its middle keeping its length.
func (p placed) roll(length float64) (placed, error) {
	p.bent, p.web = true, p.Thickness
	at, heading, y := r2.Vec{X: -p.web / 2}, math.Pi/2, 0.0
	p.neutral = arc.Path{V: []arc.Vertex{{P: at}}}
	run := func(to, turn float64) {
		l := to - y
		if l <= 1e-12*length {
			return
		}
		p.neutral.V[len(p.neutral.V)-1].K = math.Tan(turn / 4)
		chord := l
		if turn != 0 {
			chord = l * math.Sin(turn/2) / (turn / 2)
		}
		sin, cos := math.Sincos(heading + turn/2)
		at = r2.Add(at, r2.Vec{X: chord * cos, Y: chord * sin})
		p.neutral.V = append(p.neutral.V, arc.Vertex{P: at})
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
	p.breaks = append(p.breaks, length)
	back, ok := rise.Parallel(p.neutral, p.web/2)
	if !ok {
		return p, fmt.Errorf("%s: %w", p.Name, bend.ErrTooTight)
	}
	p.back = back
	return p, nil
}

// bendRows adds the heights at which a stretch is measured and meshed.
func (p *placed) bendRows(s Stretch) {
	radius := (s.To - s.From) / math.Abs(float64(s.Turn))
	n, err := arc.Facets(radius+p.Thickness, s.Turn, meshTol)
	if err != nil {
		n = 1
	}
	n = max(n, 4)
	for i := range n + 1 {
		if y := s.From + (s.To-s.From)*float64(i)/float64(n); y > p.breaks[len(p.breaks)-1] {
			p.breaks = append(p.breaks, y)
		}
	}
}

// exact is the limit of what a rolled part keeps but for rounding, which over
// its many arcs comes to more than a joint's, mm.
const exact = 10 * rounding

// frame returns the directions up and in at a height of a bent part.
func (p placed) frame(y float64) (up, in r3.Vec) {
	_, left := p.onNeutral(y)
	t := r2.Vec{X: left.Y, Y: -left.X}
	turned := func(v r2.Vec) r3.Vec { return r3.Sub(r3.Scale(v.Y, p.pose.Up), r3.Scale(v.X, p.pose.In)) }
	return turned(t), turned(left)
}

// setAt moves a bent part so that a point of its show face comes to lie in a
// place, with the directions up and in of its frame there.
func (p placed) setAt(point r2.Vec, at, up, in r3.Vec) placed {
	q, left := p.onNeutral(point.Y)
	q = r2.Sub(q, r2.Scale(p.web/2, left))
	t := r2.Vec{X: left.Y, Y: -left.X}
	p.pose.Up = r3.Add(r3.Scale(t.Y, up), r3.Scale(t.X, in))
	p.pose.In = r3.Sub(r3.Scale(t.Y, in), r3.Scale(t.X, up))
	at = r3.Sub(at, r3.Scale(point.X, p.pose.Right))
	p.pose.At = r3.Add(r3.Sub(at, r3.Scale(q.Y, p.pose.Up)), r3.Scale(q.X, p.pose.In))
	return p
}
