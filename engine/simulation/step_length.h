#pragma once

namespace halfsplit::simulation {

/// How much longer or shorter a step may be, from the error of the step tried, in tolerances
/// (Integrator::try_step). The method is of second order: the error of a step goes with its third power.

/// For the step after one that was good; 0.2 to 5.
double growth(double error);

/// For trying again a step that erred by more than 1; below 1. Most such steps follow a contact that has
/// opened or closed, and what that sets off dies away within a small part of them: their error goes with the
/// step itself or little more.
double shrinkage(double error);

}  // namespace halfsplit::simulation
