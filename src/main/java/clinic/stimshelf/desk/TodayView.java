package clinic.stimshelf.desk;

import clinic.stimshelf.shelf.UnitState;
import com.fasterxml.jackson.annotation.JsonIgnore;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/**
 * What must be done now, in the order in which a person at the desk would act.
 *
 * @param goingOut signed programs that wait for a unit, those needed first before the others
 * @param comingIn loans that come home today and are not late
 * @param late loans past the closing time of their due day, the longest first
 * @param appointments appointments soon whose unit is not ready
 * @param toWipe units to wipe, and those whose contact time runs
 * @param toInspect units to inspect
 * @param toCharge units that are ready but for their charge
 * @param ready units that could go out now
 */
public record TodayView(
    List<GoingOut> goingOut,
    List<ComingIn> comingIn,
    List<Late> late,
    List<Coming> appointments,
    List<Chore> toWipe,
    List<Chore> toInspect,
    List<Chore> toCharge,
    List<OnShelf> ready) {

  /** How many things wait to be done. */
  public int things() {
    return goingOut.size()
        + comingIn.size()
        + late.size()
        + appointments.size()
        + toWipe.size()
        + toInspect.size()
        + toCharge.size();
  }

  /**
   * A signed program that waits for a unit.
   *
   * @param unitTag the kit set aside or proposed, {@code null} if none is ready
   * @param unitWhy why that one
   * @param missing what still stands against it, as far as the desk can see before the check out
   * @param appointmentAt when the patient comes today, {@code null} if not
   */
  public record GoingOut(
      String requestId,
      String programId,
      String patientId,
      String chartNumber,
      @JsonIgnore String name,
      String location,
      LocalDate neededFrom,
      String unitTag,
      String unitWhy,
      LocalDate dueOn,
      @JsonIgnore String treats,
      Instant appointmentAt,
      List<String> missing) {}

  /**
   * A loan that comes home today, or comes in for a safety test.
   *
   * @param appointmentAt when the patient comes today, {@code null} for a drop-off
   * @param stays whether the unit only comes in for its safety test and leaves again
   */
  public record ComingIn(
      String loanId,
      String unitTag,
      String patientId,
      String chartNumber,
      @JsonIgnore String name,
      String location,
      LocalDate dueOn,
      long daysLate,
      Instant appointmentAt,
      boolean stays) {}

  /**
   * A loan that should have come home.
   *
   * @param daysLate full days since the due day; 0 on that day's evening
   * @param nextStep what the ladder of messages has next, {@code null} at its end
   * @param nextStepOn the day of that step
   * @param lastContact the last time somebody was called about it, {@code null} if never
   * @param promisedTo chart number of the patient who waits for this unit, {@code null} if none
   */
  public record Late(
      String loanId,
      String unitTag,
      String patientId,
      String chartNumber,
      @JsonIgnore String name,
      String location,
      LocalDate dueOn,
      long daysLate,
      String nextStep,
      LocalDate nextStepOn,
      ContactView lastContact) {}

  /** An appointment whose unit is not ready, and why. */
  public record Coming(
      String appointmentId,
      String patientId,
      String chartNumber,
      @JsonIgnore String name,
      String location,
      Instant startsAt,
      String unitTag,
      String why) {}

  /**
   * Something to do on a unit.
   *
   * @param readyAt when a wipe counts, {@code null} if none is waiting
   * @param heldUntil before this it does not leave, {@code null} if it is not held
   * @param minutesLeft until then
   */
  public record Chore(
      String unitTag,
      String kind,
      String location,
      UnitState state,
      Instant since,
      Instant readyAt,
      Instant heldUntil,
      Long minutesLeft) {}

  /** A unit that could go out now. */
  public record OnShelf(String unitTag, String kind, int channels, String location, String spot) {}
}
