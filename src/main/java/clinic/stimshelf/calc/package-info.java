/**
 * Numbers in, numbers out: every figure that the product shows comes from here.
 *
 * <p>Nothing in this room knows a framework, a clock, a database or a log. Types are immutable,
 * functions are pure, and the same input always gives the same answer. Whatever an argument may not
 * be is refused with {@link clinic.stimshelf.calc.BadInput}, which names it; a check is written so
 * that NaN fails it.
 */
@NullMarked
package clinic.stimshelf.calc;

import org.jspecify.annotations.NullMarked;
