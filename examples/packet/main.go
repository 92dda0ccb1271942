// Command packet makes a whole shop packet from the spec file of a hood: flat
// parts, sheets, cut programs, drawings, model, cut list and report.
//
//	go run ./examples/packet [-spec FILE] [-out DIR] [-units mm|in] [-seed N] [-budget D] [-force]
//
// Without -spec it makes a demo. It exits with 0 when the packet is written,
// 1 when the hood cannot be built, a proof fails or the folder cannot be
// written, and 2 for bad use or a bad spec; then it writes one line a fault to
// standard error and nothing else.
package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
	"example.com/sagitta/hood/packet"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// errUse is bad use of the command or a bad spec.
var errUse = errors.New("bad use")

func run(args []string, stdout, stderr io.Writer) int {
	err := command(args, stdout, stderr)
	switch {
	case err == nil || errors.Is(err, flag.ErrHelp):
		return 0
	case errors.Is(err, errUse):
		return 2
	}
	fmt.Fprintln(stderr, err)
	return 1
}

func command(args []string, stdout, stderr io.Writer) error {
	f := flag.NewFlagSet("packet", flag.ContinueOnError)
	f.SetOutput(stderr)
	file := f.String("spec", "", "spec `file` of the hood; none makes a demo")
	out := f.String("out", "packet", "`folder` to write, new or empty")
	units := f.String("units", "", "`unit` of what is printed, mm or in; none means that of the spec")
	var o packet.Options
	f.Uint64Var(&o.Seed, "seed", 0, "seed of the search for a layout")
	f.DurationVar(&o.Budget, "budget", 0, "time for that search, such as 10s; 0 means a fixed number of steps")
	force := f.Bool("force", false, "write into a folder that holds something, over an earlier packet")
	if err := f.Parse(args); err != nil {
		return use(stderr, err, true)
	}
	switch {
	case f.NArg() > 0:
		return use(stderr, fmt.Errorf("argument = %q: need flags only", f.Arg(0)), false)
	case *units != "" && *units != "mm" && *units != "in":
		return use(stderr, fmt.Errorf("-units = %q: need mm or in", *units), false)
	case o.Budget < 0:
		return use(stderr, fmt.Errorf("-budget = %v: need >= 0", o.Budget), false)
	}
	spec, err := read(*file)
	if err != nil {
		return use(stderr, err, false)
	}
	if *units == "in" || *units == "" && spec.Units == "in" {
		o.Unit = arc.Inches
	}
	files, err := packet.Make(context.Background(), spec, o)
	if err != nil {
		return err
	}
	if err := packet.WriteFolder(*out, files, *force); err != nil {
		return err
	}
	fmt.Fprintf(stdout, "%s: %d files; open %s/report.html\n", *out, len(files), *out)
	return nil
}

// read returns the spec of a file, or of the demo, with its values judged.
func read(file string) (hood.Spec, error) {
	var r io.Reader = bytes.NewReader(packet.Demo())
	if file != "" {
		f, err := os.Open(file)
		if err != nil {
			return hood.Spec{}, err
		}
		defer f.Close()
		r = f
	}
	spec, err := packet.ReadSpec(r)
	if err != nil {
		return hood.Spec{}, err
	}
	return spec, spec.Validate()
}

// use prints a fault of use, unless the flag package has, and marks it.
func use(stderr io.Writer, err error, printed bool) error {
	if errors.Is(err, flag.ErrHelp) {
		return err
	}
	if !printed {
		fmt.Fprintln(stderr, err)
	}
	return errUse
}
