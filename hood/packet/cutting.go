package packet

import (
	"context"
	"runtime"
	"sync"

	"example.com/sagitta/sheet/cut"
)

// A cutting is the program of one sheet, its texts, and what a replay of what
// was read back from them found.
type cutting struct {
	job     cut.Job
	program cut.Program
	files   []File
	rep     cut.Report
	err     error
	faults  error // what the replay found, where err is nil
}

// cuttings plans, writes and replays the programs of all sheets, as many at once as
// there are processors: no sheet knows of another.
func (m *maker) cuttings(ctx context.Context) []cutting {
	out := make([]cutting, len(m.n.layout.Sheets))
	var wait sync.WaitGroup
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i := range out {
		free <- struct{}{}
		m.o.say("sheet %d of %d: cutting and replaying its program", i+1, len(out))
		wait.Go(func() {
			out[i] = m.cut(ctx, i)
			<-free
		})
	}
	wait.Wait()
	return out
}

func (m *maker) cut(ctx context.Context, i int) cutting {
	c := cutting{job: m.job(i)}
	shop := m.o.shop()
	opt, err := shop.cutters(m.d.Spec, c.job.Stock.Thickness)
	if err != nil {
		c.err = err
		return c
	}
	if c.program, c.err = cut.Plan(ctx, c.job, opt); c.err != nil {
		c.err = asFaults(asHeld(c.err, m.d.Spec, c.job))
		return c
	}
	var moves []cut.Move
	if c.files, moves, c.err = texts(c.program, sheetName(i), shop.Dialect); c.err != nil {
		return c
	}
	c.rep, c.faults = cut.Replay(ctx, c.job, moves, opt)
	return c
}
