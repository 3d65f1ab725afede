"""Times the commands that work with a large ledger, as people run them, and prints a table.

    cargo build --release
    python3 tests/speed/measure.py target/release/dockheft FOLDER [DELIVERIES] [LINES]

FOLDER is made and keeps the deliveries and the ledger (4.5 GB for 500 deliveries of 2,000 lines); a second call measures with the
ledger that is there. Each command runs three times and the quickest counts; its memory is the most that it ever held.
"""

import os
import pathlib
import shutil
import subprocess
import sys
import time

HERE = pathlib.Path(__file__).parent
REGISTER = HERE.parent.parent / "fixtures/kestrel-junction/fleet.xlsx"


def run(args, cwd):
    """Seconds on the clock, seconds of processor, megabytes at most, exit status."""
    began = time.monotonic()
    child = subprocess.Popen(args, cwd=cwd, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    return time.monotonic() - began, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, child.returncode


def told(what, clock, processor, memory, status):
    print(f"{what:44} {clock:8.2f} s {processor:8.2f} s {memory:8.0f} MB  status {status}", flush=True)


def build(program, folder, deliveries, lines):
    """The deliveries and their ledger, a day after the other."""
    subprocess.run([sys.executable, HERE / "make_deliveries.py", folder / "days", str(deliveries), str(lines)], check=True)
    shutil.copy(REGISTER, folder / "fleet.xlsx")
    (folder / "site.toml").write_text('name = "Kestrel Junction"\nfleet = "fleet.xlsx"\n', encoding="utf-8")
    total, used, most = 0.0, 0.0, 0.0
    for day in sorted((folder / "days").iterdir()):
        audit = [program, "audit", day, "--date", day.name, "--out", "out.xlsx", "--quiet"]
        clock, processor, memory, status = run(audit, folder)
        if status > 1:
            sys.exit(f"{day}: status {status}")
        total, used, most = total + clock, used + processor, max(most, memory)
    told("audit, all days", total, used, most, 0)


def main():
    program, folder = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
    deliveries, lines = (int(text) for text in (sys.argv[3:] + ["500", "2000"][len(sys.argv) - 3 :]))
    folder.mkdir(parents=True, exist_ok=True)
    print(f"{os.cpu_count()} cores; clock, processor, memory")
    if not (folder / "ledger.dockheft").exists():
        build(program, folder, deliveries, lines)
    size = (folder / "ledger.dockheft").stat().st_size
    print(f"ledger {size / 1e6:,.0f} MB")
    for what in (
        "trace --supplier hazel --from 2026-02-01 --to 2026-03-31",
        "trace --supplier hazel --from 2026-02-01 --decision open",
        "trace --item I-00700",
        "trace pump",
        "scorecard --out card.xlsx",
        "ledger check",
        "ledger export export",
    ):
        shutil.rmtree(folder / "export", ignore_errors=True)
        runs = []
        for _ in range(3):
            shutil.rmtree(folder / "export", ignore_errors=True)
            runs.append(run([program, *what.split()], folder))
        told(what, *min(runs))


if __name__ == "__main__":
    main()
