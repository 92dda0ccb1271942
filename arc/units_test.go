package arc_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
)

func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		text string
		unit arc.Unit
		mm   float64
	}{
		// 1 in = 25.4 mm and 1 ft = 304.8 mm exactly: the 1959 agreement on
		// the international yard, as in NIST SP 811, app. B.
		{"1050 mm", arc.Inches, 1050},
		{"1050", arc.Millimeters, 1050},
		{"1050.25mm", arc.Inches, 1050.25},
		{"10.5 cm", arc.Inches, 105},
		{"1.2 m", arc.Inches, 1200},
		{"41 3/8 in", arc.Millimeters, 1050.925},
		{"41-3/8 in", arc.Millimeters, 1050.925},
		{"41 3/8", arc.Inches, 1050.925},
		{"41.375", arc.Inches, 1050.925},
		{`41 3/8"`, arc.Millimeters, 1050.925},
		{"41 3/8″", arc.Millimeters, 1050.925},
		{"3/8in", arc.Millimeters, 9.525},
		{".5 in", arc.Millimeters, 12.7},
		{"5. in", arc.Millimeters, 127},
		{"3 ft 5 1/4 in", arc.Millimeters, 1047.75},
		{"3ft5 1/4in", arc.Millimeters, 1047.75},
		{`5'6 1/2"`, arc.Millimeters, 1689.1},
		{`5' 6 1/2"`, arc.Millimeters, 1689.1},
		{`5'-6 1/2"`, arc.Millimeters, 1689.1},
		{`5' - 6-1/2"`, arc.Millimeters, 1689.1},
		{"5′ 6 1/2″", arc.Millimeters, 1689.1},
		{"2 feet 3 inches", arc.Millimeters, 685.8},
		{"1 foot 1 inch", arc.Millimeters, 330.2},
		{"2 1/2 ft", arc.Millimeters, 762},
		{"-1/32 in", arc.Millimeters, -0.79375},
		{"+4 mm", arc.Millimeters, 4},
		{"-3 ft 6 in", arc.Millimeters, -1066.8},
		{" 12 ", arc.Millimeters, 12},
		{`3/8"`, arc.Millimeters, 9.525},
		{`5'-6"`, arc.Millimeters, 1676.4},
		{"5'6''", arc.Millimeters, 1676.4},
		{"5’6”", arc.Millimeters, 1676.4},
		{"5’-6’’", arc.Millimeters, 1676.4},
		{"5′6′′", arc.Millimeters, 1676.4},
		{`41½"`, arc.Millimeters, 1054.1},
		{"41 ½ in", arc.Millimeters, 1054.1},
		{"41-½ in", arc.Millimeters, 1054.1},
		{"½ in", arc.Millimeters, 12.7},
		{"⅔ ft", arc.Millimeters, 203.2},
		{`3⁄8"`, arc.Millimeters, 9.525},
		{"1 3⁄8 in.", arc.Millimeters, 34.925},
		{"5 ft. 6 in.", arc.Millimeters, 1676.4},
		{"3 Inch", arc.Millimeters, 76.2},
		{"12 MM", arc.Inches, 12},
		{"1 CM", arc.Inches, 10},
		{"41\u00a03/8\u202fin", arc.Millimeters, 1050.925},
		{"2 metres", arc.Inches, 2000},
		{"1 metre", arc.Inches, 1000},
		{"25 millimetres", arc.Inches, 25},
		{"010 mm", arc.Inches, 10},
		{"010/020 in", arc.Millimeters, 12.7},
		{"08.5 mm", arc.Inches, 8.5},
		{"0.1 in", arc.Millimeters, 2.54},
		{"5 ft - 3 in", arc.Millimeters, 1600.2},
		{"5 ft-3 in", arc.Millimeters, 1600.2},
		{"0", arc.Inches, 0},
	} {
		mm, err := arc.ParseLength(c.text, c.unit)
		require.NoError(t, err, c.text)
		assert.Equal(t, c.mm, mm, c.text) // to the last bit
	}
}

func TestParseLengthRefuses(t *testing.T) {
	for _, s := range []string{
		"", " ", "mm", "in", "-", "+", ".", "/", "1/0", "0/0 in", "1//2", "1/2/3", "1e3", "1e3 mm", "0x10",
		"1,050", "1,5 mm", "1 050 mm", "NaN", "Inf", "inf mm", "nan in", "--3", "3-", "- ", "3 mm 4", "3 in 4 mm",
		"3 in 2 ft", "3 ft 5", "3 ft 5 1/4", "3 ft 2 ft", "3 ft 5 mm", "41 9/8 in", "41 3/8 3/8 in", "41.5 3/8 in",
		"12 inx", "12 mmm", "12 yd", "3 ft 5 in 2 in", "1.2.3 mm", "3 ft 5 in x", "\x00", "1_000",
		strings.Repeat("9", 400) + " mm", "5'6", `5"6'`, "3 ft -5 - in",
		"5 ft -3 in", "5 ft- 3 in", "3' 5", "5' 6'", "41 -3/8 in", "41- 3/8 in", "41 - 3/8 in", "1½½ in", "½/2 in", "4½/8 in",
		"41.5½ in", "1/2½ in", "mm.", "3 mm.", "3 inches.", "2 M2", "1 in .", "4''''", "5\"6\"", "1\u00a0050 mm", "3 00/00 in",
		"1 3/0 in", "٣ mm", "２ mm", "1e400 mm", strings.Repeat("9", 310) + " mm",
	} {
		_, err := arc.ParseLength(s, arc.Millimeters)
		var pe *arc.ParamError
		require.ErrorAs(t, err, &pe, "%q", s)
		assert.ErrorIs(t, err, arc.ErrSyntax)
		assert.Equal(t, "arc.ParseLength", pe.Func)
	}
}

