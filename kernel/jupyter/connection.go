package jupyter

import (
	"encoding/json"
	"fmt"
	"net"
	"os"
	"strconv"
)

// A connection is what a connection file says.
type connection struct {
	Transport string `json:"transport"`
	IP        string `json:"ip"`
	Shell     int    `json:"shell_port"`
	IOPub     int    `json:"iopub_port"`
	Stdin     int    `json:"stdin_port"`
	Control   int    `json:"control_port"`
	Heartbeat int    `json:"hb_port"`
	Key       string `json:"key"`
	Scheme    string `json:"signature_scheme"`
	Name      string `json:"kernel_name,omitempty"`

	// Fields of other kinds of file, to say what is wrong with them.
	RegistrationPort int    `json:"registration_port,omitempty"`
	CurveKey         string `json:"curve_publickey,omitempty"`
}

// readConnection reads and checks a connection file.
func readConnection(path string) (*connection, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("connection file: %w", err)
	}
	c := &connection{Transport: "tcp", IP: "127.0.0.1"}
	if err := json.Unmarshal(data, c); err != nil {
		return nil, fmt.Errorf("connection file %s is not what Jupyter writes: %w", path, err)
	}
	if err := c.check(); err != nil {
		return nil, fmt.Errorf("connection file %s %w", path, err)
	}
	return c, nil
}

func (c *connection) check() error {
	switch {
	case c.RegistrationPort != 0:
		return fmt.Errorf("is a registration file: this kernel does not choose its own ports; " +
			"start it with a connection file that names them (leave kernel_protocol_version out of its kernel.json)")
	case c.CurveKey != "":
		return fmt.Errorf("asks for encryption (curve_publickey), which this kernel does not have: " +
			"leave metadata.supported_encryption out of its kernel.json")
	case c.Transport != "tcp" && c.Transport != "ipc":
		return fmt.Errorf("asks for transport %q: only tcp and ipc are served", c.Transport)
	case c.Scheme != "" && c.Scheme != "hmac-sha256" && c.Key != "":
		return fmt.Errorf("asks for signature scheme %q: only hmac-sha256 is known", c.Scheme)
	case c.IP == "":
		return fmt.Errorf("has an empty ip")
	}
	for _, p := range c.ports() {
		if p.port < 1 || c.Transport == "tcp" && p.port > 65535 {
			return fmt.Errorf("names no usable %s: %d", p.name, p.port)
		}
	}
	return nil
}

type port struct {
	name string
	port int
}

func (c *connection) ports() []port {
	return []port{{"shell_port", c.Shell}, {"iopub_port", c.IOPub}, {"stdin_port", c.Stdin},
		{"control_port", c.Control}, {"hb_port", c.Heartbeat}}
}

// endpoint of a port, as jupyter_client forms it: for ipc the ip is the
// beginning of a path.
func (c *connection) endpoint(port int) string {
	if c.Transport == "ipc" {
		return "ipc://" + c.IP + "-" + strconv.Itoa(port)
	}
	return "tcp://" + net.JoinHostPort(c.IP, strconv.Itoa(port))
}
