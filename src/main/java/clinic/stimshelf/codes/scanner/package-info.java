/** What a keyboard-wedge scanner adds to, or loses from, the text of a symbol. */
@NullMarked
package clinic.stimshelf.codes.scanner;

import org.jspecify.annotations.NullMarked;