func TestFormatLength(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		unit arc.Unit
		want string
	}{
		{1050.925, arc.Inches, "41 3/8 in"},
		{1050.925, arc.Millimeters, "1050.93 mm"},
		{0, arc.Inches, "0 in"},
		{math.Copysign(0, -1), arc.Millimeters, "0 mm"},
		{-0.001, arc.Millimeters, "0 mm"},
		{-0.1, arc.Inches, "0 in"},
		{25.4 * 31 / 32, arc.Inches, "31/32 in"},
		{25.4 * 127 / 128, arc.Inches, "1 in"},
		{25.4 * 12, arc.Inches, "12 in"},
		{-25.4 * 3 / 2, arc.Inches, "-1 1/2 in"},
		{766.449035431, arc.Millimeters, "766.45 mm"},
		{766.449035431, arc.Inches, "30 3/16 in"},
		{math.Inf(1), arc.Inches, "+Inf in"},
		{math.NaN(), arc.Millimeters, "NaN mm"},
		{1e300, arc.Millimeters, "1" + strings.Repeat("0", 300) + " mm"},
		{2.54e13, arc.Inches, "1000000000000 in"},
	} {
		assert.Equal(t, c.want, arc.FormatLength(c.mm, c.unit), "%v %v", c.mm, c.unit)
	}
}

func TestLengthRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-1e6, 1e6).Draw(t, "mm")
		for unit, half := range map[arc.Unit]float64{arc.Millimeters: 0.005, arc.Inches: arc.Inch / 64} {
			text := arc.FormatLength(mm, unit)
			back, err := arc.ParseLength(text, arc.Millimeters)
			require.NoError(t, err)
			assert.InDelta(t, mm, back, half*(1+1e-9))
			assert.Equal(t, text, arc.FormatLength(back, unit))
		}
	})
}

// TestLengthReadsBack writes lengths of every size and sign that are finite.
func TestLengthReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{0, math.MaxFloat64, -math.MaxFloat64, 1e12, 1e308, 5e-324})).Draw(t, "mm")
		for unit, half := range map[arc.Unit]float64{arc.Millimeters: 0.005, arc.Inches: arc.Inch / 64} {
			back, err := arc.ParseLength(arc.FormatLength(mm, unit), arc.Millimeters)
			require.NoError(t, err)
			assert.InDelta(t, mm/2, back/2, half+math.Abs(mm)*4e-16) // halves, so that no difference overflows
		}
	})
}

func TestParseLengthComma(t *testing.T) {
	mm, err := arc.ParseLengthComma("1050,25 mm", arc.Inches)
	require.NoError(t, err)
	assert.Equal(t, 1050.25, mm)
	mm, err = arc.ParseLengthComma("41 3/8 in", arc.Millimeters)
	require.NoError(t, err)
	assert.Equal(t, 1050.925, mm)
	for _, s := range []string{"1050.25 mm", "1.050,25 mm", "1,050,25 mm", ","} {
		_, err := arc.ParseLengthComma(s, arc.Millimeters)
		require.ErrorIs(t, err, arc.ErrSyntax, s)
		require.ErrorContains(t, err, "arc.ParseLengthComma")
	}
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"41 3/8 in", "3 ft 5 1/4 in", `5'-6 1/2"`, "1050 mm", "1/0", "-", ".", "′″"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		mm, err := arc.ParseLength(s, arc.Inches)
		if err != nil {
			assert.ErrorIs(t, err, arc.ErrSyntax)
			return
		}
		assert.False(t, math.IsNaN(mm) || math.IsInf(mm, 0))
		back, err := arc.ParseLength(arc.FormatLength(mm, arc.Inches), arc.Millimeters)
		if math.Abs(mm) < 1e12 {
			require.NoError(t, err)
			assert.InDelta(t, mm, back, arc.Inch/64+math.Abs(mm)*1e-15)
		}
	})
}

func ExampleParseLength() {
	for _, s := range []string{"41 3/8 in", "3 ft 5 1/4 in", "1050 mm"} {
		mm, err := arc.ParseLength(s, arc.Millimeters)
		fmt.Println(mm, err)
	}
	_, err := arc.ParseLength("41,375 in", arc.Millimeters)
	fmt.Println(err)
	// Output:
	// 1050.925 <nil>
	// 1047.75 <nil>
	// 1050 <nil>
	// arc.ParseLength: length = "41,375 in": need a length such as 1050 mm, 41 3/8 in or 3 ft 5 1/4 in
}

func ExampleFormatLength() {
	fmt.Println(arc.FormatLength(766.449, arc.Millimeters))
	fmt.Println(arc.FormatLength(766.449, arc.Inches))
	// Output:
	// 766.45 mm
	// 30 3/16 in
}
