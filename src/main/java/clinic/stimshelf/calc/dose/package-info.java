/** The arithmetic of a home program: rhythm, sessions, contractions, pads. */
@NullMarked
package clinic.stimshelf.calc.dose;

import org.jspecify.annotations.NullMarked;
