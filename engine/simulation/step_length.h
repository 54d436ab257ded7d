#pragma once

namespace halfsplit::simulation {

/// How much longer or shorter a step may be, from the error of the step tried, in tolerances
/// (Integrator::try_step). The method is of second order: the error of a step goes with its third power.

/// For the step after one that was good; 0.2 to 5.
double growth(double error);

/// For trying again a step that erred by more than 1; below 1. Far beyond the tolerance the error goes with
/// the step itself or little more: what causes it dies away within a small part of the step.
double shrinkage(double error);

}  // namespace halfsplit::simulation
