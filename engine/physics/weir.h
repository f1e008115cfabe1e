// SPDX-License-Identifier: MIT
// Flow over a lip: Q = C L h^1.5 (a V: Q ~ h^2.5). Metres, m3/s, radians; C in m^0.5/s.
//
// h is the head over the crest, read well upstream (4 h or more), not the depth at the edge itself.
// Likely C by lip: thin edge and notch 3.33 ft^0.5/s (Francis; EPA SWMM Reference Manual Vol. II, 2017, sec. 6.3.2);
// broad stone 2.6 ft^0.5/s (Brater & King 1976, small heads, as SWMM Vol. II Table 6-3 gives them); rounded 3.087
// ft^0.5/s = (2/3)^1.5 sqrt(g), critical flow without loss. The band reaches up to 3.33 for all four, down to 2.6 for
// thin edge and notch, to 2.44 (the least entry of that table) for broad stone and rounded. A V is Kindsvater-Shen
// (USBR Water Measurement Manual 3rd ed., ch. 7 sec. 7) with a band of +/- 10 %. A notch loses width at both ends
// (Francis, L - 0.2 h); past h = L the loss stays what it is there. `outside` is set below 0.2 ft of head (WMM ch. 7),
// for a notch above h = L/3, for a V beyond 25 to 100 degrees. Nearly every garden lip is outside: that is why there is
// a band. Negative or NaN input, or a lip without width: band_none(). No flow: no head, and not outside.
#ifndef FOREBAY_PHYSICS_WEIR_H
#define FOREBAY_PHYSICS_WEIR_H

#include "physics/band.h"

enum weir_lip { WEIR_THIN_EDGE, WEIR_BROAD_STONE, WEIR_ROUNDED, WEIR_NOTCH, WEIR_V, WEIR_LIPS };

struct weir {
  enum weir_lip lip;
  double width;  // m along the crest, square to the flow; of a V not read
  double angle;  // rad between the sides of a V (pi/2 is the usual one); of other lips not read
};

// C of a straight lip, m^0.5/s. A V has no C of this kind: band_none().
struct band weir_coefficient(enum weir_lip lip);

struct band weir_flow(const struct weir *weir, double head);  // m3/s at a head
struct band weir_head(const struct weir *weir, double flow);  // m at a flow: .low goes with the greatest C

bool weir_outside(const struct weir *weir, double head);  // head beyond what the law was calibrated for

// Share of the free flow that is left when water below the lip stands `tailwater` over the crest: Villemonte, SWMM Vol.
// II Eq. 6-26. 1 when the tailwater is at or under the crest, 0 when it stands as high as the head.
double weir_submerged_share(enum weir_lip lip, double head, double tailwater);

#endif
