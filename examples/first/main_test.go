package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The README shows this program as it is, and what it prints.
func TestReadmeShowsThisProgram(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	src, err := os.ReadFile("main.go")
	require.NoError(t, err)
	_, body, ok := strings.Cut(string(src), "func main() {\n")
	require.True(t, ok)
	for _, line := range strings.Split(strings.TrimSpace(body), "\n") {
		assert.Contains(t, string(readme), strings.TrimSpace(line))
	}
}

func Example() {
	main()
	// Output:
	// 21 kerfs, every 36.55 mm, in a blank 767.49 mm long
	// first kerf at 23/32 in
}
