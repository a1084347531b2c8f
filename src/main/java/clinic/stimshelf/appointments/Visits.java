package clinic.stimshelf.appointments;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.pads.PackLine;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.program.EventTime;
import clinic.stimshelf.program.SessionLogs;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.shelf.UseKind;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** What becomes of an appointment on its day. */
@ApplicationScoped
public class Visits {
  private static final Set<AppointmentState> OUTCOMES =
      EnumSet.of(AppointmentState.DONE, AppointmentState.PARTIAL, AppointmentState.NOT_DONE);

  @Inject Appointments appointments;
  @Inject Locations locations;
  @Inject Shelf shelf;
  @Inject LoanedUnits loanedUnits;
  @Inject UnitPlans plans;
  @Inject PadStock stock;
  @Inject SessionLogs sessions;
  @Inject EventTimes times;

  /**
   * An outcome as entered.
   *
   * @param outcome done, partial or not-done
   * @param reason why it was partial or not done
   * @param unitTag the unit that was used, if it is not the one begun with; {@code null} otherwise
   * @param packs of pads that were opened for it, from the location's cupboard
   */
  public record Completion(
      AppointmentState outcome,
      String reason,
      String unitTag,
      List<PackLine> packs,
      Instant happenedAt,
      String lateReason) {

    public Completion {
      packs = packs == null ? List.of() : List.copyOf(packs);
    }

    /** Without packs. */
    public Completion(
        AppointmentState outcome,
        String reason,
        String unitTag,
        Instant happenedAt,
        String lateReason) {
      this(outcome, reason, unitTag, List.of(), happenedAt, lateReason);
    }
  }

  /**
   * The patient came; also after a no-show was entered too early.
   *
   * @param unitTag the unit whose treatment begins now; {@code null} if none does yet
   */
  @Retried
  @Transactional
  public void arrive(Long id, String unitTag, Instant happenedAt, String lateReason) {
    Appointment row = appointments.locked(id);
    Refusals refusals = new Refusals();
    Happened happened = times.of(happenedAt, lateReason, appointments.zone(row), refusals);
    if (row.state != AppointmentState.BOOKED && row.state != AppointmentState.NO_SHOW) {
      refusals.add(null, "It is " + row.state.words() + " already.");
    } else if (locations
        .today(row.locationId)
        .isBefore(row.startsAt.atZone(appointments.zone(row)).toLocalDate())) {
      refusals.add(null, "The appointment is on a later day.", "Move it to today first.");
    }
    refusals.throwIfAny();
    Appointment.Facts before = row.facts();
    row.state = AppointmentState.ARRIVED;
    row.reason = null;
    row.arrivedAt = happened.at();
    if (unitTag != null && !unitTag.isBlank()) {
      begin(row, unitTag, happened);
    }
    appointments.record(row, "arrived", happened, before);
  }

  /**
   * The treatment begins with the unit.
   *
   * @throws clinic.stimshelf.web.InUse if somebody else has the unit
   */
  @Retried
  @Transactional
  public void begin(Long id, String unitTag, Instant happenedAt, String lateReason) {
    Appointment row = appointments.locked(id);
    Refusals refusals = new Refusals();
    Happened happened = times.of(happenedAt, lateReason, appointments.zone(row), refusals);
    if (row.state != AppointmentState.ARRIVED) {
      refusals.add(null, "It is " + row.state.words() + ".", "Mark the patient as arrived first.");
    }
    if (row.unitInUse) {
      refusals.add("unitTag", "The treatment has begun already.");
    }
    refusals.throwIfAny();
    Appointment.Facts before = row.facts();
    begin(row, unitTag, happened);
    appointments.record(row, "treatment begun", happened, before);
  }

