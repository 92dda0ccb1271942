package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"sync/atomic"
	"time"

	"example.com/sagitta/hood"
	"example.com/sagitta/hood/packet"
)

func usage(f *flag.FlagSet, w io.Writer) {
	fmt.Fprint(w, `usage: packet [-spec FILE] [-out DIR] [-units mm|in] [-seed N] [-budget D] [-force]

Makes the shop packet of a hood: parts, sheets, cut programs, drawings, report.

  packet -spec kitchen.json -out kitchen-packet

`)
	f.SetOutput(w)
	f.PrintDefaults()
	fmt.Fprint(w, `
exit codes:
  0  the packet is written
  1  the hood cannot be built, a proof fails, the folder cannot be written, or it was interrupted
  2  bad use or a bad spec
`)
}

func printVersion(w io.Writer) {
	v := "unknown"
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		v = info.Main.Version
	}
	fmt.Fprintf(w, "packet %s, spec files of version %d\n", v, hood.Version)
}

// Times of progress: nothing is said of what is quick.
const (
	quiet = 500 * time.Millisecond
	tick  = 100 * time.Millisecond
)

// makePacket makes the files, and returns at once when ctx ends, as nothing is
// on the disk yet.
func makePacket(ctx context.Context, s hood.Spec, o packet.Options, stderr io.Writer) ([]packet.File, error) {
	var step atomic.Value
	step.Store("starting")
	o.Progress = func(what string) { step.Store(what) }
	type result struct {
		files []packet.File
		err   error
	}
	done := make(chan result, 1)
	go func() {
		files, err := packet.Make(ctx, s, o)
		done <- result{files, err}
	}()
	var ticks <-chan time.Time
	if isTerminal(stderr) {
		t := time.NewTicker(tick)
		defer t.Stop()
		ticks = t.C
	}
	began, said := time.Now(), false
	defer func() {
		if said {
			fmt.Fprint(stderr, "\r\x1b[K")
		}
	}()
	for {
		select {
		case r := <-done:
			return r.files, r.err
		case <-ctx.Done():
			return nil, ctx.Err()
		case <-ticks:
			if d := time.Since(began); d > quiet {
				fmt.Fprintf(stderr, "\r\x1b[K%s, %.1f s", step.Load(), d.Seconds())
				said = true
			}
		}
	}
}

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
