// SPDX-License-Identifier: MIT
// The linear part of the flow solver. Nodes joined by conductances; some lead straight out to a known level. Given what
// comes into each node, how far does each rise? A node is taken out by joining its neighbours to each other (star into
// mesh); that adds positive numbers only, so the result is right to rounding however far the conductances lie apart.
// A conductance may act one way: the rise of `from` sends water into `to`, but that of `to` sends none back.
// Order (least neighbours first) and all places are found once, in _new. It takes 4 bytes x nodes^2 while it works.
#ifndef FOREBAY_PHYSICS_NETWORK_MESH_H
#define FOREBAY_PHYSICS_NETWORK_MESH_H

#include <stdbool.h>
#include <stddef.h>

struct network_mesh;

struct network_pair {
  size_t from, to;  // a pair with equal ends, or one that is no node, is passed over
};

struct network_mesh *network_mesh_new(size_t nodes, const struct network_pair *pairs, size_t count);  // NULL: no memory
void network_mesh_free(struct network_mesh *mesh);

void network_mesh_clear(struct network_mesh *mesh);
void network_mesh_join(struct network_mesh *mesh, size_t pair, double conductance);
void network_mesh_pour(struct network_mesh *mesh, size_t pair, double conductance);  // one way, from -> to
void network_mesh_leave(struct network_mesh *mesh, size_t node, double conductance);

// Nodes with `known` do not rise. `inflows` is used up.
void network_mesh_solve(struct network_mesh *mesh, const bool *known, double *inflows, double *rises);

#endif
