// SPDX-License-Identifier: MIT
// Full round pipe, one phase. Bore and length m, flow m3/s, velocity m/s, viscosity m2/s (kinematic), roughness m,
// heads m of water. Friction (Darcy f): 64/Re to 2000; Colebrook from 4000, solved to rounding; between them the cubic
// of Dunlop as EPANET 2.2 uses it (User Manual ch. 12), laid through Colebrook's value and slope at 4000 so that f has
// no step and no kink. In the transition models differ by up to 30 %. Flow may be negative: a loss has the sign of its
// flow. A bore or viscosity <= 0, a negative roughness or length, or NaN: NaN.
#ifndef FOREBAY_PHYSICS_PIPE_H
#define FOREBAY_PHYSICS_PIPE_H

struct pipe {
  double length, bore, roughness;
  double minor;  // sum of K of fittings, valve, entrance and exit, on the velocity in this bore; may be negative
};

double pipe_area(double bore);
double pipe_velocity(double flow, double bore);
double pipe_volume(double length, double bore);  // m3 of water it holds
double pipe_reynolds(double velocity, double bore, double viscosity);
double pipe_friction_factor(double reynolds, double relative_roughness);  // no flow: 0, since there is no loss

double pipe_friction_loss(const struct pipe *pipe, double flow, double viscosity);  // f L/D v|v|/2g
double pipe_minor_loss(double k, double velocity);                                  // K v|v|/2g
double pipe_head_loss(const struct pipe *pipe, double flow, double viscosity);      // both
double pipe_head_slope(const struct pipe *pipe, double flow,
                       double viscosity);  // d(head loss)/d(flow), s/m2, for solvers

#endif
