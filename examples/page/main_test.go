package main

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func get(t testing.TB, query string, v any) *http.Response {
	w := httptest.NewRecorder()
	r := httptest.NewRequest("GET", query, nil)
	r.Host = "127.0.0.1:8087"
	handler().ServeHTTP(w, r)
	if v != nil {
		require.NoError(t, json.Unmarshal(w.Body.Bytes(), v))
	}
	return w.Result()
}

// value returns the number of a figure.
func (a answer) value(t *testing.T, name string) float64 {
	i := slices.IndexFunc(a.Figures, func(f figure) bool { return f.Name == name })
	require.GreaterOrEqual(t, i, 0, name)
	number, _, _ := strings.Cut(strings.TrimSuffix(a.Figures[i].Value, "°"), " ")
	x, err := strconv.ParseFloat(number, 64)
	require.NoError(t, err)
	return x
}

// What the page shows follows from the formulas it names beside the figures.
func TestFiguresAreTheirFormulas(t *testing.T) {
	for _, sag := range []float64{-70, -20, 30, 46, 90} {
		var a answer
		get(t, fmt.Sprintf("/hood?sag=%v&facet=0.3&web=2", sag), &a)
		require.Empty(t, a.Faults)
		c, s := a.value(t, "chord c"), a.value(t, "sag s")
		assert.InDelta(t, math.Hypot(880-130, 510-290), c, 0.051) // of the sliders' places
		assert.Equal(t, math.Abs(sag), s)
		radius, turn := c*c/8/s+s/2, 4*math.Atan(2*s/c)
		assert.InEpsilon(t, radius, a.value(t, "radius R"), 3e-4)
		assert.InDelta(t, turn*180/math.Pi, a.value(t, "turn Φ"), 0.01)
		assert.InDelta(t, radius*turn, a.value(t, "length on the show face"), 0.15)
		n := a.value(t, "kerfs")
		assert.InDelta(t, turn/n*180/math.Pi, a.value(t, "turn of a kerf a"), 0.006)
		assert.InDelta(t, 100*2*turn/n/(2*3.2), a.value(t, "strain of a web"), 0.006)
		assert.LessOrEqual(t, a.value(t, "facet"), 0.3)
		assert.Contains(t, a.Section, "<svg")
		assert.Contains(t, a.Proof, "checks hold")
		assert.NotEmpty(t, a.Solids)
	}
}

// Wherever the sliders stand there is a hood or a fault, and never both.
func TestAnyPlaceOfTheSliders(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 4))
	refused := 0
	for range 300 {
		q := url.Values{}
		for _, l := range sliders {
			q.Set(l.Key, strconv.FormatFloat(l.Min+math.Round(r.Float64()*(l.Max-l.Min)/l.By)*l.By, 'g', -1, 64))
		}
		a := build(q)
		require.NotEqual(t, len(a.Faults) > 0, len(a.Solids) > 0, "%v", q)
		if len(a.Faults) > 0 {
			refused++
			for _, f := range a.Faults {
				assert.Contains(t, f, "need", "%v", q)
			}
		}
	}
	t.Logf("%d of 300 refused", refused)
	assert.Less(t, refused, 200)
	for _, bad := range []string{"NaN", "Inf", "-1e300", "1e300", "0", "x", ""} {
		for _, l := range sliders {
			a := build(url.Values{l.Key: {bad}})
			assert.NotEqual(t, len(a.Faults) > 0, len(a.Solids) > 0, "%s=%s", l.Key, bad)
		}
	}
}

func TestSheetsHoldAllParts(t *testing.T) {
	var n nest
	get(t, "/sheets?width=900", &n)
	require.Empty(t, n.Faults)
	assert.Contains(t, n.Use, " 0 parts without a place")
	assert.GreaterOrEqual(t, len(n.Sheets), 2, "two materials")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	start := time.Now()
	sheets(ctx, url.Values{})
	assert.Less(t, time.Since(start), 20*time.Second)
}

