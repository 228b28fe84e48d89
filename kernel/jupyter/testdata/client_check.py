#!/usr/bin/python3
"""Drives installed kernels with jupyter_client, as a front end does.

  client_check.py NAME ...     the checks are the functions named t_NAME

Two kernelspecs must be found in JUPYTER_PATH: "engine" computes notes, "lines"
has the commands of testkernel_test.go. Every message is held against the
schemas (schema_tap). Prints one line a check; exit status 1 if one failed.
"""
import os
import signal
import subprocess
import sys
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import schema_tap  # noqa: F401  (before the client)
from jupyter_client import KernelManager


class Kernel:
    def __init__(self, name, **traits):
        self.m = KernelManager(kernel_name=name, **traits)
        self.m.start_kernel(stdout=subprocess.DEVNULL)
        self.c = self.client()

    def client(self):
        c = self.m.blocking_client()
        c.start_channels()
        c.wait_for_ready(timeout=30)
        return c

    def rss(self):
        for line in open(f"/proc/{self.m.provisioner.process.pid}/status"):
            if line.startswith("VmRSS"):
                return int(line.split()[1]) / 1024

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.c.stop_channels()
        self.m.shutdown_kernel()


def reply(c, mid, timeout=30):
    while True:
        r = c.get_shell_msg(timeout=timeout)
        if r["parent_header"].get("msg_id") == mid:
            return r["content"]


def shown(c, mid, timeout=30):
    """The messages that a request causes, to its idle."""
    got = []
    while True:
        m = c.get_iopub_msg(timeout=timeout)
        if m["parent_header"].get("msg_id") != mid:
            continue
        got.append(m)
        if m["content"].get("execution_state") == "idle":
            return got


def run(c, code, **options):
    mid = c.execute(code, **options)
    return reply(c, mid), shown(c, mid)


def plain(messages):
    """What stands on the screen: results, printed text, errors."""
    text = ""
    for m in messages:
        k = m["content"]
        text += k.get("data", {}).get("text/plain", "") + k.get("text", "") + k.get("evalue", "")
    return text


def t_interrupt():
    with Kernel("engine") as k:
        c = k.c
        run(c, "kept := 5V")
        worst = 0
        for _ in range(3):
            mid = c.execute("for {}")
            behind = c.execute("never := 1V")
            time.sleep(0.3)
            t = time.perf_counter()
            k.m.interrupt_kernel()
            r = reply(c, mid)
            worst = max(worst, time.perf_counter() - t)
            assert r["status"] == "error", r
            assert reply(c, behind)["status"] == "aborted"
            assert worst < 0.5, f"the interrupt took {worst:.2f} s"
            shown(c, behind)
            r, out = run(c, "twice := 2*kept")
            assert r["status"] == "ok" and "10 V" in plain(out), plain(out)
    return f"answered within {worst * 1e3:.0f} ms, the next cell works, names are kept"


def t_two():
    with Kernel("engine") as k:
        a, b = k.c, k.client()
        try:
            asked = [(c, c.execute(f"{n}{i} := {i}V")) for i in range(50) for n, c in (("a", a), ("b", b))]
            for c, mid in asked:
                m = c.get_shell_msg(timeout=10)  # nothing of the other's between
                assert m["parent_header"]["msg_id"] == mid, m["parent_header"]
                assert m["parent_header"]["session"] == c.session.session
            out = shown(b, asked[-1][1])
            assert "49 V" in plain(out), plain(out)
        finally:
            b.stop_channels()
    return "100 requests, each reply at its own client"


def t_memory():
    def batch(c, n):
        for at in range(0, n, 250):
            ids = [c.execute(f"x := {at + i}V\ny := 2*x") for i in range(250)]
            for mid in ids:
                r = reply(c, mid)
                assert r["status"] == "ok", r
            shown(c, ids[-1])
    with Kernel("engine") as k:
        batch(k.c, 2000)
        first = k.rss()
        batch(k.c, 10000)
        last = k.rss()
    assert last < first + 10, f"from {first:.0f} to {last:.0f} MB"
    return f"resident {first:.0f} MB after 2,000 executes, {last:.0f} MB after 12,000"


def t_big():
    with Kernel("lines") as k:
        _, out = run(k.c, "show A " + "x" * 10_000_000)
        data = [m["content"]["data"]["text/plain"] for m in out if m["msg_type"] == "display_data"]
        assert data == ["x" * 10_000_000], [len(d) for d in data]
        _, out = run(k.c, "big 10000000")
        text = "".join(m["content"]["text"] for m in out if m["msg_type"] == "stream")
        assert text == "x" * 10_000_000, len(text)
    return "10 MB request, display and printed text, whole"


