package packet

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
)

func files(names ...string) []File {
	var out []File
	for _, n := range names {
		out = append(out, File{n, []byte(n)})
	}
	return out
}

func tree(t *testing.T, dir string) []string {
	var out []string
	require.NoError(t, filepath.Walk(dir, func(p string, info os.FileInfo, err error) error {
		if err == nil && !info.IsDir() {
			rel, _ := filepath.Rel(dir, p)
			out = append(out, filepath.ToSlash(rel))
		}
		return err
	}))
	return out
}

func TestWriteFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "b")
	require.NoError(t, WriteFolder(context.Background(), dir, files("packet.json", "sheets/sheet-1.nc"), FolderOptions{Force: false}))
	assert.Equal(t, []string{"packet.json", "sheets/sheet-1.nc"}, tree(t, dir))
	data, err := os.ReadFile(filepath.Join(dir, "sheets", "sheet-1.nc"))
	require.NoError(t, err)
	assert.Equal(t, "sheets/sheet-1.nc", string(data))
	assert.Len(t, tree(t, filepath.Dir(dir)), 2, "nothing is left beside the folder")
}

func TestWriteFolderKeepsWhatIsThere(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "mine.txt"), nil, 0o666))
	err := WriteFolder(context.Background(), dir, files("packet.json"), FolderOptions{Force: false})
	assert.ErrorIs(t, err, ErrNotEmpty)
	assert.Equal(t, []string{"mine.txt"}, tree(t, dir))
	require.NoError(t, WriteFolder(context.Background(), dir, files("packet.json"), FolderOptions{Force: true}))
	assert.Equal(t, []string{"mine.txt", "packet.json"}, tree(t, dir))
}

// A program of an earlier packet must not stay to be cut by mistake, and a
// list that names files elsewhere must not be believed.
func TestForceRemovesTheEarlierPacket(t *testing.T) {
	root := t.TempDir()
	dir := filepath.Join(root, "out")
	outside := filepath.Join(root, "outside")
	require.NoError(t, os.WriteFile(outside, nil, 0o666))
	list := File{"packet.json", []byte(`{"files":["packet.json","sheets/sheet-2.nc","../outside","/etc/hostname"]}`)}
	require.NoError(t, WriteFolder(context.Background(), dir, append(files("sheets/sheet-2.nc"), list), FolderOptions{Force: false}))
	require.NoError(t, WriteFolder(context.Background(), dir, files("packet.json", "sheets/sheet-1.nc"), FolderOptions{Force: true}))
	assert.Equal(t, []string{"packet.json", "sheets/sheet-1.nc"}, tree(t, dir))
	assert.FileExists(t, outside)
}

func TestWriteFolderWhereNoneCanBe(t *testing.T) {
	root := t.TempDir()
	file := filepath.Join(root, "file")
	require.NoError(t, os.WriteFile(file, nil, 0o666))
	for _, dir := range []string{file, filepath.Join(file, "below"), filepath.Join(file, "far", "below")} {
		for _, force := range []bool{false, true} {
			err := WriteFolder(context.Background(), dir, files("packet.json"), FolderOptions{Force: force})
			var pe *arc.ParamError
			require.ErrorAs(t, err, &pe, dir)
			assert.Equal(t, "out", pe.Param)
			assert.Contains(t, err.Error(), "not a directory", "the system's reason")
		}
	}
	assert.Equal(t, []string{"file"}, tree(t, root))
}
