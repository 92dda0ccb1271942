package rs274_test

import (
	"bytes"
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
)

// What a text waits comes back with the moves: a program that gives the
// spindle the time that the shop's does not need less of is taken, and one that
// gives less is not.
func TestDwellIsReadBack(t *testing.T) {
	job, opt := kerfed(t)
	opt.SpinUp = 2.5
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	for name, c := range map[string]struct {
		o    rs274.Options
		want float64
	}{
		"the shop's own":  {rs274.Options{}, 2.5},
		"in milliseconds": {rs274.Options{Dwell: 4, DwellForm: rs274.Milliseconds}, 4},
		"too short":       {rs274.Options{Dwell: 1}, 1},
	} {
		var b bytes.Buffer
		require.NoError(t, rs274.Encode(&b, p, c.o), name)
		moves, _, err := rs274.Read(bytes.NewReader(b.Bytes()), c.o)
		require.NoError(t, err, name)
		tool, waited := 0, 0
		for _, m := range moves {
			if m.Dwell > 0 {
				assert.InDelta(t, c.want, m.Dwell, 1e-9, name)
				waited++
			}
			if m.Tool != tool {
				assert.Positive(t, m.Dwell, "%s: line %d", name, m.Line)
			}
			tool = m.Tool
		}
		assert.Equal(t, 4, waited, "%s: cutters 2, 1, 3 and 1 again", name)
		rep, err := cut.Replay(context.Background(), job, moves, opt)
		assert.Equal(t, c.want < opt.SpinUp, rep.Faults.Has(cut.NotUpToSpeed), "%s: %v", name, err)
		assert.Equal(t, c.want < opt.SpinUp, err != nil, "%s: %v", name, err)
	}
}
