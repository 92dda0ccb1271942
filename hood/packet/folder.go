package packet

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"example.com/sagitta/arc"
)

// A File is one file of a packet: its path in the folder, with forward
// slashes, and its content.
type File struct {
	Name string
	Data []byte
}

// FolderOptions say what a folder to write may hold.
type FolderOptions struct {
	Force bool // write over an earlier packet, and beside other files; false asks for an empty or new folder
}

// The kinds of fault of a folder, beside those of the system.
var (
	// ErrNotEmpty: the folder already holds something.
	ErrNotEmpty = errors.New("folder is not empty")
	// ErrName: a name that no file of a packet may have.
	ErrName = errors.New("name cannot be used")
)

// Staging is the folder, inside that of a packet and so on its file system, in
// which a new packet is made whole before the old one gives way.
const Staging = ".packet-new"

// WriteFolder writes the files, of which one is packet.json, below dir, making
// it where it is missing. A folder that holds anything is left alone unless
// Force is set; then the files that its packet.json lists give way, so that no
// program of an earlier packet stays behind, and nothing else is touched.
//
// The process may end at any moment: the old packet or the new one is then
// whole in dir or in [Staging] below it, and its packet.json tells which, as
// that is written last and taken away first. The next call for dir finishes
// what was begun, where the new packet was whole, and else clears it away. A
// fault, or an end of ctx, before the new packet is whole leaves dir as it was;
// from there on ctx is not looked at, since all files are moved within dir.
// Nothing is said of a loss of power, and one call at a time may write to dir.
// The error is a [*arc.ParamError] with the system's reason, or that of ctx.
func WriteFolder(ctx context.Context, dir string, files []File, o FolderOptions) error {
	if err := checkNames(files); err != nil {
		return err
	}
	made, err := makeFolders(dir)
	if err == nil {
		err = writeInto(ctx, dir, files, o)
	}
	if err != nil {
		for _, m := range made {
			os.Remove(m) // holds nothing, or stays
		}
	}
	return err
}

func writeInto(ctx context.Context, dir string, files []File, o FolderOptions) error {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return folderFault(dir, "a folder that can be read", err)
	}
	defer root.Close()
	return folder{disk: root, dir: dir}.write(ctx, files, o)
}

// checkNames asks for names that stay within a folder and out of the way of
// those that a write uses, each once, packet.json among them.
func checkNames(files []File) error {
	seen := map[string]bool{}
	fault := func(name, need string) error {
		return &arc.ParamError{Func: "packet.WriteFolder", Param: "files", Value: name, Need: need, Err: ErrName}
	}
	for _, f := range files {
		switch name := f.Name; {
		case !isName(name):
			return fault(name, "a path within the folder, with forward slashes")
		case seen[name]:
			return fault(name, "a name of its own")
		default:
			seen[name] = true
		}
	}
	if !seen[listName] {
		return fault("", "packet.json among the files")
	}
	return nil
}

// makeFolders makes dir and those above it, and returns what it made, the
// innermost first.
func makeFolders(dir string) ([]string, error) {
	var made []string
	for at := filepath.Clean(dir); ; at = filepath.Dir(at) {
		if _, err := os.Stat(at); !errors.Is(err, fs.ErrNotExist) || at == filepath.Dir(at) {
			break
		}
		made = append(made, at)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return made, folderFault(dir, "a folder that can be made", err)
	}
	return made, nil
}

// folderFault says what is needed of a folder and why the system refused it.
func folderFault(dir, need string, err error) error {
	return &arc.ParamError{Param: "out", Value: dir, Need: need + ": " + err.Error(), Err: err}
}