  /**
   * The appointment is over. A unit of the shelf that was used is to be wiped.
   *
   * @throws Refusal with everything that stands against it
   */
  @Retried
  @Transactional
  public void complete(Long id, Completion entry) {
    Appointment row = appointments.locked(id);
    Refusals refusals = new Refusals();
    Happened happened =
        times.of(entry.happenedAt(), entry.lateReason(), appointments.zone(row), refusals);
    if (entry.outcome() == null || !OUTCOMES.contains(entry.outcome())) {
      refusals.add("outcome", "Say what came of it: done, partial or not-done.");
    } else if (entry.outcome() != AppointmentState.DONE
        && (entry.reason() == null || entry.reason().isBlank())) {
      refusals.add("reason", "Say why it was " + entry.outcome().words() + ".");
    }
    if (entry.reason() != null && entry.reason().length() > 500) {
      refusals.add("reason", "A reason has at most 500 characters.");
    }
    if (row.state.over()) {
      refusals.add(null, "It is " + row.state.words() + " already.");
    } else if (happened.at().isBefore(row.startsAt) && row.state == AppointmentState.BOOKED) {
      refusals.add(null, "It has not begun yet.", "Mark the patient as arrived first.");
    }
    refusals.throwIfAny();
    Appointment.Facts before = row.facts();
    if (row.arrivedAt == null && entry.outcome() != AppointmentState.NOT_DONE) {
      row.arrivedAt = row.startsAt.isAfter(happened.at()) ? happened.at() : row.startsAt;
    }
    if (entry.unitTag() != null && !entry.unitTag().isBlank() && !row.unitInUse) {
      begin(row, entry.unitTag(), happened);
    }
    row.state = entry.outcome();
    row.reason = entry.reason() == null || entry.reason().isBlank() ? null : entry.reason().strip();
    row.completedAt = happened.at();
    boolean shelfUnit = row.unitInUse;
    end(row, happened);
    appointments.record(row, "completed", happened, before);
    if (!entry.packs().isEmpty()) {
      stock.useInAppointment(row.patientId, row.locationId, entry.packs(), happened);
    }
    if (entry.outcome() != AppointmentState.NOT_DONE && row.treatmentStartsAt != null) {
      sessions.treated(
          row.patientId,
          row.locationId,
          entry.outcome() == AppointmentState.DONE,
          locations.settings(row.locationId).yes(Setting.TREATMENT_REPLACES_HOME_SESSION),
          !shelfUnit && entry.packs().isEmpty(),
          new EventTime(happened.at(), happened.lateReason()));
    }
  }

  /** The patient did not come. */
  @Retried
  @Transactional
  public void noShow(Long id, Instant happenedAt, String lateReason) {
    Appointment row = appointments.locked(id);
    Refusals refusals = new Refusals();
    Happened happened = times.of(happenedAt, lateReason, appointments.zone(row), refusals);
    if (row.state != AppointmentState.BOOKED) {
      refusals.add(null, "It is " + row.state.words() + ", so it is no no-show.");
    } else if (happened.at().isBefore(row.startsAt)) {
      refusals.add(null, "It has not begun yet.", "Cancel it if the patient called it off.");
    }
    refusals.throwIfAny();
    Appointment.Facts before = row.facts();
    row.state = AppointmentState.NO_SHOW;
    appointments.record(row, "no-show", happened, before);
  }

  /** A patient's own loaned unit stays on its loan: no second use of it begins. */
  private void begin(Appointment row, String unitTag, Happened happened) {
    UnitView unit = shelf.byTag(unitTag.strip());
    LoanedUnits.Loaned own = loanedUnits.of(List.of(row.patientId)).get(row.patientId);
    row.unitId = unit.id();
    row.unitPlanned = false;
    if (own != null && own.unitId().equals(unit.id())) {
      return;
    }
    Refusals refusals = new Refusals();
    if (!unit.locationId().equals(row.locationId)) {
      refusals.add("unitTag", "Unit " + unit.tag() + " is kept at another location.");
    }
    if (unit.channels() < row.channels) {
      refusals.add(
          "unitTag",
          "Unit "
              + unit.tag()
              + " has "
              + unit.channels()
              + " channels; the treatment needs "
              + row.channels
              + ".");
    }
    refusals.throwIfAny();
    Instant until = row.treatmentEndsAt == null ? row.endsAt : row.treatmentEndsAt;
    shelf.begin(
        unit.id(),
        UseKind.TREATMENT,
        row.id,
        row.id,
        happened.at(),
        until.isAfter(happened.at()) ? until : null,
        happened);
    row.unitInUse = true;
    plans.follow(row.locationId, locations.today(row.locationId));
  }

  private void end(Appointment row, Happened happened) {
    if (row.unitInUse) {
      shelf.end(row.unitId, UseKind.TREATMENT, row.id, happened, UnitState.TO_WIPE);
      row.unitInUse = false;
    }
  }
}
