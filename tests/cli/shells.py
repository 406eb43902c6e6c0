"""What a real shell offers for what is typed. Each is asked in its own way, for none has another."""

import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import termios
import time

from buildbook.cli.completing import script

_WAITS_S = 60
_PROMPT = "what now? "
_SCREEN = struct.pack("HHHH", 200, 250, 0, 0)
_MOVES = re.compile(rb"\x1b\[[0-9;]*[A-H]|\r")
_CONTROLS = re.compile(rb"\x1b\[[0-9;?]*[a-zA-Z]|\x1b[=>]|\x1b\([A-Z]|\x07")

_BASH = """
set -u
source "$1"; shift
[[ "$(complete -p buildbook)" == *"-F _buildbook"* ]] || exit 9
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1))
_buildbook
printf '%s\\n' "${COMPREPLY[@]}"
"""


class Bash:
    """Its function is called as the shell would."""

    def __init__(self, place, here):
        self._script, self._here = place / "completion.bash", here
        self._script.write_text(script("bash"), "utf-8")

    def offers(self, *words):
        command = ["bash", "--norc", "-c", _BASH, "ask", str(self._script), "buildbook", *words]
        return _said(command, self._here)

    def end(self):
        pass


class Fish:
    """It tells what it would offer for a line."""

    def __init__(self, place, here):
        self._script, self._here = place / "completion.fish", here
        self._script.write_text(script("fish"), "utf-8")

    def offers(self, *words):
        line = " ".join(("buildbook", *words))
        asked = ["fish", "--no-config", "-c", f"source {self._script}; complete -C '{line}'"]
        return {said.partition("\t")[0].removesuffix("/") for said in _said(asked, self._here)}

    def end(self):
        pass


class Zsh:
    """A person sits before it: the line is typed, and Ctrl+D lists what may follow. `found`: it finds the script by its
    name in a folder, as an installed one; else it is read at the start.
    """

    def __init__(self, place, here, *, found=False):
        path = place / ("_buildbook" if found else "completion.zsh")
        path.write_text(script("zsh"), "utf-8")
        pid, self._line = pty.fork()
        if not pid:
            os.chdir(here)
            os.execvpe(
                "zsh",
                ["zsh", "-f", "-i"],
                os.environ | {"TERM": "xterm", "LC_ALL": "C.UTF-8", "PS1": _PROMPT},
            )
        self._pid = pid
        fcntl.ioctl(self._line, termios.TIOCSWINSZ, _SCREEN)
        before, after = (f"fpath=({place} $fpath)", ":") if found else (":", f"source {path}")
        self._do(f"LISTMAX=0; {before}; autoload -Uz compinit; compinit -u -D; {after}")
        self._do(
            "zstyle ':completion:*' verbose no; listed() { zle -M LIST''ED; }; zle -N listed; bindkey '^T' listed"
        )

    def offers(self, *words):
        typed = " ".join(("buildbook", *words))
        self._send(f"{typed}\x04\x14")
        shown = _CONTROLS.sub(b"", _MOVES.sub(b"\n", self._until(b"LISTED"))).decode()
        below = [line for line in shown.splitlines() if line != "LISTED" and typed.rstrip() not in line]
        self._do("\x15")
        entries = (one.strip() for line in below for one in re.split(r" {2,}", line))
        return {one.replace("\\ ", " ").removesuffix("/") for one in entries if one}

    def _do(self, command):
        """Wait until it is done, and the next line may be typed."""
        self._send(f"{command}\nprint DO''NE\n")
        self._until(b"DONE\r\n", _PROMPT.encode())

    def end(self):
        os.kill(self._pid, signal.SIGKILL)
        os.waitpid(self._pid, 0)
        os.close(self._line)

    def _send(self, text):
        os.write(self._line, text.encode())

    def _until(self, *marks):
        """What it says up to the last of these, which come one after the other."""
        out, ends = b"", time.monotonic() + _WAITS_S
        while not re.search(b".*".join(map(re.escape, marks)), out, re.DOTALL):
            assert time.monotonic() < ends, out
            if select.select([self._line], [], [], 1)[0]:
                out += os.read(self._line, 65536)
        return out


def _said(command, here):
    done = subprocess.run(command, cwd=here, capture_output=True, text=True, check=True)
    assert done.stderr == ""
    return {line for line in done.stdout.splitlines() if line}
