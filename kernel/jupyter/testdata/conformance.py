#!/usr/bin/python3
"""The public conformance suite (jupyter_kernel_test) for the kernels "lines" and
"engine" (see client_check.py). Every message is held against the schemas.

What is skipped: the pager, which is a payload that the standard has deprecated,
and for the engine, which writes to stdout only and replaces what it shows,
stderr and clear_output.
"""
import sys
import unittest

try:
    import schema_tap  # noqa: F401  (before the client)
except ImportError:
    print("messages are not held against the schemas: that needs python3-jsonschema", file=sys.stderr)
import jupyter_kernel_test


class LinesTests(jupyter_kernel_test.KernelTests):
    kernel_name = "lines"
    language_name = "lines"
    file_extension = ".txt"
    code_hello_world = "echo hello, world"
    code_stderr = "stderr a warning"
    completion_samples = [{"text": "bur", "matches": {"burst"}}, {"text": "b", "matches": {"big", "burst"}}]
    complete_code_samples = ["echo a", "fail"]
    incomplete_code_samples = ["echo {"]
    invalid_code_samples = ["} echo"]
    code_generate_error = "fail on purpose"
    code_execute_result = [{"code": "result 12", "result": "12"}, {"code": "result 1x2y", "result": "1x2y"}]
    code_display_data = [{"code": "show A 1", "mime": "text/plain"}]
    code_inspect_sample = "echo"
    code_clear_output = "clear"
    supported_history_operations = ("tail", "range", "search")
    code_history_pattern = "result 1?2*"


class EngineTests(jupyter_kernel_test.KernelTests):
    kernel_name = "engine"
    language_name = "lines"
    file_extension = ".txt"
    code_hello_world = 'fmt.Println("hello, world")'
    completion_samples = [{"text": "strings.Repea", "matches": {"Repeat"}}, {"text": "y := Nea", "matches": {"Nearest"}}]
    complete_code_samples = ["x := 4.7kΩ ± 1%", "for i := range 3 {\n\tfmt.Println(i)\n}"]
    incomplete_code_samples = ["for i := range 3 {", "y := Sqrt("]
    invalid_code_samples = ["x := )", "}"]
    code_generate_error = "5V + 2A"
    code_execute_result = [{"code": "2+2", "result": "4\nfrom      2 + 2\n"}, {"code": "Parallel(10kΩ, 22kΩ)", "mime": "text/html"}]
    code_display_data = [{"code": "x := 4.7kΩ", "mime": "text/plain"}, {"code": "x := 4.7kΩ", "mime": "text/html"}]
    supported_history_operations = ("tail", "range", "search")
    code_history_pattern = "Par?llel*"
    code_inspect_sample = "Nearest"


if __name__ == "__main__":
    unittest.main(verbosity=2)
