// Command page serves one page to play with: sliders for the sizes of a hood, the
// hood in three dimensions, its section, its kerfs and its sheets. Every change
// is a build on this side; the page itself knows no geometry.
//
//	page [-port N]
//
// It listens on 127.0.0.1 only, until interrupted.
package main

import (
	"bytes"
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"html/template"
	"net"
	"net/http"
	"os"
	"os/signal"
	"time"
)

//go:embed page.html
var page string

func main() {
	port := flag.Int("port", 8087, "`port` to listen on; 0 takes any that is free")
	flag.Parse()
	l, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", *port))
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Printf("open http://%s/ in a browser; interrupt to end\n", l.Addr())
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	s := http.Server{Handler: handler(), ReadHeaderTimeout: 5 * time.Second}
	context.AfterFunc(ctx, func() { s.Close() })
	if err := s.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// handler answers the page, what its sliders ask for, and the sheets.
func handler() http.Handler {
	var b bytes.Buffer
	if err := template.Must(template.New("page").Parse(page)).Execute(&b, sliders); err != nil {
		panic(err) // the page is embedded
	}
	m := http.NewServeMux()
	m.HandleFunc("GET /{$}", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Write(b.Bytes())
	})
	m.HandleFunc("GET /hood", func(w http.ResponseWriter, r *http.Request) { reply(w, build(r.URL.Query())) })
	m.HandleFunc("GET /sheets", func(w http.ResponseWriter, r *http.Request) { reply(w, sheets(r.Context(), r.URL.Query())) })
	return local(m)
}

// local refuses requests under another name than this machine's own, so that no
// page from elsewhere can ask by having its name point here.
func local(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		host, _, err := net.SplitHostPort(r.Host)
		if err != nil {
			host = r.Host
		}
		if ip := net.ParseIP(host); host != "localhost" && !(ip != nil && ip.IsLoopback()) {
			http.Error(w, "this page is for this machine only", http.StatusForbidden)
			return
		}
		next.ServeHTTP(w, r)
	})
}

func reply(w http.ResponseWriter, v any) {
	w.Header().Set("Content-Type", "application/json")
	json.NewEncoder(w).Encode(v)
}
