package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood/packet"
)

// try runs the command on a spec, in a folder of its own, and returns what it
// did; wrote tells whether the folder came to be.
func try(t *testing.T, spec string, more ...string) (code int, stdout, stderr string, wrote bool) {
	dir := t.TempDir()
	file, out := filepath.Join(dir, "spec.json"), filepath.Join(dir, "out")
	require.NoError(t, os.WriteFile(file, []byte(spec), 0o666))
	var o, e bytes.Buffer
	code = run(append([]string{"-spec", file, "-out", out}, more...), &o, &e)
	_, err := os.Stat(out)
	entries, _ := os.ReadDir(dir)
	if err != nil {
		assert.Len(t, entries, 1, "nothing beside the spec")
	}
	return code, o.String(), e.String(), err == nil
}

func TestDemo(t *testing.T) {
	out := filepath.Join(t.TempDir(), "demo")
	var o, e bytes.Buffer
	require.Equal(t, 0, run([]string{"-out", out}, &o, &e), e.String())
	assert.Empty(t, e.String())
	assert.Contains(t, o.String(), "report.html")
	assert.FileExists(t, filepath.Join(out, "packet.json"))

	// A second packet goes over the first only when forced.
	e.Reset()
	assert.Equal(t, 1, run([]string{"-out", out}, &o, &e))
	assert.Contains(t, e.String(), "-force")
	assert.Equal(t, 0, run([]string{"-out", out, "-force", "-units", "in"}, &o, &e))
}

func TestBadSpecs(t *testing.T) {
	demo := string(packet.Demo())
	change := func(old, new string) string {
		require.Contains(t, demo, old)
		return strings.Replace(demo, old, new, 1)
	}
	for _, c := range []struct {
		name, spec string
		code       int
		field      string
	}{
		{"negative", change(`"width": 1130,`, `"width": -3,`), 2, "width"},
		{"zero", change(`"height": 905`, `"height": 0`), 2, "height"},
		{"infinite", change(`"depth": 520`, `"depth": 1e999`), 2, "depth"},
		{"not a number", change(`"depth": 520`, `"depth": NaN`), 2, "spec"},
		{"huge", change(`"width": 1130,`, `"width": 1e300,`), 2, "width"},
		{"tiny", change(`"width": 1130,`, `"width": 1e-300,`), 2, "width"},
		{"neck deeper", change(`"neck": {"depth": 290`, `"neck": {"depth": 900`), 2, "neck.depth"},
		{"sag", change(`"sag": 48`, `"sag": 480`), 2, "sweep.sag"},
		{"web", change(`"web": 1.6`, `"web": 19`), 2, "bend.web"},
		{"opening", change(`"y": 640`, `"y": 890`), 2, "back.openings[0]"},
		{"unknown key", change(`"title"`, `"tittle"`), 2, "tittle"},
		{"unit", change(`"width": 1130,`, `"width": "1130 ells",`), 2, "width"},
		{"empty", "", 2, "spec"},
		{"large", "{" + strings.Repeat(" ", 2<<20), 2, "spec"},
		{"sheet", change(`{"length": 2465, "width": 1245`, `{"length": 1000, "width": 700`), 1, "board.sheets"},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, stdout, stderr, wrote := try(t, c.spec)
			assert.Equal(t, c.code, code, stderr)
			assert.False(t, wrote)
			assert.Empty(t, stdout)
			require.NotEmpty(t, stderr)
			assert.Contains(t, stderr, c.field)
			for _, line := range strings.Split(strings.TrimSpace(stderr), "\n") {
				assert.Contains(t, line, "need", line)
			}
		})
	}
}

func TestAllFaultsOneLineEach(t *testing.T) {
	spec := strings.NewReplacer(`"width": 1130,`, `"width": -3,`, `"web": 1.6`, `"web": 40`, `"sag": 48`, `"sag": -1`).Replace(string(packet.Demo()))
	code, _, stderr, _ := try(t, spec)
	assert.Equal(t, 2, code)
	for _, field := range []string{"width = -3", "bend.web = 40", "sweep.sag = -1"} {
		n := 0
		for _, line := range strings.Split(stderr, "\n") {
			if strings.Contains(line, field) {
				n++
			}
		}
		assert.Equal(t, 1, n, field)
	}
}

