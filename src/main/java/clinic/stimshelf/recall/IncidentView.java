package clinic.stimshelf.recall;

import com.fasterxml.jackson.annotation.JsonIgnore;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/**
 * An incident in full.
 *
 * @param unitTag the unit, or {@code null}
 * @param reportOn the last of the work days that the clinic set, counted from {@code awareOn}
 * @param workDaysLeft until then, from today; below zero once it has passed
 * @param told who was told, or why not, first entered first
 * @param untold of whom nothing is said yet
 * @param frozen how everything stood when it was entered
 */
public record IncidentView(
    String id,
    IncidentKind kind,
    Harm harm,
    String location,
    String patientId,
    String chartNumber,
    @JsonIgnore String name,
    String loanId,
    String unitTag,
    String words,
    Instant happenedAt,
    Instant recordedAt,
    String by,
    LocalDate awareOn,
    int reportDays,
    LocalDate reportOn,
    int workDaysLeft,
    List<Told> told,
    List<Whom> untold,
    RecallState state,
    Instant closedAt,
    String closedBy,
    String closedWords,
    Frozen frozen,
    int version) {

  /** Somebody was told, or not. */
  public record Told(
      Whom whom,
      boolean told,
      String spokeWith,
      String reference,
      String words,
      Instant at,
      Instant recordedAt,
      String lateReason,
      String by) {}

  public boolean open() {
    return state == RecallState.OPEN;
  }

  /** How long until the report day, in words. */
  public String clock() {
    return workDaysLeft < 0
        ? "passed " + -workDaysLeft + (workDaysLeft == -1 ? " work day ago" : " work days ago")
        : workDaysLeft == 0
            ? "today is the last"
            : workDaysLeft + (workDaysLeft == 1 ? " work day left" : " work days left");
  }
}
