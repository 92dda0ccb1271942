package packet

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stamped returns a packet of which every file says which packet it is of, and
// packet.json which files there are.
func stamped(mark string, names ...string) []File {
	names = append([]string{"packet.json"}, names...)
	list, _ := json.Marshal(map[string]any{"mark": mark, "files": names})
	out := []File{{"packet.json", list}}
	for _, n := range names[1:] {
		out = append(out, File{n, bytes.Repeat([]byte(mark+" "+n+"\n"), 50)})
	}
	return out
}

// whole reads a packet back without anything of the package: packet.json, every
// file it lists, each of the packet it says. It returns the mark, or why not.
func whole(dir string) (string, error) {
	data, err := os.ReadFile(filepath.Join(dir, "packet.json"))
	if err != nil {
		return "", err
	}
	var list struct {
		Mark  string
		Files []string
	}
	if err := json.Unmarshal(data, &list); err != nil {
		return "", err
	}
	for _, n := range list.Files {
		if n == "packet.json" {
			continue
		}
		data, err := os.ReadFile(filepath.Join(dir, n))
		if err != nil {
			return "", err
		}
		if want := strings.Repeat(list.Mark+" "+n+"\n", 50); string(data) != want {
			return "", fmt.Errorf("%s is not whole, or not of %s", n, list.Mark)
		}
	}
	return list.Mark, nil
}

// either finds the packet that is whole, under its name or under the stated one.
func either(dir string) (string, error) {
	mark, err := whole(dir)
	if err == nil {
		return mark, nil
	}
	mark, err2 := whole(filepath.Join(dir, ".packet-new"))
	if err2 == nil {
		return mark, nil
	}
	return "", errors.Join(err, err2)
}

var errFull = errors.New("no room, planted")

// flaky is a disk of which one operation fails; where dead is asked, all after
// it fail too and do nothing, as if the process had ended amid that one.
type flaky struct {
	disk
	left   *int
	dead   bool
	noLink bool
}

func (f flaky) fails() bool {
	*f.left--
	return *f.left == 0 || f.dead && *f.left < 0
}

func (f flaky) WriteFile(name string, data []byte, perm fs.FileMode) error {
	if f.fails() {
		if *f.left == 0 {
			f.disk.WriteFile(name, data[:len(data)/2], perm)
		}
		return errFull
	}
	return f.disk.WriteFile(name, data, perm)
}

func (f flaky) MkdirAll(name string, perm fs.FileMode) error {
	if f.fails() {
		return errFull
	}
	return f.disk.MkdirAll(name, perm)
}

func (f flaky) Link(from, to string) error {
	if f.noLink || f.fails() {
		return errFull
	}
	return f.disk.Link(from, to)
}

func (f flaky) Rename(from, to string) error {
	if f.fails() {
		return errFull
	}
	return f.disk.Rename(from, to)
}

func (f flaky) Remove(name string) error {
	if f.fails() {
		return errFull
	}
	return f.disk.Remove(name)
}

// RemoveAll takes away half of the files where it is the one that fails.
func (f flaky) RemoveAll(name string) error {
	if !f.fails() {
		return f.disk.RemoveAll(name)
	}
	n := 0
	fs.WalkDir(f.FS(), name, func(p string, d fs.DirEntry, err error) error {
		if n++; err == nil && *f.left == 0 && !d.IsDir() && n%2 == 0 {
			f.disk.Remove(p)
		}
		return nil
	})
	return errFull
}

var (
	larger  = []string{"cutlist.csv", "parts/a.svg", "parts/b.svg", "sheets/sheet-1.nc", "sheets/sheet-2.nc", "deep/er/x"}
	smaller = []string{"cutlist.csv", "parts/a.svg", "sheets/sheet-1.nc", "report.html"}
)

// Wherever a write over an old packet fails or ends, one packet is whole, what
// is no packet's is there, and the next run leaves nothing but a whole packet.
func TestEveryStepCanFail(t *testing.T) {
	old, young, stride := stamped("old", larger...), stamped("young", smaller...), 1
	if testing.Short() {
		stride = 3
	}
	for _, c := range []struct{ dead, noLink bool }{{false, false}, {true, false}, {false, true}, {true, true}} {
		steps, fresh := 0, 0
		for at := 1; ; at += stride {
			dir := t.TempDir()
			require.NoError(t, WriteFolder(context.Background(), dir, old, FolderOptions{}))
			require.NoError(t, os.WriteFile(filepath.Join(dir, "parts", "mine.txt"), nil, 0o666))
			root, err := os.OpenRoot(dir)
			require.NoError(t, err)
			left := at
			err = folder{disk: flaky{root, &left, c.dead, c.noLink}, dir: dir}.write(context.Background(), young, FolderOptions{Force: true})
			root.Close()
			mark, lost := either(dir)
			require.NoError(t, lost, "%+v at %d", c, at)
			if err != nil {
				assert.ErrorIs(t, err, errFull)
				assert.Contains(t, err.Error(), errFull.Error(), "the reason is said")
			} else {
				assert.Equal(t, "young", mark)
			}
			if left > 0 { // nothing failed: that was every step
				break
			}
			steps++
			if mark == "young" {
				fresh++
			}
			if steps%2 == 0 { // the next run finishes, with leave to write or without
				err = WriteFolder(context.Background(), dir, stamped("third"), FolderOptions{})
				require.ErrorIs(t, err, ErrNotEmpty)
				again, lost := whole(dir)
				require.NoError(t, lost, "%+v at %d", c, at)
				if again != "young" { // that was whole too, where the old one was
					assert.Equal(t, mark, again)
				}
				want := map[string][]string{"old": larger, "young": smaller}[again]
				assert.ElementsMatch(t, append([]string{"packet.json", "parts/mine.txt"}, want...), tree(t, dir), "%+v at %d", c, at)
			}
			require.NoError(t, WriteFolder(context.Background(), dir, stamped("third", "report.html"), FolderOptions{Force: true}))
			assert.ElementsMatch(t, []string{"packet.json", "report.html", "parts/mine.txt"}, tree(t, dir), "%+v at %d", c, at)
			if c.dead { // else one that could not be taken away stays, and holds nothing
				assert.NoDirExists(t, filepath.Join(dir, "deep"), "%+v at %d", c, at)
			}
		}
		assert.Greater(t, steps, 40/stride)
		assert.Greater(t, fresh, 5/stride, "both outcomes were met")
		assert.Greater(t, steps-fresh, 5/stride)
	}
}