// Only this machine is answered, by whatever name it calls itself.
func TestLocalOnly(t *testing.T) {
	for host, code := range map[string]int{"127.0.0.1:8087": 200, "localhost": 200, "[::1]:80": 200, "example.org": 403, "10.0.0.7:8087": 403, "": 403} {
		w := httptest.NewRecorder()
		r := httptest.NewRequest("GET", "/", nil)
		r.Host = host
		handler().ServeHTTP(w, r)
		assert.Equal(t, code, w.Code, host)
	}
}

// driver opens the page in a frame, moves a slider as a hand would, waits for the
// answer and writes what it sees.
const driver = `<!DOCTYPE html><html><body><iframe src="/" style="width:1200px;height:1400px"></iframe><pre id="seen"></pre><script>
const frame = document.querySelector("iframe");
const wait = (f) => new Promise(done => { const i = setInterval(() => { if (f()) { clearInterval(i); done(); } }, 50); });
frame.onload = async () => {
  const d = frame.contentDocument, row = (n) => [...d.querySelectorAll("#figures tbody tr")].find(r => r.cells[0].textContent === n)?.cells[1].textContent;
  const dark = () => d.getElementById("view").getContext("2d").getImageData(0, 0, 960, 720).data.filter((x, i) => i % 4 === 0 && x < 250).length;
  await wait(() => row("radius R"));
  const first = row("radius R") + "|" + dark();
  const s = d.querySelector("input[name=sag]");
  s.value = 80; s.dispatchEvent(new Event("input", { bubbles: true }));
  await wait(() => row("sag s") === "80.0 mm");
  const c = d.getElementById("view");
  const before = c.toDataURL();
  c.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowLeft" }));
  document.getElementById("seen").textContent = "seen " + first + "|" + row("radius R") + "|" + dark() + "|" + (c.toDataURL() !== before) + "|" +
    (d.documentElement.scrollWidth <= d.documentElement.clientWidth) + "|";
};
</script></body></html>`

// A browser shows the hood, answers a slider and turns the picture by a key.
func TestInABrowser(t *testing.T) {
	browser := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			browser = path
			break
		}
	}
	if browser == "" || testing.Short() {
		t.Skip("no browser, or a short run")
	}
	m := http.NewServeMux()
	m.Handle("/", handler())
	m.HandleFunc("/drive", func(w http.ResponseWriter, _ *http.Request) { fmt.Fprint(w, driver) })
	s := httptest.NewServer(m)
	defer s.Close()
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	out, err := exec.CommandContext(ctx, browser, "--headless", "--no-sandbox", "--disable-gpu", "--user-data-dir="+t.TempDir(),
		"--window-size=1300,1500", "--virtual-time-budget=20000", "--dump-dom", s.URL+"/drive").Output()
	if err != nil {
		t.Skipf("the browser does not run here: %v", err)
	}
	seen := regexp.MustCompile(`seen ([\d.]+) mm\|(\d+)\|([\d.]+) mm\|(\d+)\|(\w+)\|(\w+)\|`).FindStringSubmatch(string(out))
	require.NotNil(t, seen, string(out))
	number := func(i int) float64 { x, _ := strconv.ParseFloat(seen[i], 64); return x }
	chord := math.Hypot(880-130, 510-290)
	assert.InDelta(t, chord*chord/8/46+23, number(1), 0.06)
	assert.InDelta(t, chord*chord/8/80+40, number(3), 0.06)
	assert.Greater(t, number(2), 50000.0, "wood on the picture")
	assert.Greater(t, number(4), 50000.0)
	assert.Equal(t, "true", seen[5], "a key turns the hood")
	assert.Equal(t, "true", seen[6], "nothing to scroll sideways")
}

// The answer to a slider; asked is 16 ms by the median.
func BenchmarkSlider(b *testing.B) {
	h := handler()
	var took []float64
	for i := 0; b.Loop(); i++ {
		w := httptest.NewRecorder()
		r := httptest.NewRequest("GET", fmt.Sprintf("/hood?sag=%d&taper=200&side=10", 20+i%60), nil)
		r.Host = "localhost"
		start := time.Now()
		h.ServeHTTP(w, r)
		took = append(took, time.Since(start).Seconds()*1e3)
	}
	slices.Sort(took)
	b.ReportMetric(took[len(took)/2], "median-ms")
}
