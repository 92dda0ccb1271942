package readback_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/dxf"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/internal/readback"
)

func part() draw.Drawing {
	return draw.Drawing{Title: "part", Layers: []draw.Layer{{Name: draw.Outline, Regions: []arc.Region{readback.Part()}, Texts: []draw.Text{{Text: "a"}}}}}
}

// Each fault planted into a good SVG file must be seen.
func TestSVGFaultsAreSeen(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, svg.Encode(&b, part(), svg.Options{}))
	good := b.String()
	_, err := readback.SVGPaths(strings.NewReader(good))
	require.NoError(t, err)
	for _, f := range [][2]string{
		{`mm" height`, `px" height`}, {`viewBox="-`, `viewBox="1 -`}, {"<title>part</title>\n", ""}, {`role="img"`, `role="none"`},
		{"A34.797 34.797", "A14.797 14.797"}, {"L300", "LNaN"}, {"L300", "Q300"}, {" Z M", " M1 1 2 M"}, {"</g>", ""},
		{"<g ", "<script/><g "},
	} {
		bad := strings.Replace(good, f[0], f[1], 1)
		require.NotEqual(t, good, bad, f[0])
		_, err := readback.SVGPaths(strings.NewReader(bad))
		assert.Error(t, err, f)
	}
	// A flipped sweep is no error of form, but another area.
	loops, err := readback.SVGPaths(strings.NewReader(strings.Replace(good, "A155.2161 155.2161 0 0 1", "A155.2161 155.2161 0 0 0", 1)))
	require.NoError(t, err)
	area, _ := readback.Net(loops)
	assert.Greater(t, area-readback.Part().Area(), 1000.0)
}

// Each fault planted into a good DXF file must be seen.
func TestDXFFaultsAreSeen(t *testing.T) {
	for _, o := range []dxf.Options{{}, {R12: true}} {
		var b bytes.Buffer
		require.NoError(t, dxf.Encode(&b, part(), o))
		good := b.String()
		_, err := readback.DXFPaths(strings.NewReader(good))
		require.NoError(t, err)
		faults := [][2]string{
			{"  0\nEOF\n", ""}, {"  0\nENDSEC\n", ""}, {"CONTINUOUS\n 70", "SOLIDLINE\n 70"},
			{"  2\nENTITIES\n", "  2\nHEADER\n"}, {"999\nAll", "All"}, {"TEXT\n", "SPLINE\n"},
		}
		if o.R12 {
			faults = append(faults, [2]string{"  0\nSEQEND\n", "  0\nVERTEX\n"}, [2]string{" 66\n1\n", ""}, [2]string{"  8\nOUTLINE\n", "  8\nother\n"})
		} else {
			faults = append(faults, [2]string{"$INSUNITS\n 70\n4\n", "$INSUNITS\n 70\n1\n"}, [2]string{" 90\n6\n", " 90\n5\n"},
				[2]string{"330\nA\n", "330\nFFFF\n"}, [2]string{"$HANDSEED\n  5\n", "$HANDSEED\n  5\n-"}, [2]string{"  5\n22\n", "  5\n21\n"})
		}
		for _, f := range faults {
			bad := strings.Replace(good, f[0], f[1], 1)
			require.NotEqual(t, good, bad, f[0])
			_, err := readback.DXFPaths(strings.NewReader(bad))
			assert.Error(t, err, "%v %q", o, f)
		}
		bad := strings.ReplaceAll(good, " 10\n-120.25\n", " 10\nNaN\n") // of a vertex; the first is that of the extent
		require.NotEqual(t, good, bad)
		_, err = readback.DXFPaths(strings.NewReader(bad))
		assert.Error(t, err, "a vertex that is no number")
	}
}
