/** Proportions and how sure they are. */
@NullMarked
package clinic.stimshelf.calc.rates;

import org.jspecify.annotations.NullMarked;