// What a curve lacks is told beside the fault of another field.
func TestFaultsOfFieldsAndOfFit(t *testing.T) {
	spec := strings.NewReplacer(`"web": 1.6`, `"web": 40`, `"sag": 48`, `"sag": 480`).Replace(string(packet.Demo()))
	code, _, stderr, _ := try(t, spec)
	assert.Equal(t, 2, code)
	assert.Contains(t, stderr, "bend.web = 40")
	assert.Contains(t, stderr, "sweep.sag = 480")
	assert.Equal(t, 2, strings.Count(stderr, "\n"), stderr)
}

func TestBadUse(t *testing.T) {
	for _, args := range [][]string{
		{"-units", "cm"}, {"-budget", "soon"}, {"-budget", "-1s"}, {"-nonsense"}, {"extra"},
		{"-spec", "no-such-file.json"}, {"-seed", "-1"}, {"-spec", "."},
	} {
		var o, e bytes.Buffer
		assert.Equal(t, 2, run(append([]string{"-out", filepath.Join(t.TempDir(), "x")}, args...), &o, &e), args)
		assert.NotEmpty(t, e.String(), args)
	}
}

func TestFolderThatCannotBe(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o666))
	for _, out := range []string{file, filepath.Join(file, "below")} {
		var o, e bytes.Buffer
		assert.Equal(t, 1, run([]string{"-out", out}, &o, &e))
		assert.Contains(t, e.String(), "out = ")
		assert.Equal(t, 1, strings.Count(e.String(), "\n"), "one line")
	}
}

// A shop file is read as strictly as a spec, and names the programs.
func TestShop(t *testing.T) {
	file := filepath.Join(t.TempDir(), "shop.json")
	write := func(s string) { require.NoError(t, os.WriteFile(file, []byte(s), 0o666)) }
	write(`{"version": 1, "dialect": {"extension": "tap", "length": "by controller"}}`)
	out := filepath.Join(t.TempDir(), "demo")
	var o, e bytes.Buffer
	require.Equal(t, 0, run([]string{"-shop", file, "-out", out}, &o, &e), e.String())
	text, err := os.ReadFile(filepath.Join(out, "sheets", "sheet-1.tap"))
	require.NoError(t, err)
	assert.NotContains(t, string(text), "G43")

	for _, bad := range []string{`{"version": 1, "dialekt": {}}`, `{"version": 1, "cut": {"safe": -1}}`, ""} {
		write(bad)
		e.Reset()
		assert.Equal(t, 2, run([]string{"-shop", file, "-out", out + "2"}, &o, &e), bad)
		assert.NotEmpty(t, e.String())
		assert.NoFileExists(t, out+"2")
	}
	assert.Equal(t, 2, run([]string{"-shop", file + "no", "-out", out + "2"}, &o, &e))
}

// Rates give a quote beside the packet; without them there is none.
func TestRates(t *testing.T) {
	file := filepath.Join(t.TempDir(), "rates.json")
	require.NoError(t, os.WriteFile(file, []byte(`{"version": 1, "currency": "USD", "machine": 90}`), 0o666))
	out := filepath.Join(t.TempDir(), "demo")
	var o, e bytes.Buffer
	require.Equal(t, 0, run([]string{"-rates", file, "-out", out}, &o, &e), e.String())
	text, err := os.ReadFile(filepath.Join(out, "quote.csv"))
	require.NoError(t, err)
	assert.Contains(t, string(text), "machine,router,")
	require.NoError(t, os.WriteFile(file, []byte(`{"version": 1, "labour": 90}`), 0o666))
	assert.Equal(t, 2, run([]string{"-rates", file, "-out", out + "2"}, &o, &e))
	assert.Contains(t, e.String(), "labour = ")
}
