package rules

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// outsider is a program of another module. 600 and 75 give a radius of
// 600²/(8·75) + 75/2 = 637.5; what it prints beside that is that packages with
// embedded files and internal rooms build from outside.
const outsider = `package main

import (
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/hood/packet"
	"example.com/sagitta/sheet/cut"
)

func main() {
	a, err := arc.FromChordSag(600, 75)
	if err != nil {
		panic(err)
	}
	fmt.Println(a.Radius(), len(packet.Demo()) > 0, bend.Limits{}, len(cut.Tools(6, 3, 18)))
}
`

// The library builds and runs from a module that is not its own.
func TestOutsideModule(t *testing.T) {
	if testing.Short() {
		t.Skip("builds a program")
	}
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	mod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	require.NoError(t, err)
	sum, err := os.ReadFile(filepath.Join(root, "go.sum"))
	require.NoError(t, err)
	text := strings.Replace(string(mod), "module "+module, "module example.org/outside", 1) +
		"\nrequire " + module + " v0.0.0\n\nreplace " + module + " => " + filepath.ToSlash(root) + "\n"
	dir := t.TempDir()
	for name, data := range map[string]string{"go.mod": text, "go.sum": string(sum), "main.go": outsider} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(data), 0o666))
	}
	c := exec.Command("go", "run", "-mod=mod", ".")
	c.Dir = dir
	c.Env = append(os.Environ(), "GOPROXY=off", "GOFLAGS=", "GOWORK=off")
	out, err := c.CombinedOutput()
	require.NoError(t, err, string(out))
	assert.True(t, strings.HasPrefix(string(out), "637.5 true "), string(out))
}
