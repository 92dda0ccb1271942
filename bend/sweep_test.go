package bend

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"example.com/sagitta/arc"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// count returns how many cases a sweep runs.
func count(full int) int {
	switch {
	case os.Getenv("SAGITTA_FULL") == "1":
		return full
	case testing.Short():
		return full / 100
	}
	return full / 20
}

// chain joins segments of the given lengths and signed turns smoothly.
func chain(start r2.Vec, heading float64, lengths, turns []float64) arc.Path {
	p := arc.Path{V: []arc.Vertex{{P: start}}}
	at := start
	for i, l := range lengths {
		x := turns[i] / 2
		chord := l
		if x != 0 {
			chord *= math.Sin(x) / x
		}
		sin, cos := math.Sincos(heading + x)
		at = r2.Add(at, r2.Vec{X: chord * cos, Y: chord * sin})
		p.V[i].K = math.Tan(turns[i] / 4)
		p.V = append(p.V, arc.Vertex{P: at})
		heading += turns[i]
	}
	return p
}

func logUniform(r *rand.Rand, low, high float64) float64 {
	return low * math.Pow(high/low, r.Float64())
}

// randomProfile returns 1 to 12 arcs of radii from 50 mm to 100 m, either
// sense, now and then with straights between them.
func randomProfile(r *rand.Rand) arc.Path {
	var l, t []float64
	for range 1 + r.IntN(12) {
		if r.IntN(5) == 0 {
			l, t = append(l, logUniform(r, 1, 1000)), append(t, 0)
		}
		radius := logUniform(r, 50, 1e5)
		turn := logUniform(r, 0.01, 1.5)
		if radius*turn > 20e3 {
			turn = 20e3 / radius
		}
		sense := float64(1 - 2*r.IntN(2))
		l, t = append(l, radius*turn), append(t, sense*turn)
	}
	if r.IntN(5) == 0 {
		l, t = append(l, logUniform(r, 1, 1000)), append(t, 0)
	}
	return chain(r2.Vec{X: r.Float64() * 1e3, Y: r.Float64() * 1e3}, r.Float64()*2*math.Pi, l, t)
}

func randomBoard(r *rand.Rand) (Board, Limits) {
	t := logUniform(r, 6, 32)
	b := Board{Thickness: t, KerfWidth: logUniform(r, 1, 6.4), Web: math.Min(t/3, logUniform(r, 0.5, 3))}
	if r.IntN(4) == 0 && b.KerfWidth/2 < b.Depth() {
		b.Bottom = Round
	}
	lim := Limits{
		Facet: logUniform(r, 0.05, 2), Strain: logUniform(r, 0.004, 0.05),
		Land: r.Float64() * 4, Edge: r.Float64() * 10,
	}
	if r.IntN(8) == 0 {
		lim.Turn = arc.Angle(logUniform(r, 0.02, 0.5))
	}
	return b, lim
}

// Every plan refolds within its limits and lands its ends, or is refused with
// the number in the way; raised to what the refusal asks for, that number is
// in the way no more.
func TestRandomProfiles(t *testing.T) {
	n := count(10000)
	r := rand.New(rand.NewPCG(4, 1))
	planned, kerfs, cut := 0, 0, 0
	refused := map[string]int{}
	for i := range n {
		profile := randomProfile(r)
		b, lim := randomBoard(r)
		if i%3 == 0 { // easier, so that long chains are planned too
			b.Web, lim.Strain, lim.Land, lim.Edge = 0.5, 0.5, 0, 0
		}
		p, err := KerfPlan(profile, b, lim)
		if err != nil {
			name := checkRefusal(t, profile, b, lim, err)
			refused[name]++
			continue
		}
		planned++
		kerfs += len(p.Kerfs)
		if len(p.Bends) > countBends(profile) {
			cut++
		}
		checkPlan(t, profile, p, lim)
		if t.Failed() {
			t.Fatalf("case %d: %+v %+v %+v", i, profile, b, lim)
		}
	}
	t.Logf("%d profiles: %d planned with %d kerfs, %d of them with bends cut by radius; refused %v", n, planned, kerfs, cut, refused)
	assert.Greater(t, planned, n/4)
	assert.Greater(t, cut, n/50)
	assert.GreaterOrEqual(t, len(refused), 3)
}

// countBends counts stretches of one sense.
func countBends(p arc.Path) int {
	n, prev := 0, 0.0
	for i := range p.NumSegments() {
		s := math.Copysign(1, p.V[i].K)
		if p.V[i].K == 0 {
			s = 0
		}
		if s != 0 && s != prev {
			n++
		}
		prev = s
	}
	return n
}

