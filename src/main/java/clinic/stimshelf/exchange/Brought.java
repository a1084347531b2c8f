package clinic.stimshelf.exchange;

/**
 * What came of one file.
 *
 * @param what its format
 * @param rows lines under the header
 * @param entered rows that were new
 * @param unchanged rows whose ref was here already
 */
public record Brought(String what, String file, long rows, long entered, long unchanged) {}
