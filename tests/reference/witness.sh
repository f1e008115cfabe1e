#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# General libraries as witnesses of the tables of check values; see witness.py. Debian's Python comes first: the
# libraries are its packages.
set -uo pipefail
here=$(cd "$(dirname "$0")" && pwd)
python=/usr/bin/python3
[ -x "$python" ] || python=python3
exec "$python" -B "$here/witness.py" "$@"
