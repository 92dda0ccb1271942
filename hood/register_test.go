package hood

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/boards"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/internal/proof"
	"example.com/sagitta/sheet/cut"
)

// registered has tabs and pins wherever they can be: with no skirt the ribs
// stand on the liner shelf.
func registered() Spec {
	s := demo()
	s.Skirt, s.Liner.Y, s.Liner.Width, s.Duct.Diameter = 0, 40, 250, 150
	s.Sweep.Sag = 30
	s.Ribs = Ribs{Spacing: 300, Depth: 75, Clearance: 0.3}
	s.Cleat = Cleat{Height: 80}
	s.Tabs = Tabs{Width: 36, Clearance: 0.2, Spacing: 240}
	s.Pins = Pins{Diameter: 10, Depth: 8, Clearance: 0.1, Spacing: 260}
	return s
}

// registeredSpecs are hoods of every kind with tabs and pins.
func registeredSpecs() []Spec {
	tight := registered()
	tight.Tabs.Clearance, tight.Pins.Clearance = 0, 0
	offset := whole(sidesDemo())
	offset.Tabs.Width = 32
	return []Spec{registered(), tight, whole(demo()), whole(flaredDemo()), offset, whole(leftDemo())}
}

// unproven makes the parts of a hood without proving them.
func unproven(t *testing.T, s Spec) *boards.Hood {
	require.NoError(t, s.Validate())
	b, err := boards.Make(s.Sizes())
	require.NoError(t, err)
	return &b
}

// prove has a hood proved again.
func prove(h *boards.Hood) []Check {
	var out []Check
	checks, _ := proof.Prove(h.Parts, h.Claims)
	for _, c := range checks {
		out = append(out, Check(c))
	}
	return out
}

// failing lists the checks that do not hold.
func failing(checks []Check) string {
	var out []string
	for _, c := range checks {
		if !c.OK {
			out = append(out, c.Name)
		}
	}
	return strings.Join(out, "\n")
}

// named returns the part of a name to be spoiled.
func named(b *boards.Hood, name string) *Part {
	for i := range b.Parts {
		if b.Parts[i].Name == name {
			return &b.Parts[i]
		}
	}
	return nil
}

// The proof sees every way in which a tab, a slot, a hole or its mate can be
// off, each by as little as matters.
func TestProofSeesWhatDoesNotFit(t *testing.T) {
	shift := func(x, y float64) func(*arc.Path) {
		return func(p *arc.Path) { *p = p.Transform(arc.Shift(r2.Vec{X: x, Y: y})) }
	}
	slotOf := func(b *boards.Hood) *arc.Path { return &named(b, "back").Outline.Holes[1] }
	pocket := func(b *boards.Hood, part string, i int) *cut.Pocket { return &named(b, part).Work.Pockets[i] }
	sharp := func(p *arc.Path) { // the same slot without its reliefs
		box := p.Bounds()
		r := (9.525 / 2) * 1.01
		*p = arc.Rect(box.Min.X, box.Min.Y+r, box.Max.X, box.Max.Y-r).Reverse()
	}
	for _, w := range []struct {
		says  string
		spoil func(*boards.Hood)
	}{
		{"off the middle", func(b *boards.Hood) { shift(0.01, 0)(slotOf(b)) }},
		{"off the middle", func(b *boards.Hood) { shift(0, -0.01)(slotOf(b)) }},
		{"corners in wood", func(b *boards.Hood) { sharp(slotOf(b)) }},
		{"corners in wood", func(b *boards.Hood) {
			for i, c := range b.Claims {
				if c, ok := c.(proof.Tabs); ok {
					c.Tool *= 1.2
					b.Claims[i] = c
				}
			}
		}},
		{"no slot", func(b *boards.Hood) { back := named(b, "back"); back.Outline.Holes = back.Outline.Holes[:1] }},
		{"slots without a tab", func(b *boards.Hood) {
			back := named(b, "back")
			back.Outline.Holes = append(back.Outline.Holes, arc.Rect(300, 300, 330, 320).Reverse())
		}},
		{"play off", func(b *boards.Hood) {
			p := slotOf(b)
			for i := range p.V { // narrower by 0.01
				if p.V[i].P.X > p.Bounds().Min.X+18 {
					p.V[i].P.X -= 0.01
				}
			}
		}},
		{"length in it", func(b *boards.Hood) {
			p := named(b, "deck")
			for i := range p.Edges {
				if p.Edges[i].Name == "tab" {
					p.Edges[i].Show.V[2].P.Y -= 0.5
				}
			}
		}},
		{"length in it", func(b *boards.Hood) { pocket(b, "liner-shelf", 0).Depth -= 0.5 }},
		{"rib-1 tab 1 in liner-shelf: off the middle", func(b *boards.Hood) { shift(0, 0.02)(&pocket(b, "liner-shelf", 0).Area.Outer) }},
		{"rib-1 tab 1 in liner-shelf: corners", func(b *boards.Hood) {
			k := pocket(b, "liner-shelf", 0)
			box, r := k.Area.Outer.Bounds(), (9.525/2)*1.01
			k.Area.Outer = arc.Rect(box.Min.X+r, box.Min.Y, box.Max.X-r, box.Max.Y)
		}},
		{"cleat pinned to back: holes off their mates", func(b *boards.Hood) { shift(0.01, 0)(&pocket(b, "cleat", 1).Area.Outer) }},
		{"cleat pinned to back: holes off their mates", func(b *boards.Hood) { shift(0, 0.01)(&pocket(b, "back", 0).Area.Outer) }},
		{"cleat pinned to back: holes off what is asked", func(b *boards.Hood) { pocket(b, "back", 0).Depth -= 0.01 }},
		{"cleat pinned to back: holes off what is asked", func(b *boards.Hood) {
			k := pocket(b, "cleat", 0)
			box := k.Area.Outer.Bounds()
			k.Area.Outer = arc.Circle(r2.Scale(0.5, r2.Add(box.Min, box.Max)), 5)
		}},
		{"back: holes for pins without a mate", func(b *boards.Hood) {
			p := named(b, "back")
			p.Work.Pockets = append(p.Work.Pockets, p.Work.Pockets[0])
		}},
		{"cleat pinned to back: faces apart", func(b *boards.Hood) { named(b, "cleat").Pose.At.Z -= 0.01 }},
	} {
		b := unproven(t, registered())
		require.Empty(t, failing(prove(b)))
		w.spoil(b)
		for i := range b.Parts { // openings go right through
			b.Parts[i].Back.Holes = b.Parts[i].Outline.Holes
		}
		assert.Contains(t, failing(prove(b)), w.says)
	}
	b := unproven(t, whole(demo()))
	require.Empty(t, failing(prove(b)))
	h := &named(b, "corner-block-left").Outline.Holes[0]
	*h = h.Transform(arc.Shift(r2.Vec{X: 0.01}))
	assert.Contains(t, failing(prove(b)), "corner-block-left pinned to liner-shelf: holes off their mates")
}

