#!/usr/bin/python3
"""Completes a session in jupyter console with the kernel "engine", through a
pseudo terminal as a person does. Every message is held against the schemas.

Needs the Debian packages python3-jupyter-console and python3-pexpect. Exit
status 1 if something that should be on the screen is not.
"""
import os
import re
import sys
import time

import pexpect

here = os.path.dirname(os.path.abspath(__file__))
env = dict(os.environ, TERM="xterm", PROMPT_TOOLKIT_NO_CPR="1", COLUMNS="100", LINES="40", PYTHONPATH=here,
           JUPYTER_NO_CONFIG="1")
console = pexpect.spawn("/usr/bin/python3", ["-c", "import schema_tap; from jupyter_console.app import main; main()",
                                             "--kernel", "engine"], env=env, timeout=20, encoding="utf-8", dimensions=(40, 100))


def wait(pattern, what):
    try:
        console.expect(pattern)
    except (pexpect.TIMEOUT, pexpect.EOF) as e:
        sys.exit(f"FAIL {what}: {type(e).__name__}, no {pattern!r} in\n{console.before[-3000:]}")
    print("ok  ", what, flush=True)


def between(text):
    """The text as it stands on a terminal: control sequences may come between words."""
    return r"(?:\x1b\[[0-9;?]*[A-Za-z]|\s)*".join(re.escape(w) for w in text.split())


def prompt(n):
    wait(rf"In (?:\x1b\[[0-9;]*m)*\[(?:\x1b\[[0-9;]*m)*{n}(?:\x1b\[[0-9;]*m)*\]", f"prompt {n}")


def enter(text):
    console.send(text)
    console.send("\r")


prompt(1)
enter("x := 5V")
wait(between("x 5 V"), "a definition shows its entry")
prompt(2)
enter("x/2Ω")
wait(between("2.5 A"), "an expression shows its value")
prompt(3)
enter("if x > 1V {")
console.send('fmt.Println("in", "side")\r')
console.send("}\r")
wait("in side", "an unfinished cell goes on in the next line and runs when it is closed")
prompt(4)
enter("zebra := 7V")
wait(between("zebra 7 V"), "another definition")
prompt(5)
console.send("2*zeb\t")
time.sleep(1)  # the completion is asked for and comes
console.send("\r")
wait(between("14 V"), "Tab completes a name of the note")
prompt(6)
enter("y := x + 2A")
wait(between("cannot add 5 V (voltage) and 2 A (current)"), "an error is shown")
prompt(7)
console.send("\x04")  # "exit" is a payload of the kernel, which the standard has deprecated
wait("really want to exit", "Ctrl-D asks")
console.send("y\r")
try:
    console.expect(pexpect.EOF, timeout=20)
except pexpect.TIMEOUT:
    sys.exit("FAIL exit: the console stays")
console.close()
print(console.before.strip().splitlines()[-1] if console.before.strip() else "", flush=True)
if console.exitstatus != 0 or "messages, 0 wrong" not in console.before:
    sys.exit(f"FAIL exit status {console.exitstatus}: {console.before[-2000:]}")
print("console: all passed")
