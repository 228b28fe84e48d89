#!/usr/bin/python3
"""Kernels side by side: time from starting to the first answer, one execute at
a time, a queue of executes, memory.

  bench.py KERNEL[=CODE] ...        e.g.  bench.py ohmwright='x := 1' python3='x = 1'

Each kernel is started from its kernelspec in a process of its own. The client
is jupyter_client's Session on plain sockets; its cost is in all figures, and
the first line says what it is: the same messages made, signed, read and checked
without a kernel. (BlockingKernelClient, which runs an event loop for each
message, adds another 1 ms.) An execute ends when its reply and its idle have
come. Memory is resident: after the start, and at the end.

Needs the Debian packages python3-jupyter-client and, to compare with it,
python3-ipykernel. Start it on a machine that is otherwise idle.
"""
import argparse
import subprocess
import time

import zmq
from jupyter_client import KernelManager
from jupyter_client.session import Session

ap = argparse.ArgumentParser()
ap.add_argument("kernels", nargs="+")
ap.add_argument("--rounds", type=int, default=1000)
ap.add_argument("--starts", type=int, default=5)
opt = ap.parse_args()


class Running:
    def __init__(self, name):
        self.m = KernelManager(kernel_name=name)
        began = time.perf_counter()
        self.m.start_kernel(stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        self.session = Session(key=self.m.session.key)
        self.sockets = {}
        context = zmq.Context.instance()
        for channel, kind in (("shell", zmq.DEALER), ("iopub", zmq.SUB)):
            s = self.sockets[channel] = context.socket(kind)
            s.linger = 0
            s.reconnect_ivl = 1  # the kernel does not listen yet
            if kind == zmq.SUB:
                s.rcvhwm = 0
                s.subscribe(b"")
            s.connect(f"tcp://{self.m.ip}:{getattr(self.m, channel + '_port')}")
        self.reply(self.send("kernel_info_request", {}))
        self.first = time.perf_counter() - began
        while True:  # until iopub is connected too: what was published before is lost
            mid = self.send("kernel_info_request", {})
            self.reply(mid)
            if self.idle(mid, 200):
                break

    def send(self, kind, content):
        return self.session.send(self.sockets["shell"], kind, content)["header"]["msg_id"]

    def execute(self, code):
        return self.send("execute_request", {"code": code, "silent": False, "store_history": True,
                                             "user_expressions": {}, "allow_stdin": False, "stop_on_error": True})

    def next(self, channel, patience=60_000):
        if not self.sockets[channel].poll(patience):
            raise TimeoutError(f"nothing came on {channel} for {patience} ms")
        _, frames = self.session.feed_identities(self.sockets[channel].recv_multipart())
        return self.session.deserialize(frames)

    def reply(self, mid):
        while True:
            r = self.next("shell")
            if r["parent_header"]["msg_id"] == mid:
                if r["content"]["status"] != "ok":
                    raise SystemExit(f"the code failed: {r['content']}")
                return

    def idle(self, mid, patience=60_000):
        """Whether the request's idle comes before nothing does for so long."""
        while True:
            try:
                m = self.next("iopub", patience)
            except TimeoutError:
                return False
            if m["parent_header"].get("msg_id") == mid and m["content"].get("execution_state") == "idle":
                return True

    def rss(self):
        for line in open(f"/proc/{self.m.provisioner.process.pid}/status"):
            if line.startswith("VmRSS"):
                return int(line.split()[1]) / 1024

    def stop(self):
        for s in self.sockets.values():
            s.close()
        self.m.shutdown_kernel(now=True)


def client_alone(rounds):
    """Milliseconds that making and reading the messages of one execute takes."""
    client, kernel = Session(key=b"key"), Session(key=b"key")
    request = client.msg("execute_request", {"code": "x"})
    took = []
    for _ in range(rounds):
        answers = [kernel.serialize(kernel.msg(kind, {"status": "ok"}, parent=request))
                   for kind in ("status", "execute_input", "display_data", "execute_reply", "status")]
        t = time.perf_counter()
        client.serialize(client.msg("execute_request", {"code": "x"}))
        for frames in answers:
            client.deserialize(client.feed_identities(frames)[1])
        took.append(time.perf_counter() - t)
    return sorted(took)[rounds // 2] * 1e3


print(f"the client's own part of an execute: {client_alone(opt.rounds):.2f} ms without sockets")
print(f"{'kernel':16} {'start ms':>9} {'p50 ms':>7} {'p99 ms':>7} {'queued/s':>9} {'RSS MB':>7}", flush=True)
for spec in opt.kernels:
    name, _, code = spec.partition("=")
    code = code or "1"
    starts = []
    for i in range(opt.starts):
        k = Running(name)
        starts.append(k.first)
        if i < opt.starts - 1:
            k.stop()
    before = k.rss()
    took = []
    for _ in range(opt.rounds):
        t = time.perf_counter()
        mid = k.execute(code)
        k.reply(mid)
        k.idle(mid)
        took.append(time.perf_counter() - t)
    took.sort()
    t = time.perf_counter()
    ids = [k.execute(code) for _ in range(opt.rounds)]
    for mid in ids:
        k.reply(mid)
    k.idle(ids[-1])
    rate = opt.rounds / (time.perf_counter() - t)
    print(f"{name:16} {sorted(starts)[len(starts) // 2] * 1e3:9.0f} {took[len(took) // 2] * 1e3:7.2f} "
          f"{took[int(len(took) * 0.99)] * 1e3:7.2f} {rate:9.0f} {before:3.0f}-{k.rss():3.0f}", flush=True)
    k.stop()