// solids returns the meshes of a design by name.
func solids(t *testing.T, d Design) map[string]Solid {
	model, err := d.Model()
	require.NoError(t, err)
	out := map[string]Solid{}
	for _, m := range model {
		out[m.Name] = m
	}
	return out
}

// Every tab in space, by brute force on the meshes alone: points of its box,
// from board to tip, are wood of the board and air of what it goes into, and a
// hair beyond its play stands wood on all walled sides.
func TestTabsFitByBruteForce(t *testing.T) {
	for n, s := range registeredSpecs() {
		d, err := Build(s)
		require.NoError(t, err, n)
		mesh := solids(t, d)
		r := rand.New(rand.NewPCG(3, 5))
		tabs := 0
		for _, p := range d.Parts {
			into, ok := map[bool]string{true: "liner-shelf", false: "back"}[strings.HasPrefix(p.Name, "rib-")], tabsOf(p) > 0
			if !ok {
				continue
			}
			for _, e := range p.Edges {
				if e.Name != "tab" {
					continue
				}
				tabs++
				v := e.Show.V
				root, across, out := v[1].P, r2.Sub(v[4].P, v[1].P), r2.Sub(v[2].P, v[1].P)
				at := func(a, b, c float64) r3.Vec {
					return p.Pose.Point(r2.Add(root, r2.Add(r2.Scale(a, across), r2.Scale(b, out))), c*p.Thickness)
				}
				for range 60 {
					a, b, c := 1e-4+r.Float64()*0.9998, 1e-3+r.Float64()*0.998, 1e-4+r.Float64()*0.9998
					assert.True(t, inside(mesh[p.Name], at(a, b, c)), "%d %s: a tab of wood", n, p.Name)
					assert.False(t, inside(mesh[into], at(a, b, c)), "%d %s in the wood of %s", n, p.Name, into)
				}
				wide, thick := r2.Norm(across), p.Thickness
				over := s.Tabs.Clearance/2 + 0.02
				for _, side := range [][2]float64{{-over / wide, 0.5}, {1 + over/wide, 0.5}} {
					assert.True(t, inside(mesh[into], at(side[0], 0.5, side[1])), "%d %s: wall of %s", n, p.Name, into)
				}
				walls := 0
				for _, c := range []float64{-over / thick, 1 + over/thick} {
					if inside(mesh[into], at(0.5, 0.5, c)) {
						walls++
					}
				}
				assert.GreaterOrEqual(t, walls, 1, "%d %s: floor of the slot", n, p.Name)
			}
		}
		assert.Greater(t, tabs, 3, n)
	}
}

// The cutter's disc, run over a fine raster of a slot, clears all of the tab's
// section: a check on what the proof says of corners that shares nothing with
// it.
func TestCutterClearsSectionByRaster(t *testing.T) {
	const r, step = 9.525 / 2, 0.05
	wide, high := 36.0, 19.0
	for _, w := range []struct {
		slot  arc.Path
		clear bool
	}{
		{plate.EasedSlot(0, 0, wide, high, demo().Sizes().Relief()), true},
		{arc.Rect(0, 0, wide, high), false},
	} {
		box := w.slot.Bounds()
		for _, corner := range []r2.Vec{{X: step, Y: step}, {X: wide - step, Y: step}, {X: wide - step, Y: high - step}, {X: step, Y: high - step}} {
			best := math.Inf(1)
			for x := box.Min.X; x <= box.Max.X; x += step {
				for y := box.Min.Y; y <= box.Max.Y; y += step {
					c := r2.Vec{X: x, Y: y}
					if d := r2.Norm(r2.Sub(c, corner)); d < best && w.slot.Contains(c) && w.slot.Distance(c) >= r {
						best = d
					}
				}
			}
			assert.Equal(t, w.clear, best <= r, "%v: %.3f", corner, best-r)
		}
	}
}
