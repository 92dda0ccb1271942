package packet

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/sagitta/arc"
)

// A File is one file of a packet: its path in the folder, with forward
// slashes, and its content.
type File struct {
	Name string
	Data []byte
}

// ErrNotEmpty is the kind of fault where a folder already holds something.
var ErrNotEmpty = errors.New("folder is not empty")

// WriteFolder writes the files below dir, making it where it is missing. A
// folder that holds anything is left alone unless force is set; then the files
// that its packet.json lists are removed first, so that no program of an
// earlier packet stays behind, and nothing else is touched. All files are
// written to a new folder beside dir before any of them is moved in, so that a
// full disk or a folder that cannot be written leaves dir as it was.
func WriteFolder(dir string, files []File, force bool) error {
	entries, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return folderFault(dir, "a folder that can be read", err)
	case len(entries) > 0 && !force:
		return folderFault(dir, "an empty or new folder, or -force", ErrNotEmpty)
	}
	parent := filepath.Dir(filepath.Clean(dir))
	if err := os.MkdirAll(parent, 0o777); err != nil {
		return folderFault(dir, "a folder that can be made", err)
	}
	tmp, err := os.MkdirTemp(parent, ".packet-*")
	if err != nil {
		return folderFault(dir, "a folder that can be written beside", err)
	}
	defer os.RemoveAll(tmp)
	for _, f := range files {
		if err := writeFile(tmp, f); err != nil {
			return folderFault(dir, "room to write", err)
		}
	}
	if err := moveIn(tmp, dir, files); err != nil {
		return folderFault(dir, "a folder that can be written", err)
	}
	return nil
}

func folderFault(dir, need string, err error) error {
	return &arc.ParamError{Param: "out", Value: dir, Need: need, Err: err}
}

func writeFile(root string, f File) error {
	name := filepath.Join(root, filepath.FromSlash(f.Name))
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		return err
	}
	return os.WriteFile(name, f.Data, 0o666)
}

// moveIn takes an old packet's files out of dir and moves the new ones in.
func moveIn(tmp, dir string, files []File) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	probe, err := os.CreateTemp(dir, ".probe-*") // before anything is removed
	if err != nil {
		return err
	}
	probe.Close()
	if err := os.Remove(probe.Name()); err != nil {
		return err
	}
	for _, name := range listed(dir) {
		if err := os.Remove(filepath.Join(dir, name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	for _, f := range files {
		to := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
			return err
		}
		if err := os.Rename(filepath.Join(tmp, filepath.FromSlash(f.Name)), to); err != nil {
			return err
		}
	}
	return nil
}

// listed returns the files an earlier packet in dir says it wrote; names that
// would leave the folder are not believed.
func listed(dir string) []string {
	data, err := os.ReadFile(filepath.Join(dir, "packet.json"))
	if err != nil {
		return nil
	}
	var old struct{ Files []string }
	if json.Unmarshal(data, &old) != nil {
		return nil
	}
	return slices.DeleteFunc(old.Files, func(name string) bool {
		return !filepath.IsLocal(name) || strings.ContainsAny(name, "\\:")
	})
}
