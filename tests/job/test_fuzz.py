"""Spoilt job files, thousands of them: read, or refused with a line and a way to mend it; never anything else."""

import random

import pytest

from rodwork.job.faults import JobFaults
from rodwork.job.reader import read_job
from rodwork.job.starter import starter
from tests.job.job_samples import FAMILIES, SOUND

SCRAPS = [
    *(["nan", "-1", "inf", "1e999", "1e-999", "0x10", "-0", "1_000", '"', "'", '"""', "'''", "[", "]", "{", "}", "=", ".", ",", "#", "\\", "\n", "\t", "\r", "\x00", "\x7f", "é", "\u202e"]),
    *(["true", "[[a]]", "[a.b.c]", "1979-05-27T07:32:00Z", "07:32:00", "[]", "{}", "{a=1}", "[[],[]]", "\\u0000", "_", "-", "+", "family", "use"]),
    '"rest"', '"open"', '"none"', '"-1 mm"', '"1/0 in"', '""', "9" * 30, "9" * 5000, '"' + "x" * 3000 + '"',
    "[every_cabinet]\n", "[cabinets.a]\nwidth = 1\n", 'notes = """a\nb"""\n', "back.board", "cabinets", "[" * 50,
]  # fmt: skip


def spoilt(dice: random.Random, text: bytes) -> bytes:
    """The text after one to eight slips: letters lost, doubled, swapped, scraps pasted in, values exchanged."""
    for _ in range(dice.choice((1, 1, 1, 2, 3, 8))):
        start = dice.randrange(len(text) + 1)
        end = start + dice.choice((0, 1, 2, 5, 30, 200))
        slip = dice.randrange(6)
        if slip == 0:
            text = text[:start] + bytes([dice.randrange(256)]) + text[start:]
        elif slip == 1:
            text = text[:start] + text[end:]
        elif slip == 2:
            text = text[:start] + dice.choice(SCRAPS).encode() + text[end:]
        elif slip == 3:
            to = dice.randrange(len(text) + 1)
            text = text[:to] + text[start:end] + text[to:]
        else:
            rows = text.split(b"\n")
            one, other = dice.randrange(len(rows)), dice.randrange(len(rows))
            if slip == 4:
                rows[one], rows[other] = rows[other], rows[one]
            else:
                rows[one] = rows[one].split(b"=")[0] + b"= " + dice.choice(SCRAPS).encode()
            text = b"\n".join(rows)
    return text


def refusal(text: bytes):
    try:
        read_job(text, "job.toml", FAMILIES)
    except JobFaults as wrong:
        return wrong.faults
    return None


@pytest.mark.parametrize("seed", range(8))
def test_a_spoilt_file_is_read_or_refused_in_plain_words(seed):
    dice = random.Random(seed)
    files = [SOUND.encode(), starter("x").encode()]
    refused = 0
    for _ in range(500):
        text = spoilt(dice, dice.choice(files))
        faults = refusal(text)
        refused += faults is not None
        assert faults != ()
        for fault in faults or ():
            assert 1 <= fault.line <= text.count(b"\n") + 1
            assert fault.what
            assert fault.mend
            assert str(fault).isprintable()
    assert 250 < refused < 500, "some are refused and some are still sound, or these slips test nothing"
