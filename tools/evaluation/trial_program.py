"""The programs of tests/src that generate what tasks 15 and 17 judge."""
import json
import os
import pathlib
import subprocess

ROOT = pathlib.Path(__file__).resolve().parents[2]


def built(name):
    """Path of the program, built unless the environment variable COSPOT_NAME names one."""
    named = os.environ.get(f"COSPOT_{name.upper()}")
    if named:
        return named
    for command in (("cmake", "--preset", "release"),
                    ("cmake", "--build", "--preset", "release", "--target", name)):
        done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True)
        if done.returncode != 0:
            raise RuntimeError(f"{' '.join(command)}\n{done.stdout}{done.stderr}")
    return ROOT / "build/release/tests" / name


def said_by(program, *arguments):
    """The JSON that it prints."""
    return json.loads(subprocess.run([program, *map(str, arguments)], capture_output=True,
                                     text=True, check=True).stdout)
