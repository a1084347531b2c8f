/** Labels for tags and device identifiers, drawn as SVG in millimeters. */
@NullMarked
package clinic.stimshelf.codes.labels;

import org.jspecify.annotations.NullMarked;
