/**
 * Local days: when the location is open, when sessions fall, when pads change, when a unit is due.
 */
@NullMarked
package clinic.stimshelf.calc.days;

import org.jspecify.annotations.NullMarked;
