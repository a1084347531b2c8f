/** Where packs went: what was used against what was planned or used before, split into causes. */
@NullMarked
package clinic.stimshelf.calc.consumption;

import org.jspecify.annotations.NullMarked;
