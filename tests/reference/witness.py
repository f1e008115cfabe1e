# SPDX-License-Identifier: MIT
"""General libraries as witnesses of the tables of check values: each row whose function a witness knows is worked out
anew from its inputs, and what the row expects has to agree within the tolerance of the row. The engine has no part in
it: this checks the tables, and reference_test and checked_test check the engine against them. Rows that no witness
knows are passed over and counted. Prints TAP. Usage: witness.py [--rows]; --rows prints each row with both values.
"""
import collections
import glob
import math
import os
import re
import shutil
import sys
import tempfile
import warnings

import witness_designs
import witness_ground
import witness_network
import witness_water
from witness_row import PassedOver, Row, number_of

ROOT = os.path.abspath(os.path.join(os.path.dirname(__file__), "..", ".."))
TABLES = ("tests/reference", "tests/designs/worked")
WITNESSES = {**witness_water.WITNESSES, **witness_ground.WITNESSES, **witness_network.WITNESSES}

# Rows that each library has to have worked out, so that no witness falls silent.
LEAST = {"fluids": 70, "scipy": 180, "iapws": 28, "shapely": 55}
LEAST_ROWS = 290

Tally = collections.namedtuple("Tally", "heard wrong passed seen")


def rows_of(root):
    for folder in TABLES:
        for path in sorted(glob.glob(os.path.join(root, folder, "*.tsv"))):
            with open(path, encoding="utf-8") as lines:
                for number, line in enumerate(lines, 1):
                    if line.strip() and not line.startswith("#"):
                        yield os.path.relpath(path, root), number, line.rstrip("\n").split("\t")


def tolerance_of(text, expected):
    """ "0.1%" and "0.1 %" are of the expected value; anything else counts in its unit, without a unit's offset."""
    if text.endswith("%") and ":" not in text:
        return abs(expected) * float(text[:-1]) / 100
    return number_of(text, offset=False)


def claim(path, columns):
    """What one row says and who can work it out: witness, row, expected, tolerance; None where nobody can."""
    if path.startswith(TABLES[0]):
        witness = WITNESSES.get(columns[0])
        row = Row(columns[1], columns[4], columns[5]) if witness else None
        tolerance = columns[3] if witness else None
    else:
        witness = witness_designs.witness_of(path, columns[0])
        row, tolerance = None, columns[2]
        # "0.02 %" of a value in percent is in its unit, as checked_test reads it
        if witness and columns[1].endswith(" %"):
            tolerance = tolerance.replace(" %", ":%")
    if not witness:
        return None
    expected = number_of(columns[2] if row else columns[1])
    # a space parts number and unit in worked tables; one before % means nothing
    text = tolerance.replace(" %", "%").replace(" ", ":")
    return witness, row, expected, tolerance_of(text, expected)


def hear(root):
    """Asks every witness about every row: rows heard by library, complaints, the number passed over."""
    heard, wrong, passed, seen = collections.Counter(), [], 0, []
    for path, number, columns in rows_of(root):
        where = f"{path}:{number}: {columns[0]}"
        try:
            found = claim(path, columns)
            if not found:
                passed += 1
                continue
            witness, row, expected, tolerance = found
            got = float(witness.work(row) if row else witness.work(root))
        except PassedOver:
            passed += 1
            continue
        except Exception as fault:  # a row that cannot be read is a failure, not a crash
            wrong.append(f"{where}: cannot be worked out: {type(fault).__name__}: {fault}")
            continue
        heard.update(witness.libraries + ("rows",))
        seen.append((path, number, witness.libraries, expected, tolerance, got))
        if not abs(got - expected) <= tolerance:
            names = " and ".join(witness.libraries)
            wrong.append(f"{where}: {names} give {got:.10g}, the row {expected:.10g} +/- {tolerance:.3g} (SI)")
    return Tally(heard, wrong, passed, seen)


def silent(tally):
    """Libraries that were heard on fewer rows than they have to be."""
    least = {**LEAST, "rows": LEAST_ROWS}
    return [f"{name}: {tally.heard[name]} rows, {n} wanted" for name, n in least.items() if tally.heard[name] < n]


def copy_tables(to):
    for folder in TABLES:
        shutil.copytree(os.path.join(ROOT, folder), os.path.join(to, folder), ignore=shutil.ignore_patterns("adapters"))


def plant(root, path, number, share):
    """Makes one expected value wrong by a share of itself."""
    file = os.path.join(root, path)
    with open(file, encoding="utf-8") as lines:
        text = lines.read().split("\n")
    columns = text[number - 1].split("\t")
    place = 2 if path.startswith(TABLES[0]) else 1
    value = re.match(r"[-+0-9.eE]+", columns[place]).group()
    columns[place] = repr(float(value) * (1 + share)) + columns[place][len(value):]
    text[number - 1] = "\t".join(columns)
    with open(file, "w", encoding="utf-8") as lines:
        lines.write("\n".join(text))


def planted(tally):
    """One row of each library, and one of each folder: what is to be made wrong, and by how much."""
    chosen = {}
    for path, number, libraries, expected, tolerance, _ in tally.seen:
        if expected == 0 or math.isinf(tolerance):
            continue
        for key in libraries + (os.path.dirname(path),):
            chosen.setdefault(key, (path, number, 0.01 + 3 * tolerance / abs(expected)))
    return sorted(set(chosen.values()))


def blind(tally):
    """Plants wrong values in a copy of the tables: what of it goes unseen, or is seen without being there."""
    with tempfile.TemporaryDirectory() as copy:
        copy_tables(copy)
        plants = planted(tally)
        for path, number, share in plants:
            plant(copy, path, number, share)
        found = {tuple(complaint.split(":", 2)[:2]) for complaint in hear(copy).wrong}
    wanted = {(path, str(number)) for path, number, _ in plants}
    problems = [f"planted in {':'.join(at)} and not found" for at in sorted(wanted - found)]
    problems += [f"{':'.join(at)} fails in the copy and not here" for at in sorted(found - wanted)]
    return problems if plants else ["nothing to plant in"]


def main():
    warnings.simplefilter("ignore", DeprecationWarning)
    tally = hear(ROOT)
    if "--rows" in sys.argv[1:]:
        for path, number, libraries, expected, tolerance, got in tally.seen:
            print(f"{path}:{number}\t{'+'.join(libraries)}\t{expected:.9g}\t{tolerance:.3g}\t{got:.9g}")
        return 0
    empty = [] if not hear("/nonexistent").seen and silent(hear("/nonexistent")) else ["no table at all goes unseen"]
    checks = [("what the rows expect is what the libraries give", tally.wrong),
              ("each library is heard on as many rows as it has to be", silent(tally)),
              ("where there is no table, no library was heard", empty),
              ("a wrong value planted in a copy is found, one for each library", [] if tally.wrong else blind(tally))]
    counts = ", ".join(f"{name} {tally.heard[name]}" for name in LEAST)
    print(f"# witnessed: {tally.heard['rows']} rows ({counts}); passed over: {tally.passed}")
    for number, (name, problems) in enumerate(checks, 1):
        print(f"{'not ok' if problems else 'ok'} {number} - {name}")
        for problem in problems:
            print(f"# {problem}")
    print(f"1..{len(checks)}")
    return 1 if any(problems for _, problems in checks) else 0


if __name__ == "__main__":
    sys.exit(main())
