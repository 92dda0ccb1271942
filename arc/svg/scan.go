package svg

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
)

// A scanner reads numbers as path data and transforms hold them: with white
// space, or a comma, or nothing between.
type scanner struct{ s string }

const space = " \t\r\n\f"

func (x *scanner) trim() { x.s = strings.TrimLeft(x.s, space) }

// comma skips white space and at most one comma.
func (x *scanner) comma() {
	x.trim()
	if strings.HasPrefix(x.s, ",") {
		x.s = x.s[1:]
		x.trim()
	}
}

func (x *scanner) done() bool { x.trim(); return x.s == "" }

// number reads one that is finite, and what may stand between it and the next.
func (x *scanner) number() (float64, bool) {
	x.trim()
	s, i := x.s, 0
	digits := func() (n int) {
		for i < len(s) && '0' <= s[i] && s[i] <= '9' {
			i, n = i+1, n+1
		}
		return n
	}
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	n := digits()
	if i < len(s) && s[i] == '.' {
		i++
		n += digits()
	}
	if n == 0 {
		return 0, false
	}
	if end := i; i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		i++
		if i < len(s) && (s[i] == '+' || s[i] == '-') {
			i++
		}
		if digits() == 0 {
			i = end // an e that starts a unit
		}
	}
	v, err := strconv.ParseFloat(s[:i], 64)
	x.s = s[i:]
	x.comma()
	return v, err == nil && !math.IsInf(v, 0)
}

// flag reads a 0 or 1, which may have nothing after it.
func (x *scanner) flag() (set, ok bool) {
	x.trim()
	if x.s == "" || x.s[0] != '0' && x.s[0] != '1' {
		return false, false
	}
	set = x.s[0] == '1'
	x.s = x.s[1:]
	x.comma()
	return set, true
}

// A matrix maps x, y to ax + cy + e, bx + dy + f.
type matrix struct{ a, b, c, d, e, f float64 }

func (m matrix) apply(p r2.Vec) r2.Vec {
	return r2.Add(m.linear(p), r2.Vec{X: m.e, Y: m.f})
}

// linear maps a difference of points.
func (m matrix) linear(v r2.Vec) r2.Vec {
	return r2.Vec{X: m.a*v.X + m.c*v.Y, Y: m.b*v.X + m.d*v.Y}
}

// of returns the map that does n first.
func (m matrix) of(n matrix) matrix {
	u, v, w := m.linear(r2.Vec{X: n.a, Y: n.b}), m.linear(r2.Vec{X: n.c, Y: n.d}), m.apply(r2.Vec{X: n.e, Y: n.f})
	return matrix{u.X, u.Y, v.X, v.Y, w.X, w.Y}
}

func move(x, y float64) matrix { return matrix{1, 0, 0, 1, x, y} }

func turn(degrees float64) matrix {
	sin, cos := math.Sincos(math.Remainder(degrees, 360) * math.Pi / 180)
	if math.Mod(degrees, 90) == 0 { // exactly
		sin, cos = math.Round(sin), math.Round(cos)
	}
	return matrix{cos, sin, -sin, cos, 0, 0}
}

// transforms reads a list of them.
func transforms(s string) (matrix, bool) {
	m := move(0, 0)
	x := scanner{s: s}
	for !x.done() {
		name, rest, ok := strings.Cut(x.s, "(")
		args, after, ok2 := strings.Cut(rest, ")")
		if !ok || !ok2 {
			return m, false
		}
		var v []float64
		for a := (scanner{s: args}); !a.done(); {
			n, ok := a.number()
			if !ok || len(v) == 6 {
				return m, false
			}
			v = append(v, n)
		}
		t, ok := transform(strings.Trim(name, space), v)
		if !ok {
			return m, false
		}
		m = m.of(t)
		x.s = after
		x.comma()
	}
	return m, true
}

func transform(name string, v []float64) (matrix, bool) {
	skew := func(i int) float64 { return math.Tan(v[i] * math.Pi / 180) }
	switch name + strconv.Itoa(len(v)) {
	case "matrix6":
		return matrix{v[0], v[1], v[2], v[3], v[4], v[5]}, true
	case "translate1":
		return move(v[0], 0), true
	case "translate2":
		return move(v[0], v[1]), true
	case "scale1":
		return matrix{a: v[0], d: v[0]}, true
	case "scale2":
		return matrix{a: v[0], d: v[1]}, true
	case "rotate1":
		return turn(v[0]), true
	case "rotate3":
		return move(v[1], v[2]).of(turn(v[0])).of(move(-v[1], -v[2])), true
	case "skewX1":
		return matrix{1, 0, skew(0), 1, 0, 0}, true
	case "skewY1":
		return matrix{1, skew(0), 0, 1, 0, 0}, true
	}
	return matrix{}, false
}
