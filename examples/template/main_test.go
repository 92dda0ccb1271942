package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/readback"
)

func TestTableAndTemplate(t *testing.T) {
	file := filepath.Join(t.TempDir(), "template.svg")
	var out bytes.Buffer
	// Chord 48, sag 12: radius 30; 18 from the middle the height is
	// √(30² − 18²) − 18 = 6.
	require.NoError(t, run([]string{"-chord", "48 in", "-sag", "1 ft", "-pitch", "9 in", "-svg", file}, &out))
	assert.Contains(t, out.String(), "radius 30 in")
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	require.Len(t, lines, 3+7)
	assert.Equal(t, []string{"6", "in", "-18", "in", "6", "in"}, strings.Fields(lines[4]))
	assert.Equal(t, []string{"48", "in", "24", "in", "0", "in"}, strings.Fields(lines[9]))

	svg, err := os.Open(file)
	require.NoError(t, err)
	defer svg.Close()
	doc, err := readback.SVG(svg)
	require.NoError(t, err)
	assert.InDelta(t, 55.6377130801*arc.Inch, doc.On("outline")[0].Length(), 0.01)
	assert.InDelta(t, 4*arc.Inch, doc.On("check")[0].Length(), 1e-9)
	assert.Greater(t, doc.Width, 48*arc.Inch)
}

func TestBadUse(t *testing.T) {
	for _, args := range [][]string{
		{"-chord", "0"}, {"-chord", "ten"}, {"-sag", "-1"}, {"-pitch", "0"}, {"-pitch", "0.001 mm"}, {"-nosuch"}, {"-units", "ft"},
		{"-svg", "/nowhere/at/all.svg"},
	} {
		assert.Error(t, run(args, &bytes.Buffer{}), args)
	}
}

func TestHelp(t *testing.T) {
	var b bytes.Buffer
	if err := run([]string{"-h"}, &b); err != nil {
		t.Fatal(err)
	}
	if text := b.String(); !strings.HasPrefix(text, "usage: template [") || !strings.Contains(text, "\n  -pitch") {
		t.Error(text)
	}
}
