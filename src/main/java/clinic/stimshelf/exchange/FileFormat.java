package clinic.stimshelf.exchange;

import java.util.List;
import java.util.Map;

/**
 * One kind of file: its columns, how a row enters the clinic, and how the same rows come out again.
 */
interface FileFormat {

  /** Name of the file without its ending, and in {@code /api/exports/{what}}. */
  String what();

  /** What the file holds, in words. */
  String title();

  /** Where it stands among the files of a folder: what it points at comes before it. */
  int order();

  List<Column<?>> columns();

  /** What names a row for good, empty if the row does not say it. */
  default String name(Row row) {
    return row.text(Column.ref());
  }

  /** Query for the names that are taken; such a row is left as it is. */
  String taken();

  /** Query for names that rows of another kind have taken in the same table; empty for none. */
  default String takenElsewhere() {
    return "";
  }

  /** Under what rows of this file are pointed at by others; {@code null} if they are not. */
  default Key key() {
    return null;
  }

  /**
   * Enters one row.
   *
   * @throws RuntimeException a refusal of the room, which becomes faults of this row
   */
  void enter(Row row);

  /** What follows once all rows of a file are entered. */
  default void entered() {}

  /**
   * Query that gives the columns by their names, in any order, each row once; {@code :locations}
   * stands for the numbers of the locations that are exported.
   */
  String export();

  /** What a row of that query needs further, by column: where a cell holds a list. */
  default Map<String, String> more(Map<String, Object> found) {
    return Map.of();
  }
}
