/** Device labels (UDI) of the three accredited issuers, read into one record. */
@NullMarked
package clinic.stimshelf.codes.udi;

import org.jspecify.annotations.NullMarked;
