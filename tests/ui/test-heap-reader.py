# SPDX-License-Identifier: GPL-3.0-or-later
"""What is read of a heap from outside is what the program in it took: the monkey's figures stand on that."""
import os
import subprocess
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import heap_reader  # noqa: E402

N, SIZE, TAKES = 10000, 500, 512  # bytes asked for; with the word before it, to a multiple of 16
PROGRAM = """
import ctypes, sys
c = ctypes.CDLL(None)
c.malloc.restype, c.malloc.argtypes, c.free.argtypes = ctypes.c_void_p, [ctypes.c_size_t], [ctypes.c_void_p]
blocks = [0] * %d
for turn in sys.stdin:
    for i in range(len(blocks)):
        if turn.startswith("take"):
            blocks[i] = c.malloc(%d)
        elif turn.startswith("free") or i %% 2 == 1:
            c.free(blocks[i])
            blocks[i] = None
    print("done", flush=True)
""" % (N, SIZE)

child = subprocess.Popen([sys.executable, "-c", PROGRAM], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
used = []
for turn in ("free", "take", "half", "free"):
    child.stdin.write(turn + "\n")
    child.stdin.flush()
    child.stdout.readline()
    used.append(heap_reader.measure(child.pid))
child.stdin.close()
child.wait()
if None in used:
    print("1..0 # SKIP a heap of another kind")
    sys.exit(0)
print("1..3")
for number, (now, wanted) in enumerate(((1, 1), (2, 0.5), (3, 0)), 1):
    for which in (0, 1):
        found = used[now][which] - used[0][which]
        if abs(found - wanted * N * TAKES / 1024) > 200:
            print("not ok %d\n# %d kB instead of %d" % (number, found, wanted * N * TAKES / 1024))
            break
    else:
        print("ok %d" % number)
