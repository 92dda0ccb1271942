package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood/packet"
)

func TestHelpAndVersion(t *testing.T) {
	var o, e bytes.Buffer
	assert.Equal(t, 0, run([]string{"-h"}, &o, &e))
	assert.Empty(t, e.String())
	for _, want := range []string{"usage: packet", "  packet -spec", "exit codes", "-force", "-version"} {
		assert.Contains(t, o.String(), want)
	}
	o.Reset()
	assert.Equal(t, 0, run([]string{"-version"}, &o, &e))
	assert.Regexp(t, `^packet \S+, spec files of version \d+\n$`, o.String())
}

func TestSpecFromStandardInput(t *testing.T) {
	out := filepath.Join(t.TempDir(), "x")
	var o, e bytes.Buffer
	spec := bytes.NewReader(packet.Demo())
	assert.Equal(t, 0, start(context.Background(), []string{"-spec", "-", "-out", out}, spec, &o, &e), e.String())
	assert.FileExists(t, filepath.Join(out, "packet.json"))
	assert.Empty(t, e.String(), "no progress where there is no terminal")
	assert.Equal(t, 2, start(context.Background(), []string{"-spec", "-", "-out", out}, strings.NewReader("{"), &o, &e))
}

// The test's own process, started anew, runs the command.
func TestMain(m *testing.M) {
	if args := os.Getenv("SAGITTA_TEST_ARGS"); args != "" {
		os.Args = append(os.Args[:1], strings.Fields(args)...)
		main()
	}
	os.Exit(m.Run())
}

// An interrupt ends the command at once and leaves nothing.
func TestInterrupt(t *testing.T) {
	self, err := os.Executable()
	require.NoError(t, err)
	dir := t.TempDir()
	for _, wait := range []time.Duration{60, 200} {
		var e bytes.Buffer
		c := exec.Command(self)
		c.Stderr = &e
		c.Env = append(os.Environ(), "SAGITTA_TEST_ARGS=-budget 1h -out "+filepath.Join(dir, "a", "b"))
		require.NoError(t, c.Start())
		time.Sleep(wait * time.Millisecond)
		require.NoError(t, c.Process.Signal(syscall.SIGINT))
		require.Error(t, c.Wait())
		assert.Equal(t, 1, c.ProcessState.ExitCode(), e.String())
		assert.Equal(t, "interrupted: no packet was written\n", e.String())
		entries, err := os.ReadDir(dir)
		require.NoError(t, err)
		assert.Empty(t, entries)
	}
}
