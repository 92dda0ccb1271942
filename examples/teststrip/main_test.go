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

// A strip that stays flatter has narrower kerfs than set, and the panel needs
// more of them.
func TestCorrected(t *testing.T) {
	var small, large bytes.Buffer
	require.NoError(t, run([]string{"-radius", "150 mm"}, &small))
	require.NoError(t, run([]string{"-radius", "180 mm"}, &large))
	kerfs := func(b bytes.Buffer) (n int) {
		_, after, found := strings.Cut(b.String(), "panel now: ")
		require.True(t, found)
		_, err := fmt.Sscan(after, &n)
		require.NoError(t, err)
		return n
	}
	assert.Greater(t, kerfs(large), kerfs(small))
	for _, args := range [][]string{{"-radius", "1 mm"}, {"-radius", "wide"}, {"-nonsense"}} {
		assert.Error(t, run(args, &small), "%v", args)
	}
}
