/** Who gets which unit today, and which dates a run of appointments takes. */
@NullMarked
package clinic.stimshelf.calc.plan;

import org.jspecify.annotations.NullMarked;
