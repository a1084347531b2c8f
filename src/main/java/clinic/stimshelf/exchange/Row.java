package clinic.stimshelf.exchange;

import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/** One line of a file, read column by column; whatever cannot be read becomes a fault. */
final class Row {
  private final String file;
  private final long line;
  private final Map<String, String> cells;
  private final Reading reading;
  private final Map<String, Object> values = new HashMap<>();
  private final List<Fault> faults = new ArrayList<>();
  private final Set<String> columns = new HashSet<>();
  private boolean stillToCome;

  Row(String file, long line, Map<String, String> cells, Reading reading) {
    this.file = file;
    this.line = line;
    this.cells = cells;
    this.reading = reading;
  }

  /** Reads every column, so that a line's faults are all named at once. */
  Row read(List<Column<?>> wanted) {
    wanted.forEach(column -> columns.add(column.name()));
    wanted.forEach(this::readOne);
    return this;
  }

  private void readOne(Column<?> column) {
    String text = text(column);
    if (text.isEmpty()) {
      if (column.isRequired()) {
        fault(column.name(), "This is missing; allowed is " + column.allowed() + ".");
      }
      return;
    }
    try {
      values.put(column.name(), column.read(text, this));
    } catch (Column.StillToCome ahead) {
      stillToCome |= column.isRequired();
    } catch (Column.NotAllowed said) {
      fault(column.name(), said.getMessage());
    } catch (IllegalArgumentException | DateTimeException | ArithmeticException unreadable) {
      fault(column.name(), "Allowed is " + column.allowed() + ".");
    }
  }

  /** The cell as it stands, without surrounding blanks. */
  String text(Column<?> column) {
    return cells.getOrDefault(column.name(), "");
  }

  /** The value, or {@code null} where nothing stands or what stands is not allowed. */
  @SuppressWarnings("unchecked")
  <T> T get(Column<T> column) {
    return (T) values.get(column.name());
  }

  <T> T or(Column<T> column, T otherwise) {
    T value = get(column);
    return value == null ? otherwise : value;
  }

  boolean has(Column<?> column) {
    return values.get(column.name()) != null;
  }

  /** Whether something is written, even if it reads as not yet happened. */
  boolean isWritten(Column<?> column) {
    return !text(column).isEmpty();
  }

  /**
   * @param field a column, or a field of a room that is spelled alike; {@code null} for the line
   */
  void fault(String field, String says) {
    String column =
        field == null ? "" : field.replaceAll("([A-Z])", "_$1").toLowerCase(Locale.ROOT);
    boolean known = columns.contains(column);
    faults.add(
        new Fault(
            file,
            line,
            known ? column : "",
            known ? cells.getOrDefault(column, "") : "",
            known || column.isEmpty() ? says : field + ": " + says));
  }

  /** Takes what a room says against the row. */
  void refused(RuntimeException refusal) {
    if (refusal instanceof Refusal rules) {
      for (Reason reason : rules.reasons()) {
        fault(reason.field() == null ? "" : reason.field(), reason.words());
      }
    } else if (refusal instanceof Malformed malformed) {
      for (Reason reason : malformed.reasons()) {
        fault(reason.field() == null ? "" : reason.field(), reason.words());
      }
    } else if (refusal instanceof NotFound
        || refusal instanceof InUse
        || refusal instanceof IllegalArgumentException) {
      fault("", refusal.getMessage());
    } else {
      throw refusal;
    }
  }

  /** Whether this row of the demo tells of a time that is still to come. */
  boolean isStillToCome() {
    return stillToCome;
  }

  List<Fault> faults() {
    return faults;
  }

  long line() {
    return line;
  }

  DayText days() {
    return reading.days();
  }

  Keys keys() {
    return reading.keys();
  }

  Reading reading() {
    return reading;
  }

  /** Opening hours of the line's location, {@code null} where it names none. */
  OpenHours hours() {
    Reading.Place place = place();
    return place == null ? null : reading.hours(place);
  }

  /** Time zone of the line's location, or of the first location where it names none. */
  ZoneId zone() {
    Reading.Place place = place();
    return place == null ? reading.zone() : place.zone();
  }

  private Reading.Place place() {
    return reading.place(cells.getOrDefault("location", ""));
  }
}
