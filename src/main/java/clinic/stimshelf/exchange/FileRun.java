package clinic.stimshelf.exchange;

import clinic.stimshelf.web.SpreadsheetCell;
import jakarta.persistence.EntityManager;
import jakarta.persistence.PersistenceException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/** One file on its way in, within the run's transaction. */
final class FileRun {
  /** Rows held at once; more would make each query of a room look through ever more of them. */
  private static final int HELD_ROWS = 100;

  private final EntityManager database;
  private final FileFormat format;
  private final String file;
  private final CsvText text;
  private final Reading reading;
  private final Importing.Progress progress;
  private final List<Fault> faults;
  private final Set<String> taken;
  private final Set<String> takenElsewhere;
  private final Map<String, Long> seen = new HashMap<>();
  private final long ofAbout;
  private List<String> header;
  private boolean headerIsWrong;
  private long heldFrom;
  private long rows;
  private long entered;
  private long unchanged;

  /**
   * @param faults takes everything that is wrong
   * @throws CsvText.Unreadable if the file is no text or empty
   */
  FileRun(
      EntityManager database,
      Importing.Task task,
      Reading reading,
      Importing.Progress progress,
      List<Fault> faults) {
    this.database = database;
    this.format = task.format();
    this.file = task.file().name();
    this.text = CsvText.of(file, task.file().bytes());
    this.reading = reading;
    this.progress = progress;
    this.faults = faults;
    this.taken = reading.keys().names(format.taken());
    this.takenElsewhere = reading.keys().names(format.takenElsewhere());
    this.ofAbout = Math.max(1, text.roughLines() - 1);
  }

  /**
   * @throws CsvText.Unreadable if the file breaks off
   */
  Brought run() {
    progress.at(format.what(), 0, ofAbout);
    text.forEachLine(this::line);
    flush();
    if (entered > 0 && faults.isEmpty()) {
      format.entered();
    }
    progress.at(format.what(), rows, rows);
    return new Brought(format.what(), file, rows, entered, unchanged);
  }

  private void line(CsvText.Line line) {
    if (header == null) {
      header = header(line);
      headerIsWrong = !faults.isEmpty();
      heldFrom = line.number() + 1;
    } else if (!headerIsWrong) {
      rows++;
      Row row = new Row(file, line.number(), cells(line), reading);
      row.read(format.columns());
      row(row, line);
      faults.addAll(row.faults());
      if (rows % HELD_ROWS == 0) {
        flush();
        heldFrom = line.number() + 1;
        progress.at(format.what(), rows, Math.max(rows, ofAbout));
      }
    }
  }

  private void row(Row row, CsvText.Line line) {
    if (line.cells().stream().skip(header.size()).anyMatch(cell -> !cell.isBlank())) {
      row.fault(
          "",
          "This line has "
              + line.cells().size()
              + " cells, but the header names "
              + header.size()
              + " columns.");
    }
    if (row.isStillToCome()) {
      if (format.key() != null) {
        reading.keys().toCome(format.key(), format.name(row));
      }
      return;
    }
    if (!row.faults().isEmpty()) {
      return;
    }
    String name = format.name(row);
    Long before = seen.putIfAbsent(name, row.line());
    if (before != null) {
      row.fault("", "Line " + before + " names the same, “" + name + "”; allowed is each once.");
    } else if (takenElsewhere.contains(name)) {
      row.fault(
          Column.ref().name(),
          "Another kind of file has brought a row of that name; allowed is each once.");
    } else if (taken.contains(name)) {
      unchanged++;
    } else {
      enter(row);
    }
  }

  private void enter(Row row) {
    try {
      format.enter(row);
      entered++;
    } catch (PersistenceException refused) {
      row.fault("", "The database refused this row: " + cause(refused));
    } catch (RuntimeException refused) {
      row.refused(refused);
    }
  }

  private List<String> header(CsvText.Line line) {
    List<String> known = format.columns().stream().map(Column::name).toList();
    List<String> names = new ArrayList<>();
    line.cells().forEach(cell -> names.add(cell.strip().toLowerCase(Locale.ROOT)));
    while (!names.isEmpty() && names.get(names.size() - 1).isEmpty()) {
      names.remove(names.size() - 1);
    }
    Set<String> once = new HashSet<>();
    for (String name : names) {
      if (!known.contains(name)) {
        headerFault(
            line, name, "There is no such column; allowed are " + String.join(", ", known) + ".");
      } else if (!once.add(name)) {
        headerFault(line, name, "This column stands here twice.");
      }
    }
    for (Column<?> column : format.columns()) {
      if (column.isRequired() && !once.contains(column.name())) {
        headerFault(
            line,
            "",
            "The column " + column.name() + " is missing; it holds " + column.allowed() + ".");
      }
    }
    return names;
  }

  private void headerFault(CsvText.Line line, String name, String says) {
    faults.add(new Fault(file, line.number(), name, "", says));
  }

  private Map<String, String> cells(CsvText.Line line) {
    Map<String, String> cells = new HashMap<>();
    for (int i = 0; i < header.size(); i++) {
      String cell = i < line.cells().size() ? line.cells().get(i) : "";
      cells.put(header.get(i), SpreadsheetCell.unguarded(cell).strip());
    }
    return cells;
  }

  private void flush() {
    try {
      database.flush();
    } catch (PersistenceException refused) {
      if (faults.isEmpty()) {
        faults.add(
            new Fault(
                file,
                heldFrom,
                "",
                "",
                "The database refused one of the rows from here on: " + cause(refused)));
      }
    }
    database.clear();
  }

  private static String cause(Throwable failure) {
    Throwable deepest = failure;
    while (deepest.getCause() != null) {
      deepest = deepest.getCause();
    }
    return String.valueOf(deepest.getMessage()).lines().findFirst().orElse("");
  }
}
