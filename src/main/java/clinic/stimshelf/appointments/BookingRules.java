package clinic.stimshelf.appointments;

import clinic.stimshelf.access.Staff;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** What stands against an appointment. */
@ApplicationScoped
class BookingRules {
  static final int MOST_CHANNELS = 8;
  private static final Duration SHORTEST = Duration.ofMinutes(5);
  static final Duration LONGEST = Duration.ofHours(8);

  /** Fields whose reasons another time may cure. */
  private static final Set<String> TIMELY = Set.of("startsAt", "patient");

  private static final Set<UnitState> GONE =
      EnumSet.of(UnitState.OUT_OF_SERVICE, UnitState.MISSING, UnitState.RETIRED);

  @Inject AppointmentRows rows;
  @Inject ResourceDays days;
  @Inject FreeTimes free;
  @Inject Locations locations;
  @Inject Patients patients;
  @Inject Staff staff;
  @Inject Shelf shelf;

  /**
   * Holds the day of location and patient, then looks at everything at once.
   *
   * @param notThis the appointment that is moved, or {@code null}
   * @throws InUse if others' use of room or unit is the sole reason
   * @throws clinic.stimshelf.web.Refusal with every reason otherwise
   */
  void check(NewAppointment wanted, Long notThis) {
    Refusals rules = new Refusals();
    boolean timely = checkTimes(wanted, rules);
    checkPeople(wanted, rules);
    UnitView unit = checkUnit(wanted, timely, rules);
    if (!timely) {
      rules.throwIfAny();
    }
    ZoneId zone = locations.zone(wanted.locationId());
    LocalDate day = LocalDate.ofInstant(wanted.startsAt(), zone);
    if (day.isBefore(locations.today(wanted.locationId()))) {
      rules.add("startsAt", "The time lies before today.", "Book from today on.");
    } else if (!free.open(wanted)) {
      rules.add("startsAt", closedWords(wanted.locationId(), day));
    }
    days.lock(day, wanted.locationId(), wanted.patientId());
    checkCollisions(wanted, notThis, unit, zone, rules);
  }

  private void checkCollisions(
      NewAppointment wanted, Long notThis, UnitView unit, ZoneId zone, Refusals rules) {
    List<Taken> others =
        rows.taken(
            wanted.patientId(),
            wanted.roomId(),
            wanted.unitId(),
            wanted.startsAt().minus(LONGEST),
            wanted.endsAt().plus(LONGEST),
            notThis);
    Collisions collisions = free.collisions(wanted);
    List<Reason> uses = new ArrayList<>();
    if (collisions.roomFull(wanted, others)) {
      uses.add(
          new Reason(
              "room", "The room is full at that time (" + collisions.capacity() + ").", null));
    }
    for (Taken other : collisions.ofUnit(wanted, others)) {
      uses.add(
          new Reason(
              "unit",
              "Unit " + unit.tag() + " is booked for a treatment " + words(other, zone) + ".",
              null));
    }
    for (Taken other : collisions.ofPatient(wanted, others)) {
      rules.add("patient", "The patient has an appointment " + words(other, zone) + ".");
    }
    if (!rules.any() && uses.isEmpty()) {
      return;
    }
    if (!rules.any()) {
      StringBuilder all = new StringBuilder();
      uses.forEach(use -> all.append(use.message()).append(' '));
      throw new InUse(all + free.words(wanted, notThis));
    }
    rules.addAll(uses);
    if (rules.reasons().stream()
        .anyMatch(reason -> reason.field() != null && TIMELY.contains(reason.field()))) {
      rules.add("startsAt", "Take another time.", free.words(wanted, notThis));
    }
    rules.throwIfAny();
  }

  private static String words(Taken other, ZoneId zone) {
    return "from "
        + Days.clock(other.startsAt().atZone(zone).toLocalTime())
        + " to "
        + Days.clock(other.endsAt().atZone(zone).toLocalTime());
  }

  private String closedWords(Long locationId, LocalDate day) {
    StringBuilder hours = new StringBuilder();
    locations
        .hours(locationId, day)
        .forEach(
            one ->
                hours
                    .append(hours.isEmpty() ? "" : " and ")
                    .append(Days.clock(one.opens()))
                    .append(" to ")
                    .append(Days.clock(one.closes())));
    return hours.isEmpty()
        ? "The clinic is closed on " + Days.shortly(day) + "."
        : "On " + Days.shortly(day) + " the clinic is open from " + hours + ".";
  }

