/** How many units to own, and by which day one is surely free. */
@NullMarked
package clinic.stimshelf.calc.pool;

import org.jspecify.annotations.NullMarked;