// checkPlan holds a plan to its limits by what it refolds to.
func checkPlan(t *testing.T, profile arc.Path, p Plan, lim Limits) {
	s := refold(t, p, profile)
	landed(t, profile, s.Show)
	tol := 1e-9 * profile.Length()
	if f := farthest(s.Show, profile); f > lim.Facet+tol || f > p.Facet+tol {
		t.Errorf("stands off %v, planned %v, limit %v", f, p.Facet, lim.Facet)
	}
	if f := farthest(profile, s.Show); f > p.Facet+tol {
		t.Errorf("the profile stands off the panel %v, planned %v", f, p.Facet)
	}
	turn := 0.0
	for i := range profile.NumSegments() {
		turn += float64(profile.Segment(i).Angle())
	}
	at := 0.0
	for i, k := range p.Kerfs {
		turn -= float64(k.Turn)
		land := k.At - p.Board.KerfWidth/2 - at
		least := lim.Land
		if i == 0 {
			least = lim.Edge
		}
		if land < least-tol {
			t.Errorf("land %d is %v, least %v", i, land, least)
		}
		at = k.At + p.Board.KerfWidth/2
		if k.Turn > 0 && s.Mouths[i] < -1e-9 {
			t.Errorf("kerf %d closes by %v", i, -s.Mouths[i])
		}
	}
	// Strain is what the show face of a web is longer or shorter than it was.
	webs := 0
	for i := range s.Show.NumSegments() {
		seg := s.Show.Segment(i)
		if seg.K == 0 {
			continue
		}
		strain := math.Abs(seg.Length()/p.Board.BendWidth() - 1)
		if strain > lim.Strain*(1+1e-9)+1e-9 && lim.Strain > 0 {
			t.Errorf("kerf %d strains %v, limit %v", webs, strain, lim.Strain)
		}
		assert.InDelta(t, p.Kerfs[webs].Strain, strain, 1e-9*(1+tol/p.Board.BendWidth()))
		webs++
	}
	assert.Equal(t, len(p.Kerfs), webs)
	if p.FlatLength-at < lim.Edge-tol {
		t.Errorf("last kerf is %v from the end, least %v", p.FlatLength-at, lim.Edge)
	}
	assert.InDelta(t, 0, turn, 1e-9, "turns add up")
	for i := range profile.NumSegments() { // straight stretches are left whole
		if seg := profile.Segment(i); seg.K == 0 {
			assert.Less(t, distance(seg.Mid(), s.Show), tol)
			assert.Less(t, distance(seg.A, s.Show), tol)
			assert.Less(t, distance(seg.B, s.Show), tol)
		}
	}
}

// checkRefusal returns the name of the limiting number.
func checkRefusal(t *testing.T, profile arc.Path, b Board, lim Limits, err error) string {
	var pe *ParamError
	require.True(t, errors.As(err, &pe), "%v", err)
	require.ErrorIs(t, err, ErrNoRoom)
	name, where, _ := strings.Cut(pe.Param, " ")
	var need float64
	switch name {
	case "Limits.Facet":
		require.Equal(t, lim.Facet, pe.Value)
		scan(t, pe.Need, "at least %g", &need)
		require.Greater(t, need, lim.Facet)
		lim.Facet = need
	case "Limits.Strain":
		require.Equal(t, lim.Strain, pe.Value)
		scan(t, pe.Need, "at least %g", &need)
		require.Greater(t, need, lim.Strain)
		lim.Strain = need
	case "Limits.Turn":
		require.Equal(t, lim.Turn, pe.Value)
		scan(t, pe.Need, "at least %g", &need)
		require.Greater(t, need, lim.Turn.Degrees()-1e-4)
		lim.Turn = arc.Angle(need+1e-4) * arc.Degree // printed to 1e-4
	case "Board.Thickness":
		scan(t, pe.Need, "at most %g", &need)
		require.Less(t, need, b.Thickness)
		require.Greater(t, need, 0.0)
		return name
	case "Board.Web", "Board.KerfWidth", "Limits.Land", "Limits.Edge":
		if name == "Board.Web" && strings.HasPrefix(pe.Need, "about") {
			scan(t, pe.Need, "about %g", &need)
			require.Less(t, need, b.Web)
			return name
		}
		scan(t, pe.Need, "at most %g", &need)
		if strings.Contains(pe.Need, "without Limits.Land") {
			lim.Land = 0
		}
		if strings.Contains(pe.Need, "and Limits.Edge") {
			lim.Edge = 0
		}
		x := map[string]*float64{"Board.KerfWidth": &b.KerfWidth, "Board.Web": &b.Web, "Limits.Land": &lim.Land, "Limits.Edge": &lim.Edge}[name]
		require.Equal(t, *x, pe.Value)
		require.Less(t, need, *x)
		*x = need
	default:
		t.Fatalf("no limit is named: %v", err)
	}
	_, err = KerfPlan(profile, b, lim)
	if errors.As(err, &pe) {
		next, there, _ := strings.Cut(pe.Param, " ")
		require.False(t, next == name && there == where, "still refused: %v", err)
	}
	return name
}

func scan(t *testing.T, s, format string, x *float64) {
	_, err := fmt.Sscanf(s, format, x)
	require.NoError(t, err, s)
}
