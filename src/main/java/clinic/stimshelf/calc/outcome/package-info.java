/** What therapists measure on both sides of a person, put beside one another. */
@NullMarked
package clinic.stimshelf.calc.outcome;

import org.jspecify.annotations.NullMarked;
