package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPantry(t *testing.T) {
	var out, figure bytes.Buffer
	require.NoError(t, run(&out, &figure))
	assert.Contains(t, out.String(), ", 0 without a place\n")
	assert.GreaterOrEqual(t, strings.Count(out.String(), " cut "), 15, "as many cuts as parts at least")
	for _, name := range []string{"side", "door", "drawer front", ">16<"} {
		assert.Contains(t, figure.String(), name)
	}
}
