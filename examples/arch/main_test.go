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

func TestArchesReachTheFile(t *testing.T) {
	lengths := map[string]float64{}
	for _, shape := range []string{"segmental", "basket", "four", "elliptical", "catenary"} {
		file := filepath.Join(t.TempDir(), shape+".dxf")
		var out bytes.Buffer
		require.NoError(t, run([]string{"-shape", shape, "-dxf", file}, &out), shape)
		r, err := os.Open(file)
		require.NoError(t, err)
		paths, err := readback.DXFPaths(r)
		r.Close()
		require.NoError(t, err)
		require.Len(t, paths, 1)
		assert.InDelta(t, 1680, paths[0].Bounds().Max.X, 1e-5, shape)
		assert.InDelta(t, 520, paths[0].Bounds().Max.Y, 1e-5, shape)
		assert.Contains(t, out.String(), arc.FormatLength(paths[0].Length(), arc.Millimeters)[:5])
		lengths[shape] = paths[0].Length()
	}
	half := arc.EllipseLength(840, 520) / 2
	assert.InDelta(t, half, lengths["elliptical"], 0.5)
	chain, err := arc.CatenaryLength(1680, 520)
	require.NoError(t, err)
	assert.InDelta(t, chain, lengths["catenary"], 0.5)
}

// A segmental arch of chord 48 and sag 12 is one arc of radius 30.
func TestListing(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, run([]string{"-shape", "segmental", "-span", "48", "-rise", "12", "-units", "in"}, &out))
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	assert.Contains(t, lines[3], "30 in   106.260°")
	assert.Contains(t, lines[3], "24 in, -18 in")
}

func TestBadUse(t *testing.T) {
	for _, args := range [][]string{
		{"-shape", "round"}, {"-span", "0"}, {"-rise", "x"}, {"-shape", "basket", "-rise", "900 mm"}, {"-nosuch"}, {"-units", "ft"}, {"-dxf", "/nowhere/at/all.dxf"},
	} {
		assert.Error(t, run(args, &bytes.Buffer{}), args)
	}
}

func TestHelp(t *testing.T) {
	var b bytes.Buffer
	if err := run([]string{"-h"}, &b); err != nil {
		t.Fatal(err)
	}
	if text := b.String(); !strings.HasPrefix(text, "usage: arch [") || !strings.Contains(text, "\n  -shape") {
		t.Error(text)
	}
}
