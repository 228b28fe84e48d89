#!/usr/bin/python3
"""A note on a remote host of kernels: Jupyter Server starts the kernel "engine",
a client speaks to it over the server's web interface only (what gateways and
multi-user hosts pass on), and the server shuts it down. Needs the Debian package
python3-jupyter-server. Exit status 1 if something fails.
"""
import asyncio
import json
import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
import uuid

from tornado.websocket import websocket_connect

TOKEN = uuid.uuid4().hex
with socket.socket() as s:
    s.bind(("127.0.0.1", 0))
    port = s.getsockname()[1]
home = tempfile.mkdtemp(prefix="server-")
env = dict(os.environ, HOME=home, JUPYTER_CONFIG_DIR=home, JUPYTER_RUNTIME_DIR=os.path.join(home, "run"))
server = subprocess.Popen([sys.executable, "-m", "jupyter_server", "--allow-root", "--no-browser", "--ip=127.0.0.1",
                           f"--port={port}", "--ServerApp.port_retries=0", f"--ServerApp.token={TOKEN}", f"--ServerApp.root_dir={home}"],
                          env=env, stdout=subprocess.DEVNULL, stderr=open(os.path.join(home, "log"), "w"))


def ask(method, path, body=None):
    r = urllib.request.Request(f"http://127.0.0.1:{port}/api/{path}", method=method,
                               data=None if body is None else json.dumps(body).encode(),
                               headers={"Authorization": "token " + TOKEN, "Content-Type": "application/json"})
    with urllib.request.urlopen(r, timeout=20) as answer:
        text = answer.read()
        return json.loads(text) if text else None


async def talk(kernel):
    ws = await websocket_connect(f"ws://127.0.0.1:{port}/api/kernels/{kernel}/channels?token={TOKEN}")

    async def execute(code):
        mid = uuid.uuid4().hex
        await ws.write_message(json.dumps({
            "channel": "shell", "parent_header": {}, "metadata": {}, "buffers": [],
            "header": {"msg_id": mid, "msg_type": "execute_request", "session": "web", "username": "", "version": "5.3",
                       "date": "2026-01-02T03:04:05Z"},
            "content": {"code": code, "silent": False, "store_history": True, "user_expressions": {}, "allow_stdin": False,
                        "stop_on_error": True}}))
        text, reply, idle = "", None, False
        while reply is None or not idle:
            m = json.loads(await asyncio.wait_for(ws.read_message(), 20))
            if m["parent_header"].get("msg_id") != mid:
                continue
            content = m["content"]
            text += content.get("data", {}).get("text/plain", "") + content.get("evalue", "")
            if m["msg_type"] == "execute_reply":
                reply = content["status"]
            idle = idle or content.get("execution_state") == "idle"
        return reply, text

    assert (await execute("x := 5V"))[0] == "ok"
    reply, text = await execute("x/2Ω")
    assert reply == "ok" and "2.5 A" in text, (reply, text)
    running = asyncio.ensure_future(execute("for {}"))
    await asyncio.sleep(0.3)
    await asyncio.get_running_loop().run_in_executor(None, ask, "POST", f"kernels/{kernel}/interrupt")
    assert (await running)[0] == "error"
    reply, text = await execute("y := 3*x")
    assert reply == "ok" and "15 V" in text, (reply, text)
    ws.close()


try:
    end = time.time() + 30
    while True:
        try:
            ask("GET", "status")
            break
        except OSError:
            if time.time() > end or server.poll() is not None:
                raise
            time.sleep(0.1)
    spec = ask("GET", "kernelspecs")["kernelspecs"]["engine"]
    assert set(spec["resources"]) >= {"logo-32x32", "logo-64x64"}, spec
    kernel = ask("POST", "kernels", {"name": "engine"})["id"]
    asyncio.run(talk(kernel))
    ask("POST", f"kernels/{kernel}/restart")
    asyncio.run(talk(kernel))
    ask("DELETE", f"kernels/{kernel}")
    assert ask("GET", "kernels") == []
    print("server: all passed")
except BaseException:
    server.terminate()
    server.wait()
    print(open(os.path.join(home, "log")).read()[-3000:])
    raise
finally:
    server.terminate()
    server.wait()
    shutil.rmtree(home, ignore_errors=True)
