# SPDX-License-Identifier: GPL-3.0-or-later
"""What is in use in the first heap of another program, read from outside: nothing in it has to be asked, or changes.

Knows how the C library of GNU lays its heap out since 2.26 (malloc.c, "chunk"): a size before each block, whose lowest bit
says whether the block before is in use. Blocks set aside for the next request of their size count as in use."""
import os
import signal
import struct

PAGE, LARGE = 4096, 1 << 20  # a picture of a frame is larger, and there or not from one moment to the next


def read(pid):
    """The heap's bytes, the program halted meanwhile."""
    os.kill(pid, signal.SIGSTOP)
    try:
        with open("/proc/%d/maps" % pid) as f:
            place = next((line.split()[0] for line in f if line.rstrip().endswith("[heap]")), None)
        if place is None:
            return b""
        begin, end = (int(x, 16) for x in place.split("-"))
        parts = []
        with open("/proc/%d/mem" % pid, "rb", 0) as f:
            f.seek(begin)
            while begin < end:
                part = f.read(min(end - begin, 1 << 24))
                if not part:
                    break
                parts.append(part)
                begin += len(part)
        return b"".join(parts)
    finally:
        os.kill(pid, signal.SIGCONT)


def measure(pid):
    """kB: in use, of that in blocks under a megabyte, length of the heap. None where it is laid out in another way."""
    data = read(pid)
    words = struct.unpack("<%dQ" % (len(data) // 8), data[:len(data) // 8 * 8])
    at = used = small = 0
    while True:
        size = words[at // 8 + 1] & ~7 if at // 8 + 1 < len(words) else 0
        if size < 32 or at + size > len(data):
            return None
        if at + size == len(data):  # the end of the heap, free
            return used // 1024, small // 1024, len(data) // 1024
        if words[(at + size) // 8 + 1] & 1:
            used += size
            small += size if size < LARGE else 0
        at += size
