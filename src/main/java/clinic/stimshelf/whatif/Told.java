package clinic.stimshelf.whatif;

import java.util.List;

/**
 * An answer in words, with its drawing and the same numbers as a table.
 *
 * @param headline what follows, in one line
 * @param lines what else a person should know
 * @param heads columns of the table
 * @param rows cells, the first naming the row
 */
record Told(String headline, List<String> lines, Drawn drawn, List<String> heads, List<Row> rows) {

  /** A line of the table. */
  record Row(String name, List<String> cells, boolean marked) {}
}
