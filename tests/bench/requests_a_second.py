"""Requests a second on loopback, by wrk where it is installed, else by a small client of threads."""

import http.client
import os
import re
import shutil
import subprocess
import threading
import time
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

CONNECTIONS = 8
SECONDS = 3
SCRIPT = Path(__file__).with_name("post.lua")


@dataclass(frozen=True)
class Asked:
    """One kind of request: where, as whom, and the form where it is a POST."""

    url: str
    cookie: str = ""
    body: str = ""


def tool() -> str:
    """What the requests are made with."""
    return "wrk" if shutil.which("wrk") else "threads of Python"


def rate(asked: Asked) -> float:
    """Requests a second over some seconds; any answer but 2xx ends the measurement."""
    return _by_wrk(asked) if shutil.which("wrk") else _by_threads(asked)


def _by_wrk(asked: Asked) -> float:
    command = ["wrk", "-t1", f"-c{CONNECTIONS}", f"-d{SECONDS}s"]
    if asked.cookie:
        command += ["-H", f"Cookie: {asked.cookie}"]
    if asked.body:
        command += ["-s", str(SCRIPT)]
    environment = {**os.environ, "BENCH_BODY": asked.body}
    said = subprocess.run(
        [*command, asked.url], env=environment, capture_output=True, text=True, check=True
    ).stdout
    if "Non-2xx" in said:
        raise SystemExit(f"{asked.url} was refused:\n{said}")
    return float(re.search(r"Requests/sec:\s+([\d.]+)", said).group(1))


def _by_threads(asked: Asked) -> float:
    counts = [0] * CONNECTIONS
    start = time.perf_counter()
    threads = [
        threading.Thread(target=_ask_on, args=(asked, counts, place, start + SECONDS))
        for place in range(CONNECTIONS)
    ]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    return sum(counts) / (time.perf_counter() - start)


def _ask_on(asked: Asked, counts: list[int], place: int, until: float) -> None:
    parts = urlsplit(asked.url)
    headers = {"Cookie": asked.cookie, "Accept": "application/json, text/html"}
    if asked.body:
        headers["Content-Type"] = "application/x-www-form-urlencoded"
    while time.perf_counter() < until:
        connection = http.client.HTTPConnection(parts.netloc, timeout=30)
        connection.request(
            "POST" if asked.body else "GET", parts.path, body=asked.body or None, headers=headers
        )
        answer = connection.getresponse()
        answer.read()
        connection.close()
        if not 200 <= answer.status < 300:
            raise SystemExit(f"{asked.url} answered {answer.status}")
        counts[place] += 1
