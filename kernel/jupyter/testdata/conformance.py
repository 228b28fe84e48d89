#!/usr/bin/python3
"""The public conformance suite (jupyter_kernel_test) for the kernel "lines".

Its tests that are skipped here need a pager payload or a completion sample
file, which this kernel has none of.
"""
import unittest

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


if __name__ == "__main__":
    unittest.main(verbosity=2)
