package packet

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
	"example.com/sagitta/sheet/cut"
)

// What a fault says to do cures it, and it names a field of the spec once.
func TestCures(t *testing.T) {
	at := func(s hood.Spec, need, before string) float64 {
		need, _, _ = strings.Cut(strings.TrimPrefix(need, before), ",")
		mm, err := arc.ParseLength(need, arc.Millimeters)
		require.NoError(t, err, need)
		return mm
	}
	cable := func(s *hood.Spec) {
		s.Back.Openings = append(s.Back.Openings, hood.Opening{Shape: "circle", X: 300, Y: 500, Diameter: 8})
	}
	for _, c := range []struct {
		name, field, need string
		spoil             func(*hood.Spec)
		cure              func(*hood.Spec, string)
	}{
		{"cable hole", "back.openings[1].diameter", "at least ", cable,
			func(s *hood.Spec, need string) { s.Back.Openings[1].Diameter = at(*s, need, "at least ") }},
		{"kerf and cutter", "bend.kerf_width", "at least ", func(s *hood.Spec) { s.Bend.KerfWidth = 2 },
			func(s *hood.Spec, need string) { s.Bend.KerfWidth = at(*s, need, "at least ") }},
		{"tabs", "cut.gap", "at least ", func(s *hood.Spec) {
			s.Board.Sheets = []hood.Sheet{{Length: 1151, Width: 832.6}}
			s.Back.Sheets = []hood.Sheet{{Length: 2465, Width: 1245}}
		}, func(s *hood.Spec, need string) {
			_, size, _ := strings.Cut(need, "cut.margin of at least ")
			s.Cut.Margin = at(*s, size, "")
			s.Board.Sheets = []hood.Sheet{{Length: 2465, Width: 1245}}
		}},
		{"short cleat", "cleat.short", "less than ", func(s *hood.Spec) { s.Cleat.Short = 1000 },
			func(s *hood.Spec, need string) { s.Cleat.Short = at(*s, need, "less than ") - 0.1 }},
		{"sheets", "board.sheets", "sheets of mdf 19 mm", func(s *hood.Spec) {
			s.Board.Sheets = nil
			for i := range 40 {
				s.Cut.Margin = 16 // which tabs take
				s.Board.Sheets = append(s.Board.Sheets, hood.Sheet{Length: 300 + float64(i), Width: 200})
			}
		}, func(s *hood.Spec, need string) {
			_, size, ok := strings.Cut(need, "the largest ")
			require.True(t, ok)
			size, _, _ = strings.Cut(size, " mm")
			l, w, _ := strings.Cut(size, " × ")
			long, err := arc.ParseLength(l, arc.Millimeters)
			require.NoError(t, err)
			wide, err := arc.ParseLength(w, arc.Millimeters)
			require.NoError(t, err)
			s.Cut.Margin = 16 // which tabs take
			s.Board.Sheets = append(s.Board.Sheets[:39:39], hood.Sheet{Length: long + 2*s.Cut.Margin + 1, Width: wide + 2*s.Cut.Margin + 1})
			s.Back.Sheets = []hood.Sheet{{Length: 2465, Width: 1245}}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := mustSpec(t, demo(t))
			c.spoil(&s)
			shop := Options{}.shop()
			if c.name == "kerf and cutter" {
				s.Cut.Tool = 6
				s.Bend.KerfWidth = 2
				shop.Cut.Tools = cut.Tools(6, 3.2, 19)
			}
			_, err := Make(context.Background(), s, Options{Shop: &shop})
			var f hood.Faults
			require.ErrorAs(t, err, &f)
			n := 0
			for _, e := range f {
				if e.Param == c.field && strings.HasPrefix(e.Need, c.need) {
					n++
				}
			}
			require.Equal(t, 1, n, "%v", err)
			for _, e := range f {
				if e.Param == c.field && strings.HasPrefix(e.Need, c.need) {
					c.cure(&s, e.Need)
				}
			}
			_, err = Make(context.Background(), s, Options{Shop: &shop})
			assert.NoError(t, err)
		})
	}
}
