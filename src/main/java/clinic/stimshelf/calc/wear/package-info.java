/** How long something lasts when not every life was seen to its end, and which lot is worse. */
@NullMarked
package clinic.stimshelf.calc.wear;

import org.jspecify.annotations.NullMarked;
