package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/sagitta/internal/readback"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRun(t *testing.T) {
	file := filepath.Join(t.TempDir(), "panel.svg")
	for _, args := range [][]string{nil, {"-bow"}, {"-units", "in", "-chord", "48", "-sag", "2 1/2", "-web", "1/16"}, {"-svg", file}} {
		var b bytes.Buffer
		require.NoError(t, run(args, &b))
		assert.Contains(t, b.String(), "it ends 0.000000 mm from the end")
		assert.Greater(t, strings.Count(b.String(), "\nkerf "), 5)
	}
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	doc, err := readback.SVG(f)
	require.NoError(t, err)
	assert.InDelta(t, 1400, doc.Width-10, 10) // chord and the lean of the ends
}

func TestRefused(t *testing.T) {
	for _, args := range [][]string{
		{"-chord", "200"}, {"-chord", "x"}, {"-units", "ells"}, {"-web", "20"}, {"-sag", "-1"}, {"-nonsense"},
	} {
		var b bytes.Buffer
		err := run(args, &b)
		require.Error(t, err, "%v", args)
		assert.Empty(t, b.String())
	}
}

func TestHelp(t *testing.T) {
	var b bytes.Buffer
	if err := run([]string{"-h"}, &b); err != nil {
		t.Fatal(err)
	}
	if text := b.String(); !strings.HasPrefix(text, "usage: kerf [") || !strings.Contains(text, "\n  -chord") {
		t.Error(text)
	}
}
