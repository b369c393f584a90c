// The shelf of part types: a folder of types files that is installed with the program.
//
// Read only when a type is asked for that neither the stage nor its types files give. What each
// file holds is checked as any types file is.
#pragma once

#include "language/draft.hpp"
#include "language/gather.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::language {

/// Reads the names on the shelf into the draft, the statements into `gathered`. A file that cannot
/// be read, a statement that is no type and a name that stands twice are complained of; where the
/// folder itself gives nothing, `draft.shelf.trouble` says why, for whoever needed it.
void load_shelf(Draft& draft, Gathered& gathered, const ReadOptions& options);

/// Complains, once, that the shelf gives nothing, where that is so: at `types shelf`, or of the
/// folder. Returns whether it is so.
bool complain_of_shelf(Draft& draft);

}  // namespace idlepoint::language
