package main

import (
	"bytes"
	"context"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/sheet/rs274"
)

// Shapes of the file come out as programs that a replay holds good, and what the
// file holds beside shapes is told.
func TestFileToPrograms(t *testing.T) {
	files := map[string][]byte{}
	write := func(name string, data []byte) error { files[name] = data; return nil }
	var out bytes.Buffer
	require.NoError(t, run(context.Background(), bytes.NewReader(own()), &out, write))
	assert.Contains(t, out.String(), " 0 without a place\n")
	sheets := strings.Count(out.String(), " 0 faults\n")
	assert.Positive(t, sheets)
	assert.Len(t, files, 2*sheets)
	moves, _, err := rs274.Read(bytes.NewReader(files["sheet-1.nc"]), rs274.Options{})
	require.NoError(t, err)
	assert.Greater(t, len(moves), 50)

	out.Reset()
	text := "0\nSECTION\n2\nENTITIES\n0\nLINE\n8\nbench\n10\n0\n20\n0\n11\n50\n21\n0\n0\nTEXT\n8\nbench\n10\n0\n20\n0\n40\n5\n1\nhello\n0\nENDSEC\n0\nEOF\n"
	_, err = read(strings.NewReader(text), &out)
	require.NoError(t, err)
	assert.Contains(t, out.String(), "layer bench: loose end at 50.000, 0.000")
	assert.Contains(t, out.String(), "TEXT not read")
	assert.Error(t, run(context.Background(), strings.NewReader("not a drawing"), io.Discard, write))
}
