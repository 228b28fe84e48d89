package zmtp

import (
	"context"
	"fmt"
	"net"
	"os"
	"strings"
)

// parse splits an endpoint such as tcp://127.0.0.1:5555, tcp://*:5555 or
// ipc:///run/user/1000/k-1 into what package net takes.
func parse(endpoint string) (network, address string, err error) {
	transport, rest, ok := strings.Cut(endpoint, "://")
	if !ok || rest == "" {
		return "", "", fmt.Errorf("endpoint %q has no transport: write tcp://HOST:PORT or ipc://PATH", endpoint)
	}
	switch transport {
	case "tcp":
		host, port, err := net.SplitHostPort(rest)
		if err != nil {
			return "", "", fmt.Errorf("endpoint %q: %w", endpoint, err)
		}
		if host == "*" {
			host = ""
		}
		return "tcp", net.JoinHostPort(host, port), nil
	case "ipc":
		return "unix", rest, nil
	}
	return "", "", fmt.Errorf("endpoint %q: transport %q is not served, only tcp and ipc", endpoint, transport)
}

// longestPath of a Unix socket on every system: sun_path has 104 bytes on the
// BSDs and macOS, 108 on Linux and Windows, with a zero byte at its end.
const longestPath = 103

func listen(endpoint string) (net.Listener, error) {
	network, address, err := parse(endpoint)
	if err != nil {
		return nil, err
	}
	if network == "unix" {
		dropStale(address)
	}
	ln, err := net.Listen(network, address)
	if err != nil && network == "unix" && len(address) > longestPath {
		return nil, fmt.Errorf("endpoint %q: the path of a Unix socket has at most %d bytes, this has %d: use a shorter folder", endpoint, longestPath, len(address))
	}
	if err != nil {
		return nil, err
	}
	if network == "unix" {
		if err := os.Chmod(address, 0o600); err != nil {
			ln.Close()
			return nil, err
		}
	}
	return ln, nil
}

// dropStale removes the socket file of a process that was killed. One that
// somebody still listens to stays, and net.Listen reports it as in use.
func dropStale(path string) {
	info, err := os.Lstat(path)
	if err != nil || info.Mode()&os.ModeSocket == 0 {
		return
	}
	if c, err := net.Dial("unix", path); err == nil {
		c.Close()
		return
	}
	os.Remove(path)
}

func endpointOf(a net.Addr) string {
	if a.Network() == "unix" {
		return "ipc://" + a.String()
	}
	return "tcp://" + a.String()
}

func dial(ctx context.Context, endpoint string) (net.Conn, error) {
	network, address, err := parse(endpoint)
	if err != nil {
		return nil, err
	}
	return new(net.Dialer).DialContext(ctx, network, address)
}
