package main

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every row has its line, in order, whichever core it came from; a wider hood of
// the same kind is no cheaper, and a row that cannot be built says why.
func TestRows(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, run(strings.NewReader("A,900,900,520,290,48\nB,1400,900,520,290,48\nC,900,900,520,290,4800\nD,900,900,520,290,wide"), &out))
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	require.Len(t, lines, 4)
	total := regexp.MustCompile(`^[AB]: (\d+\.\d\d) USD, \d+\.\d h of labor, 1 lines not priced$`)
	a, b := total.FindStringSubmatch(lines[0]), total.FindStringSubmatch(lines[1])
	require.NotNil(t, a, lines[0])
	require.NotNil(t, b, lines[1])
	assert.Less(t, a[1], b[1])
	assert.Contains(t, lines[2], "sweep.sag")
	assert.Contains(t, lines[3], "wide")
	assert.Error(t, run(strings.NewReader("A,1\nB,1,2"), &out), "rows of unequal length")
}
