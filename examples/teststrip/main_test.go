package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/sagitta/arc/draw"
	"example.com/sagitta/internal/readback"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRun(t *testing.T) {
	dir := t.TempDir()
	drawing, machine := filepath.Join(dir, "strip.svg"), filepath.Join(dir, "strip.dxf")
	var b bytes.Buffer
	require.NoError(t, run([]string{"-svg", drawing, "-dxf", machine}, &b))
	assert.Contains(t, b.String(), "strip: ")
	for file, read := range map[string]func(f *os.File) (readback.Doc, error){
		drawing: func(f *os.File) (readback.Doc, error) { return readback.SVG(f) },
		machine: func(f *os.File) (readback.Doc, error) { return readback.DXF(f) },
	} {
		f, err := os.Open(file)
		require.NoError(t, err)
		defer f.Close()
		doc, err := read(f)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, len(doc.Loops(draw.Kerf)), 5)
		assert.Len(t, doc.Loops(draw.Outline), 1)
	}
}

// A strip that stood less asks for a panel of more kerfs, hollow or round.
func TestCorrected(t *testing.T) {
	for _, bow := range []string{"-bow=false", "-bow"} {
		kerfs := func(radius string) (n int) {
			var b bytes.Buffer
			require.NoError(t, run([]string{bow, "-stood", radius}, &b))
			_, after, found := strings.Cut(b.String(), "panel at that strain: ")
			require.True(t, found)
			_, err := fmt.Sscan(after, &n)
			require.NoError(t, err)
			return n
		}
		assert.Greater(t, kerfs("6000 mm"), kerfs("1500 mm"))
	}
	var b bytes.Buffer
	for _, args := range [][]string{{"-stood", "1 mm"}, {"-stood", "wide"}, {"-nonsense"}} {
		assert.Error(t, run(args, &b), "%v", args)
	}
}

func TestHelp(t *testing.T) {
	var b bytes.Buffer
	if err := run([]string{"-h"}, &b); err != nil {
		t.Fatal(err)
	}
	if text := b.String(); !strings.HasPrefix(text, "usage: teststrip [") || !strings.Contains(text, "\n  -stood") {
		t.Error(text)
	}
}
