import subprocess
import sys
from pathlib import Path

# What native code does: it writes to the descriptor, past Python.
NOISY = """
import os, sys
from service.stdout import standard_output_kept_clean
with standard_output_kept_clean() as answers:
    os.write(1, b"native noise\\n")
    print("python noise")
    answers.write("the answer \\u00bd\\n")
print("afterwards")
"""


def test_only_the_answer_reaches_standard_output() -> None:
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", NOISY],
        cwd=Path(__file__).parents[2],
        capture_output=True,
        check=True,
        encoding="utf-8",
    )
    assert done.stdout == "the answer \N{VULGAR FRACTION ONE HALF}\nafterwards\n"
    assert done.stderr.splitlines() == ["native noise", "python noise"]
