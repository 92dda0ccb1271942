package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRun(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, run(&b))
	for _, method := range []string{"bent as it is: stands", "kerfed: ", "laminated: ", "not bent as it is: ", "not kerfed: "} {
		assert.Contains(t, b.String(), "  "+method)
	}
	lines := strings.Split(b.String(), "\n")
	for i, l := range lines { // what works comes first
		if strings.HasPrefix(l, "  not ") {
			next := lines[i+1]
			assert.False(t, strings.HasPrefix(next, "  ") && !strings.HasPrefix(next, "  not "), next)
		}
	}
}
