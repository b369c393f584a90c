// The production spread of a fitted type: the sheet's windows, told as ends of the law's fields.
//
// Used by answers/fit.
#pragma once

#include "answers/fit.hpp"

namespace idlepoint::answers {

/// Gives `fit.type` the ends of its gain from the windows of gain, of its saturation current from
/// those of `vbe` and `vf`, of a FET's current factor and threshold from those of `idss` and `vgs`,
/// of a zener voltage from those of `vz`: at an end the type shows the window's end at that point,
/// all else as fitted. Of several windows the narrowest end counts; an end on the wrong side of the
/// fitted value is left out. Ends that the file gave stay.
void set_spreads(const circuit::TypePoints& asked, TypeFit& fit);

}  // namespace idlepoint::answers
