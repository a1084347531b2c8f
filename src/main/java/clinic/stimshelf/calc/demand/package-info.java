/** How many packs will be asked for, when to order and how much. */
@NullMarked
package clinic.stimshelf.calc.demand;

import org.jspecify.annotations.NullMarked;
