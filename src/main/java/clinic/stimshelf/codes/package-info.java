/**
 * What a scanner reads and what a label carries: own tags with a check character, device labels
 * (UDI), and the drawing of both. Pure: no framework, clock, database or logging.
 */
@NullMarked
package clinic.stimshelf.codes;

import org.jspecify.annotations.NullMarked;
