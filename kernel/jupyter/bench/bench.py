#!/usr/bin/python3
"""Kernels side by side: time from starting to the first answer, one execute at
a time, a queue of executes, memory.

  bench.py KERNEL[=CODE] ...        e.g.  bench.py ohmwright='x := 1' python3='x = 1'

Each kernel is started from its kernelspec in a process of its own and driven by
jupyter_client, whose own cost (some 0.6 ms for each execute) is in all figures.
Needs the Debian packages python3-jupyter-client and, to compare with it,
python3-ipykernel. Start it on a machine that is otherwise idle.
"""
import argparse
import os
import time

from jupyter_client import KernelManager

ap = argparse.ArgumentParser()
ap.add_argument("kernels", nargs="+")
ap.add_argument("--rounds", type=int, default=1000)
ap.add_argument("--starts", type=int, default=5)
opt = ap.parse_args()


def start(name):
    m = KernelManager(kernel_name=name)
    t = time.perf_counter()
    m.start_kernel(stdout=open(os.devnull, "w"), stderr=open(os.devnull, "w"))
    c = m.blocking_client()
    c.start_channels()
    mid = c.kernel_info()
    while c.get_shell_msg(timeout=60)["parent_header"].get("msg_id") != mid:
        pass
    first = time.perf_counter() - t
    c.wait_for_ready(timeout=60)
    return m, c, first


def stop(m, c):
    c.stop_channels()
    m.shutdown_kernel(now=True)


def reply(c, mid):
    while True:
        r = c.get_shell_msg(timeout=60)
        if r["parent_header"].get("msg_id") == mid:
            if r["content"]["status"] != "ok":
                raise SystemExit(f"the code failed: {r['content']}")
            return


def idle(c, mid):
    while True:
        r = c.get_iopub_msg(timeout=60)
        if r["parent_header"].get("msg_id") == mid and r["content"].get("execution_state") == "idle":
            return


def rss(m):
    for line in open(f"/proc/{m.provisioner.process.pid}/status"):
        if line.startswith("VmRSS"):
            return int(line.split()[1]) / 1024


print(f"{'kernel':16} {'start ms':>9} {'p50 ms':>7} {'p99 ms':>7} {'queued/s':>9} {'RSS MB':>7}")
for spec in opt.kernels:
    name, _, code = spec.partition("=")
    code = code or "1"
    starts = []
    for _ in range(opt.starts - 1):
        m, c, first = start(name)
        starts.append(first)
        stop(m, c)
    m, c, first = start(name)
    starts.append(first)
    before = rss(m)
    took = []
    for _ in range(opt.rounds):
        t = time.perf_counter()
        mid = c.execute(code)
        reply(c, mid)
        idle(c, mid)
        took.append(time.perf_counter() - t)
    took.sort()
    t = time.perf_counter()
    ids = [c.execute(code) for _ in range(opt.rounds)]
    for mid in ids:
        reply(c, mid)
    rate = opt.rounds / (time.perf_counter() - t)
    idle(c, ids[-1])
    print(f"{name:16} {sorted(starts)[len(starts) // 2] * 1e3:9.0f} {took[len(took) // 2] * 1e3:7.2f} "
          f"{took[int(len(took) * 0.99)] * 1e3:7.2f} {rate:9.0f} {before:3.0f}-{rss(m):3.0f}", flush=True)
    stop(m, c)
