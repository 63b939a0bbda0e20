// Package column moves water through a layered soil column.
//
// Richards' equation in its mixed form is solved by finite volumes, backward
// Euler in time and Newton's linearisation, with one rule that decides its
// character: a step is accepted as soon as the linearised water content lies
// within a tolerance of the curve, and the water that the linear solution moved
// is what is booked. The balance is then exact to rounding whatever the
// tolerance, the small gap between stored water and retention curve repairs
// itself in the next step, and most steps cost one tridiagonal solve.
//
// It was chosen over an iterated scheme because near saturation Newton cycles
// without end on soils with n < 1.5 and cutting the step does not help there;
// over forms that switch the unknown between water content and head because
// head stays the unknown on both sides of saturation, so that a saturated base,
// a perched table and a ponded top are nothing special; and over explicit forms
// because those blow up when the column fills. (Kavetski et al. 2002, Water
// Resour. Res. 38:1211, and Maina and Ackerer 2017, Hydrol. Earth Syst. Sci.
// 21:2667, on non-iterative steps with error control.)
//
// Depth is positive down from the surface, flux positive down; metres and
// seconds throughout. The column knows tables of soil properties and nothing of
// weather, crops or frost: ice is given to it.
package column
