"""Holds every message that a Python client receives against schema/messages.json.

Import it before the client. At the end of the process it prints one line on
standard error, "schema: K of N messages, M wrong" and the wrong ones, and a
process with a wrong message ends with exit status 3. Of a flood of one type only
the first thousand and then every fiftieth are checked, for this validator is
slower than the kernel. Needs the Debian package python3-jsonschema.
"""
import atexit
import json
import os
import sys

import jsonschema
from jupyter_client.session import Session

with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "schema", "messages.json")) as f:
    _definitions = json.load(f)["definitions"]
_checks = {}
seen, wrong, checked = {}, [], 0


def check(message):
    """Says what is wrong with a message, None if nothing is."""
    kind = message["header"].get("msg_type")
    if kind not in _definitions:
        return f"{kind}: a message type that the kernel must not send"
    if kind not in _checks:
        _checks[kind] = jsonschema.Draft7Validator(
            {"definitions": _definitions, "allOf": [{"$ref": "#/definitions/" + kind}]})
    for e in _checks[kind].iter_errors(message):
        return f"{kind}: {'/'.join(map(str, e.absolute_path))}: {e.message[:300]}"
    return None


_deserialize = Session.deserialize


def deserialize(self, frames, content=True, copy=True):
    message = _deserialize(self, frames, content, copy)
    if message["header"].get("session") == self.session:
        return message  # of a client with its own session, a kernel for instance
    global checked
    kind = message["header"]["msg_type"]
    seen[kind] = seen.get(kind, 0) + 1
    if seen[kind] > 1000 and seen[kind] % 50:
        return message
    checked += 1
    # The dates as they came: the session has made datetimes of them.
    raw = [bytes(f if copy else f.bytes) for f in frames[1:5]]
    whole = dict(zip(("header", "parent_header", "metadata", "content"), map(json.loads, raw)))
    fault = check(whole)
    if fault:
        wrong.append(fault)
    return message


Session.deserialize = deserialize


@atexit.register
def _tell():
    print(f"schema: {checked} of {sum(seen.values())} messages, {len(wrong)} wrong", *wrong[:20], sep="\n  ", file=sys.stderr, flush=True)
    if wrong:
        sys.stdout.flush()
        os._exit(3)
