package clinic.stimshelf.loans;

import java.time.LocalDate;
import java.util.List;

/**
 * A loan's days, without saying with whom: for reckoning, not for looking up.
 *
 * @param kind code of the unit's kind
 * @param due day as it stands now
 * @param back {@code null} while the unit is out or missing
 * @param turns in which the due day changed, in order
 */
public record Away(
    Long loanId,
    Long unitId,
    String kind,
    LocalDate out,
    LocalDate due,
    LocalDate back,
    List<Turn> turns) {

  /**
   * A change of the due day.
   *
   * @param extension whether the loan was extended; else a closure or a booking moved the day
   */
  public record Turn(LocalDate on, LocalDate fromDue, boolean extension) {}

  public Away {
    turns = List.copyOf(turns);
  }

  /** The day agreed on before the loan was extended. */
  public LocalDate firstDue() {
    return turns.stream().filter(Turn::extension).map(Turn::fromDue).findFirst().orElse(due);
  }

  /** Whether the loan was extended at all. */
  boolean extended() {
    return turns.stream().anyMatch(Turn::extension);
  }

  boolean extendedBefore(LocalDate day) {
    return turns.stream().anyMatch(turn -> turn.extension() && turn.on().isBefore(day));
  }

  /** The due day as it stood on the morning of a day. */
  LocalDate dueAsOf(LocalDate morning) {
    return turns.stream()
        .filter(turn -> !turn.on().isBefore(morning))
        .map(Turn::fromDue)
        .findFirst()
        .orElse(due);
  }

  /** Whether the unit was away on the morning of a day. */
  boolean awayOn(LocalDate morning) {
    return out.isBefore(morning) && (back == null || !back.isBefore(morning));
  }

  /** As it was known on the morning of a day; only of a loan that had begun by then. */
  Away asOf(LocalDate morning) {
    return new Away(
        loanId,
        unitId,
        kind,
        out,
        dueAsOf(morning),
        back == null || !back.isBefore(morning) ? null : back,
        turns.stream().filter(turn -> turn.on().isBefore(morning)).toList());
  }
}
