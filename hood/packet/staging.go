package packet

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	slash "path"
	"path/filepath"
	"slices"
	"strings"
)

// Names in a folder, beside Staging, while a packet is written.
const (
	listName   = "packet.json"
	movingName = ".packet-in"  // the new files once more, to be moved in
	formerName = ".packet-old" // packet.json of the packet that gives way
)

// maxListBytes bounds what is read of an earlier packet.json.
const maxListBytes = 64 << 20

// A disk is what the steps of a write use of [os.Root]: every name is within
// the folder, and no link leads out of it.
type disk interface {
	FS() fs.FS
	Lstat(name string) (fs.FileInfo, error)
	ReadFile(name string) ([]byte, error)
	WriteFile(name string, data []byte, perm fs.FileMode) error
	MkdirAll(name string, perm fs.FileMode) error
	Link(from, to string) error
	Rename(from, to string) error
	Remove(name string) error
	RemoveAll(name string) error
}

var _ disk = (*os.Root)(nil)

// A folder is one that a packet is written to.
type folder struct {
	disk
	dir string // as the caller named it, for faults
}

func (f folder) write(ctx context.Context, files []File, o FolderOptions) error {
	finished, err := f.restore()
	if err != nil {
		return err
	}
	entries, err := fs.ReadDir(f.FS(), ".")
	switch {
	case err != nil:
		return folderFault(f.dir, "a folder that can be read", err)
	case len(entries) > 0 && !o.Force && finished:
		return folderFault(f.dir, "an empty or new folder, or -force; a packet whose writing had been cut short has been finished", ErrNotEmpty)
	case len(entries) > 0 && !o.Force:
		return folderFault(f.dir, "an empty or new folder, or -force", ErrNotEmpty)
	}
	names, err := f.stage(ctx, files)
	if err == nil {
		err = f.prepare(names)
	}
	if err == nil {
		err = ctx.Err()
	}
	if err != nil {
		f.clear()
		if ctx.Err() != nil {
			return ctx.Err()
		}
		return folderFault(f.dir, "a folder with room that can be written", err)
	}
	return f.enter(names)
}

// restore finishes what an earlier write left once its packet was whole, and
// clears away what it left before that.
func (f folder) restore() (finished bool, err error) {
	_, noStaging := f.Lstat(Staging)
	_, noMoving := f.Lstat(movingName)
	if noStaging != nil && noMoving != nil {
		return false, nil // nor is anything tried of a folder that cannot be written
	}
	if _, err := f.Lstat(slash.Join(Staging, listName)); err != nil {
		if err := f.clear(); err != nil {
			return false, folderFault(f.dir, "a folder from which what an earlier run left can be cleared", err)
		}
		return false, nil
	}
	names, err := f.staged()
	if err == nil {
		err = f.prepare(names)
	}
	if err != nil {
		return false, f.halfway(err)
	}
	return true, f.enter(names)
}

// stage writes the files below Staging, packet.json last, and returns their
// names in that order.
func (f folder) stage(ctx context.Context, files []File) ([]string, error) {
	var names []string
	ordered := slices.Clone(files)
	slices.SortStableFunc(ordered, func(a, b File) int { return last(a.Name) - last(b.Name) })
	for _, file := range ordered {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if err := f.put(slash.Join(Staging, file.Name), file.Data); err != nil {
			return nil, err
		}
		names = append(names, file.Name)
	}
	return names, nil
}

func last(name string) int {
	if name == listName {
		return 1
	}
	return 0
}

// put writes a file under another name first, so that it is there whole or not
// at all.
func (f folder) put(name string, data []byte) error {
	if err := f.MkdirAll(slash.Dir(name), 0o777); err != nil {
		return err
	}
	if err := f.WriteFile(name+"~", data, 0o666); err != nil {
		return err
	}
	return f.Rename(name+"~", name)
}

// staged lists the files below Staging, packet.json last.
func (f folder) staged() ([]string, error) {
	var names []string
	err := fs.WalkDir(f.FS(), Staging, func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			names = append(names, strings.TrimPrefix(p, Staging+"/"))
		}
		return err
	})
	slices.SortStableFunc(names, func(a, b string) int { return last(a) - last(b) })
	return names, err
}