// A run that fails before its packet is whole leaves the folder as it was, or
// no folder where there was none.
func TestAFailedWriteLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, WriteFolder(context.Background(), dir, stamped("old", larger...), FolderOptions{}))
	before := tree(t, dir)
	require.NoError(t, os.Mkdir(filepath.Join(dir, "report.html"), 0o777)) // where a file must go
	err := WriteFolder(context.Background(), dir, stamped("young", smaller...), FolderOptions{Force: true})
	assert.ErrorContains(t, err, "report.html: is a folder")
	assert.Equal(t, before, tree(t, dir))

	ended, end := context.WithCancel(context.Background())
	end()
	far := filepath.Join(t.TempDir(), "a", "b")
	assert.ErrorIs(t, WriteFolder(ended, far, stamped("new", larger...), FolderOptions{}), context.Canceled)
	assert.NoDirExists(t, filepath.Dir(far))
	assert.ErrorIs(t, WriteFolder(ended, dir, stamped("new", larger...), FolderOptions{Force: true}), context.Canceled)
	assert.Equal(t, before, tree(t, dir))
}

// A folder that links lead out of is refused before anything is touched.
func TestLinksLeadNowhere(t *testing.T) {
	dir, outside := t.TempDir(), t.TempDir()
	require.NoError(t, WriteFolder(context.Background(), dir, stamped("old", larger...), FolderOptions{}))
	require.NoError(t, os.Rename(filepath.Join(dir, "parts"), filepath.Join(outside, "parts")))
	require.NoError(t, os.Symlink(filepath.Join(outside, "parts"), filepath.Join(dir, "parts")))
	err := WriteFolder(context.Background(), dir, stamped("young", smaller...), FolderOptions{Force: true})
	require.Error(t, err)
	assert.Contains(t, err.Error(), "escapes")
	mark, lost := whole(dir)
	require.NoError(t, lost)
	assert.Equal(t, "old", mark)
}

func TestNamesOfFiles(t *testing.T) {
	for _, bad := range []string{"", ".", "/a", "../a", "a/../b", "a\\b", "c:a", "a/", Staging, Staging + "/a", ".packet-old", "packet.json", "a~"} {
		dir := filepath.Join(t.TempDir(), "x")
		err := WriteFolder(context.Background(), dir, append(stamped("m"), File{bad, nil}), FolderOptions{})
		assert.ErrorIs(t, err, ErrName, bad)
		assert.NoDirExists(t, dir)
	}
	assert.ErrorIs(t, WriteFolder(context.Background(), t.TempDir(), nil, FolderOptions{}), ErrName, "no packet.json")
}

// The test's own process, started anew, writes one packet after another until
// it is killed.
func TestMain(m *testing.M) {
	if dir := os.Getenv("SAGITTA_TEST_WRITE"); dir != "" {
		for i := 0; ; i++ {
			names := [][]string{larger, smaller}[i%2]
			if err := WriteFolder(context.Background(), dir, stamped(fmt.Sprint("run ", i), names...), FolderOptions{Force: true}); err != nil {
				fmt.Println(err)
				os.Exit(3)
			}
		}
	}
	os.Exit(m.Run())
}

func TestAKillLosesNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("starts and kills processes")
	}
	self, err := os.Executable()
	require.NoError(t, err)
	dir, rng, unfinished := t.TempDir(), rand.New(rand.NewPCG(1, 2)), 0
	require.NoError(t, WriteFolder(context.Background(), dir, stamped("run 0", larger...), FolderOptions{}))
	for range 40 {
		c := exec.Command(self, "-test.run=^$")
		c.Env = append(os.Environ(), "SAGITTA_TEST_WRITE="+dir)
		require.NoError(t, c.Start())
		time.Sleep(time.Duration(20+rng.IntN(60))*time.Millisecond + time.Duration(rng.IntN(1000))*time.Microsecond)
		require.NoError(t, c.Process.Signal(syscall.SIGKILL))
		state, _ := c.Process.Wait()
		require.Equal(t, -1, state.ExitCode(), "it wrote on until it was killed")
		_, lost := either(dir)
		require.NoError(t, lost)
		if _, err := os.Stat(filepath.Join(dir, Staging)); err == nil {
			unfinished++
		}
	}
	assert.Positive(t, unfinished, "some were killed amid a write")
	t.Logf("%d of 40 were killed amid a write", unfinished)
	require.NoError(t, WriteFolder(context.Background(), dir, stamped("end", smaller...), FolderOptions{Force: true}))
	assert.ElementsMatch(t, append([]string{"packet.json"}, smaller...), tree(t, dir))
}
