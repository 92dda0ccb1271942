package main

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The masses of what hangs, as printed part by part, add up to what is printed
// to hang; the model is a glTF file.
func TestWhole(t *testing.T) {
	var out, model bytes.Buffer
	require.NoError(t, run(&out, &model))
	sum, total := 0.0, 0.0
	for _, l := range strings.Split(out.String(), "\n") {
		f := strings.Fields(l)
		var kg float64
		if len(f) > 2 && f[len(f)-1] == "kg" && strings.Contains(l, " kerfs, ") {
			if _, err := fmt.Sscan(f[len(f)-2], &kg); err == nil && f[0] != "cleat-wall" {
				sum += kg
			}
		}
		if strings.HasPrefix(l, "hangs: ") {
			fmt.Sscanf(l, "hangs: %f kg", &total)
		}
	}
	assert.InDelta(t, sum, total, 0.15, "each is rounded")
	assert.Contains(t, out.String(), "caution: ")
	assert.Equal(t, "glTF", model.String()[:4])
}