// prepare does what can fail for want of room or leave before anything of an
// earlier packet is touched: the files get a second name, or where the file
// system has no such thing a copy, from which they are moved in, and every
// folder they go to is tried.
func (f folder) prepare(names []string) error {
	if err := f.RemoveAll(movingName); err != nil {
		return err
	}
	tried := map[string]bool{}
	for _, name := range names {
		from, to := slash.Join(Staging, name), slash.Join(movingName, name)
		if err := f.MkdirAll(slash.Dir(to), 0o777); err != nil {
			return err
		}
		if f.Link(from, to) != nil {
			if err := f.copy(from, to); err != nil {
				return err
			}
		}
		if info, err := f.Lstat(name); err == nil && info.IsDir() {
			return fmt.Errorf("%s: %w", name, errors.New("is a folder"))
		}
		if dir := slash.Dir(name); !tried[dir] {
			tried[dir] = true
			if err := f.try(dir); err != nil {
				return err
			}
		}
	}
	return nil
}

func (f folder) copy(from, to string) error {
	data, err := f.ReadFile(from)
	if err != nil {
		return err
	}
	return f.put(to, data)
}

// try moves a file into a folder, where there is one, and out of it.
func (f folder) try(dir string) error {
	if _, err := f.Lstat(dir); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	probe, there := slash.Join(movingName, ".probe"), slash.Join(dir, movingName+"-probe")
	if err := f.WriteFile(probe, nil, 0o666); err != nil {
		return err
	}
	err := f.Rename(probe, there)
	if err == nil {
		err = f.Remove(there)
	}
	if err != nil {
		f.Remove(there)
	}
	return err
}

// enter takes the files of an earlier packet out and moves those of the new
// one in. All the while the new one is whole in Staging.
func (f folder) enter(names []string) error {
	old := append(f.listed(formerName), f.listed(listName)...)
	if err := f.Rename(listName, formerName); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return f.halfway(err)
	}
	for _, name := range old {
		if err := f.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return f.halfway(err)
		}
	}
	for _, name := range old {
		for dir := slash.Dir(name); dir != "."; dir = slash.Dir(dir) {
			if err := f.Remove(dir); err != nil && !errors.Is(err, fs.ErrNotExist) {
				break // it holds something else
			}
		}
	}
	for _, name := range names {
		if err := f.MkdirAll(slash.Dir(name), 0o777); err != nil {
			return f.halfway(err)
		}
		if err := f.Rename(slash.Join(movingName, name), name); err != nil {
			return f.halfway(err)
		}
	}
	err := f.Remove(formerName)
	if errors.Is(err, fs.ErrNotExist) {
		err = nil
	}
	if err == nil {
		err = f.clear()
	}
	if err != nil {
		return folderFault(f.dir, "a folder from which "+Staging+" can be cleared", err)
	}
	return nil
}

func (f folder) halfway(err error) error {
	return folderFault(f.dir, "a folder that can be written; the new packet is whole in "+filepath.Join(f.dir, Staging)+
		", and the next run will move it in", err)
}

// clear takes away what writing needed, in an order in which a packet in
// Staging counts as whole until the folder needs it no more.
func (f folder) clear() error {
	if err := f.Remove(slash.Join(Staging, listName)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return errors.Join(f.RemoveAll(movingName), f.RemoveAll(Staging))
}

// listed returns the files that a packet.json says were written, but itself;
// names that would leave the folder are not believed.
func (f folder) listed(list string) []string {
	info, err := f.Lstat(list)
	if err != nil || !info.Mode().IsRegular() || info.Size() > maxListBytes {
		return nil
	}
	data, err := f.ReadFile(list)
	if err != nil {
		return nil
	}
	var old struct{ Files []string }
	if json.Unmarshal(data, &old) != nil {
		return nil
	}
	return slices.DeleteFunc(old.Files, func(name string) bool { return !isName(name) || name == listName })
}

// isName tells whether a name is one that a file of a packet may have.
func isName(name string) bool {
	return name != "." && fs.ValidPath(name) && filepath.IsLocal(name) && !strings.ContainsAny(name, "\\:") &&
		!strings.HasPrefix(name, ".packet-") && !strings.HasSuffix(name, "~")
}