def t_flood():
    with Kernel("engine") as k:
        r, out = run(k.c, 'for i := range 100_000 { fmt.Println("line", i) }')
        assert r["status"] == "ok", r
        assert out[-1]["content"]["execution_state"] == "idle"
        text = "".join(m["content"]["text"] for m in out if m["msg_type"] == "stream")
        whole = "".join(f"line {i}\n" for i in range(100_000))
        cut = text.index("… cut")
        assert whole.startswith(text[:cut].rstrip("\n")) and cut > 1_000_000 and "to see all" in text[cut:], text[cut - 50:]
        few = len(out)
        assert few < 100, f"{few} messages"
        # while it runs: the first lines are there before the end
        mid = k.c.execute('fmt.Println("now"); for {}')
        while True:
            m = k.c.get_iopub_msg(timeout=5)
            if m["msg_type"] == "stream" and m["parent_header"]["msg_id"] == mid:
                break
        k.m.interrupt_kernel()
        assert reply(k.c, mid)["status"] == "error"
    return f"100,000 prints in {few} messages, in order, idle last, the cut said"


def t_abort():
    with Kernel("engine") as k:
        c = k.c
        mid = c.execute("P := 5V + 2A")
        queued = [c.execute(f"q{i} := 1V") for i in range(5)]
        assert reply(c, mid)["status"] == "error"
        for q in queued:
            assert reply(c, q)["status"] == "aborted"
        assert "execute_input" not in [m["msg_type"] for m in shown(c, queued[-1])]
        r, _ = run(c, "after := 1V")
        assert r["status"] == "ok", r
        mid = c.execute("P := 5V + 2A", stop_on_error=False)
        after = c.execute("next := 1V")
        assert reply(c, mid)["status"] == "error" and reply(c, after)["status"] == "ok"
    return "5 queued cells aborted after a failure, none with stop_on_error false"


def t_stdin():
    with Kernel("engine") as k:
        for allowed in (True, False):
            r, out = run(k.c, "var s string\nfmt.Scanln(&s)", allow_stdin=allowed)
            assert r["status"] == "error" and "waits for somebody to type" in r["evalue"], r
        k.c.input("not asked for")
        r, _ = run(k.c, "x := 1V")
        assert r["status"] == "ok"
        try:
            m = k.c.get_stdin_msg(timeout=0.3)
            raise AssertionError(m)
        except Exception as e:
            assert type(e).__name__ == "Empty", e
    return "a cell that asks is refused, no input_request is sent"


def t_ipc():
    import tempfile
    with tempfile.TemporaryDirectory() as d:
        with Kernel("engine", transport="ipc", connection_file=os.path.join(d, "kernel-1.json")) as k:
            assert k.m.ip == os.path.join(d, "kernel-1-ipc"), k.m.ip  # as jupyter_client forms it
            for p in ("shell", "iopub", "stdin", "control", "hb"):
                path = f"{k.m.ip}-{getattr(k.m, p + '_port')}"
                assert os.stat(path).st_mode & 0o777 == 0o600, oct(os.stat(path).st_mode)
            r, out = run(k.c, "x := 5V/2Ω")
            assert r["status"] == "ok" and "2.5 A" in plain(out), plain(out)
            assert k.c.hb_channel.is_beating()
            k.m.interrupt_kernel()
            r, out = run(k.c, "y := 2*x")
            assert "5 A" in plain(out), plain(out)
            k.m.restart_kernel()
            k.c.wait_for_ready(timeout=30)
            r, _ = run(k.c, "y := 2*x")
            assert r["status"] == "error", r  # names went with the restart
        left = [f for f in os.listdir(d) if "ipc" in f]
        assert not left, left
    return "Unix sockets: execute, heartbeat, interrupt, restart; nothing left behind"


def t_orphan():
    parent = subprocess.Popen([sys.executable, "-c", """
import sys, time
from jupyter_client import KernelManager
m = KernelManager(kernel_name="engine")
m.start_kernel()
c = m.blocking_client(); c.start_channels(); c.wait_for_ready(timeout=30)
print(m.provisioner.process.pid, flush=True)
c.execute("for {}")
time.sleep(600)
"""], stdout=subprocess.PIPE, text=True)
    pid = int(parent.stdout.readline())
    time.sleep(0.2)
    parent.send_signal(signal.SIGKILL)
    parent.wait()
    t = time.time()
    while os.path.exists(f"/proc/{pid}") and open(f"/proc/{pid}/stat").read().rsplit(")", 1)[1].split()[0] != "Z":
        if time.time() > t + 10:
            os.kill(pid, signal.SIGKILL)
            raise AssertionError("the kernel lives 10 s after its parent was killed")
        time.sleep(0.05)
    return f"the kernel ended {time.time() - t:.1f} s after its parent was killed, in the middle of a cell"


bad = 0
for name in sys.argv[1:]:
    try:
        print(f"ok   {name}: {globals()['t_' + name]()}", flush=True)
    except Exception as e:
        bad += 1
        print(f"FAIL {name}: {type(e).__name__}: {e}", flush=True)
print(f"{len(sys.argv) - 1 - bad} passed, {bad} failed", flush=True)
sys.exit(bool(bad))
