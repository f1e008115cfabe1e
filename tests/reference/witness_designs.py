# SPDX-License-Identifier: MIT
WITNESSES = {}
def witness_of(path, what): return None