  /** Whether the times make sense, so that the rest can be looked at. */
  static boolean checkTimes(NewAppointment wanted, Refusals refusals) {
    int before = refusals.reasons().size();
    if (wanted.startsAt() == null) {
      refusals.add("startsAt", "When does it begin?");
    }
    if (wanted.endsAt() == null) {
      refusals.add("endsAt", "When does it end?");
    }
    if (wanted.startsAt() != null && wanted.endsAt() != null) {
      Duration length = Duration.between(wanted.startsAt(), wanted.endsAt());
      if (length.compareTo(SHORTEST) < 0 || length.compareTo(LONGEST) > 0) {
        refusals.add("endsAt", "An appointment lasts from 5 minutes to 8 hours.");
      }
    }
    if (wanted.channels() < 0 || wanted.channels() > MOST_CHANNELS) {
      refusals.add("channels", "A treatment needs 1 to 8 channels, or 0 for no unit.");
    }
    checkTreatment(wanted, refusals);
    if (wanted.note() != null && wanted.note().length() > 500) {
      refusals.add("note", "A note has at most 500 characters.");
    }
    return refusals.reasons().size() == before;
  }

  private static void checkTreatment(NewAppointment wanted, Refusals refusals) {
    Instant from = wanted.treatmentStartsAt();
    Instant to = wanted.treatmentEndsAt();
    if ((from == null) != (to == null)) {
      refusals.add("treatmentEndsAt", "A treatment has a beginning and an end.");
    } else if (from != null && !from.isBefore(to)) {
      refusals.add("treatmentEndsAt", "A treatment ends after it begins.");
    } else if (from != null
        && wanted.startsAt() != null
        && wanted.endsAt() != null
        && (from.isBefore(wanted.startsAt()) || to.isAfter(wanted.endsAt()))) {
      refusals.add("treatmentStartsAt", "The treatment lies within the appointment.");
    }
    if (from != null && wanted.channels() == 0) {
      refusals.add("channels", "How many channels does the treatment need?");
    }
  }

  private void checkPeople(NewAppointment wanted, Refusals refusals) {
    PatientView patient = patients.byId(wanted.patientId());
    if (patient.diedOn() != null) {
      refusals.add(null, "The patient died.");
    }
    if (wanted.therapistId() != null) {
      try {
        StaffView therapist = staff.byId(wanted.therapistId());
        if (!therapist.active() || !therapist.locationIds().contains(wanted.locationId())) {
          refusals.add("therapist", therapist.name() + " does not work at this location.");
        }
      } catch (NotFound unknown) {
        refusals.add("therapist", "There is no such therapist.");
      }
    }
    if (wanted.roomId() != null
        && locations.rooms(wanted.locationId()).stream()
            .noneMatch(room -> room.id().equals(wanted.roomId()))) {
      refusals.add("room", "The location has no such room.");
    }
  }

  private UnitView checkUnit(NewAppointment wanted, boolean timely, Refusals refusals) {
    if (wanted.unitId() == null) {
      return null;
    }
    UnitView unit = shelf.byId(wanted.unitId());
    String name = "Unit " + unit.tag();
    if (!unit.locationId().equals(wanted.locationId())) {
      refusals.add("unit", name + " is kept at another location.");
    }
    if (GONE.contains(unit.state())) {
      refusals.add("unit", name + " is " + unit.state().words() + ".", "Take another unit.");
    }
    if (unit.channels() < wanted.channels()) {
      refusals.add(
          "unit",
          name
              + " has "
              + unit.channels()
              + " channels; the treatment needs "
              + wanted.channels()
              + ".",
          "Take another unit.");
    }
    if (wanted.channels() == 0) {
      refusals.add("channels", "A unit is named, so say how many channels are needed.");
    }
    if (timely) {
      LocalDate day = LocalDate.ofInstant(wanted.startsAt(), locations.zone(wanted.locationId()));
      if (unit.nextTestOn() == null || unit.nextTestOn().isBefore(day)) {
        refusals.add(
            "unit",
            name + "’s safety test is overdue by then.",
            "Test it first, or take another unit.");
      }
    }
    return unit;
  }
}
