package main

import (
	"context"
	"net"
	"net/http"
	"strconv"
	"testing"
	"time"
)

func TestListenTakesTheNextPort(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	next, err := listen(taken.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer next.Close()
	was, got := taken.Addr().(*net.TCPAddr).Port, next.Addr().(*net.TCPAddr).Port
	if got <= was || got > was+tries {
		t.Errorf("with port %d taken it listens at %d, want one of the next", was, got)
	}
	if l, err := listen("127.0.0.1:no-such-service"); err == nil {
		l.Close()
		t.Error("listen takes a port that is neither a number nor a known name")
	}
}

func TestAddress(t *testing.T) {
	for _, tt := range []struct {
		ip   net.IP
		want string
	}{
		{net.IPv4(127, 0, 0, 1), "http://127.0.0.1:8080/"},
		{net.IPv4zero, "http://localhost:8080/"},
		{net.IPv6unspecified, "http://localhost:8080/"},
		{net.IPv6loopback, "http://[::1]:8080/"}, // RFC 3986, section 3.2.2: in brackets
	} {
		if got := address(&net.TCPAddr{IP: tt.ip, Port: 8080}); got != tt.want {
			t.Errorf("address of %v = %s, want %s", tt.ip, got, tt.want)
		}
	}
}

// TestServeUntil interrupts the server while it is answering: the answer has
// to arrive whole.
func TestServeUntil(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, interrupt := context.WithCancel(context.Background())
	slow := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		interrupt()
		time.Sleep(50 * time.Millisecond)
		w.Write([]byte("whole"))
	})
	done := make(chan error, 1)
	go func() { done <- serveUntil(ctx, listener, slow) }()
	res, err := http.Get("http://127.0.0.1:" + strconv.Itoa(listener.Addr().(*net.TCPAddr).Port))
	if err != nil {
		t.Fatal(err)
	}
	res.Body.Close()
	if res.StatusCode != http.StatusOK || res.ContentLength != int64(len("whole")) {
		t.Errorf("the answer under way: %s, %d bytes", res.Status, res.ContentLength)
	}
	if err := <-done; err != nil {
		t.Errorf("serveUntil after an interrupt: %v", err)
	}
}
