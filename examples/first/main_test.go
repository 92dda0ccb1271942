package main

import (
	"os"
	"regexp"
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

// The README lists every example that there is, and no other.
func TestReadmeListsExamples(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	_, table, _ := strings.Cut(string(readme), "## Learn it by example")
	table, _, _ = strings.Cut(table, "\n## ")
	listed := regexp.MustCompile("`([a-z]+)`:").FindAllStringSubmatch(table, -1)
	var names []string
	for _, l := range listed {
		names = append(names, l[1])
	}
	folders, err := os.ReadDir("..")
	require.NoError(t, err)
	var want []string
	for _, f := range folders {
		if f.IsDir() {
			want = append(want, f.Name())
		}
	}
	assert.ElementsMatch(t, want, names)
}
