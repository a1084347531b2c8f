package clinic.stimshelf.exchange;

import clinic.stimshelf.access.Staff;
import clinic.stimshelf.appointments.AppointmentState;
import clinic.stimshelf.appointments.AppointmentView;
import clinic.stimshelf.appointments.Appointments;
import clinic.stimshelf.appointments.NewAppointment;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import jakarta.transaction.Transactional.TxType;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Objects;
import java.util.Optional;

/** Takes one row of another system over, each in a transaction of its own. */
@ApplicationScoped
class OutsideTaker implements PanacheRepository<OutsideAppointment> {
  @Inject Appointments appointments;
  @Inject Patients patients;
  @Inject Staff staff;
  @Inject Locations locations;
  @Inject Clock clock;

  /** What became of a row. */
  enum Became {
    BOOKED,
    MOVED,
    CANCELLED,
    SAME
  }

  /**
   * Books, moves or cancels.
   *
   * @throws Refusal with everything that stands against it
   */
  @Retried
  @Transactional(TxType.REQUIRES_NEW)
  Became take(Long locationId, OutsideRow row, int usualChannels) {
    OutsideAppointment known = known(locationId, row.key());
    if (row.fault() != null) {
      throw new Refusal(null, row.fault());
    }
    AppointmentView stands =
        known.appointmentId == null ? null : appointments.byId(known.appointmentId);
    Became became =
        row.cancelled()
            ? cancel(stands)
            : stands == null
                ? book(locationId, known, row, usualChannels)
                : move(locationId, stands, row);
    known.read(row, clock.instant());
    known.parked = null;
    persist(known);
    return became;
  }

  /** Keeps a row that could not be taken, with why. */
  @Retried
  @Transactional(TxType.REQUIRES_NEW)
  void park(Long locationId, OutsideRow row, String why) {
    OutsideAppointment known = known(locationId, row.key());
    known.read(row, clock.instant());
    known.parked = why.length() > 1_000 ? why.substring(0, 1_000) : why;
    persist(known);
  }

  private OutsideAppointment known(Long locationId, String key) {
    return find("locationId = ?1 and outsideKey = ?2", locationId, key)
        .firstResultOptional()
        .orElseGet(
            () -> {
              OutsideAppointment fresh = new OutsideAppointment();
              fresh.locationId = locationId;
              fresh.outsideKey = key;
              return fresh;
            });
  }

  private Became cancel(AppointmentView stands) {
    if (stands == null || stands.state() == AppointmentState.CANCELLED) {
      return Became.SAME;
    }
    appointments.cancel(stands.id(), "Cancelled in the other system", null, null);
    return Became.CANCELLED;
  }

  private Became book(
      Long locationId, OutsideAppointment known, OutsideRow row, int usualChannels) {
    if (row.startsAt().isBefore(clock.instant())) {
      return Became.SAME;
    }
    Refusals refusals = new Refusals();
    Optional<PatientView> patient = patient(row.chart());
    if (patient.isEmpty()) {
      refusals.add("chart", "No patient here has a chart number of “" + row.chart() + "”.");
    }
    Long therapist = therapist(row, refusals);
    Long room = room(locationId, row, refusals);
    refusals.throwIfAny();
    known.appointmentId =
        appointments.book(
            new NewAppointment(
                locationId,
                patient.orElseThrow().id(),
                therapist,
                room,
                null,
                row.startsAt(),
                row.startsAt().plus(Duration.ofMinutes(row.minutes())),
                null,
                null,
                row.channels() == null ? usualChannels : row.channels(),
                null));
    return Became.BOOKED;
  }

  private Became move(Long locationId, AppointmentView stands, OutsideRow row) {
    Instant end = row.startsAt().plus(Duration.ofMinutes(row.minutes()));
    Refusals refusals = new Refusals();
    Long therapist = row.therapist() == null ? stands.therapistId() : therapist(row, refusals);
    Long room = row.room() == null ? stands.roomId() : room(locationId, row, refusals);
    int channels = row.channels() == null ? stands.channels() : row.channels();
    refusals.throwIfAny();
    boolean same =
        stands.startsAt().equals(row.startsAt())
            && stands.endsAt().equals(end)
            && Objects.equals(therapist, stands.therapistId())
            && Objects.equals(room, stands.roomId())
            && channels == stands.channels();
    if (stands.state() == AppointmentState.CANCELLED) {
      throw new Refusal(
          null, "It was cancelled here.", "Cancel it in the other system too, or book it again.");
    }
    if (same || stands.startsAt().isBefore(clock.instant()) && stands.state().over()) {
      return Became.SAME;
    }
    Duration by = Duration.between(stands.startsAt(), row.startsAt());
    boolean keepsTreatment =
        stands.treatmentStartsAt() != null
            && channels > 0
            && !stands.treatmentEndsAt().plus(by).isAfter(end);
    appointments.move(
        stands.id(),
        null,
        new NewAppointment(
            locationId,
            stands.patientId(),
            therapist,
            room,
            stands.unit() == null || stands.unitPlanned() ? null : stands.unit().id(),
            row.startsAt(),
            end,
            keepsTreatment ? stands.treatmentStartsAt().plus(by) : null,
            keepsTreatment ? stands.treatmentEndsAt().plus(by) : null,
            channels,
            stands.note()));
    return Became.MOVED;
  }

  /** The whole text, or the first of its words that is a chart number here. */
  private Optional<PatientView> patient(String chart) {
    if (chart == null) {
      return Optional.empty();
    }
    Optional<PatientView> found = patients.byChart(chart);
    for (String word : chart.split("[\\s,;:()]+", -1)) {
      if (found.isEmpty() && word.chars().anyMatch(Character::isDigit)) {
        found = patients.byChart(word);
      }
    }
    return found;
  }

  private Long therapist(OutsideRow row, Refusals refusals) {
    if (row.therapist() == null) {
      return null;
    }
    return staff
        .findByRef(row.therapist())
        .map(one -> one.id())
        .orElseGet(
            () -> {
              refusals.add(
                  "therapist", "Nobody here has the short name “" + row.therapist() + "”.");
              return null;
            });
  }

  private Long room(Long locationId, OutsideRow row, Refusals refusals) {
    if (row.room() == null) {
      return null;
    }
    return locations.rooms(locationId).stream()
        .filter(room -> room.name().equalsIgnoreCase(row.room()))
        .map(room -> room.id())
        .findFirst()
        .orElseGet(
            () -> {
              refusals.add("room", "The location has no room “" + row.room() + "”.");
              return null;
            });
  }
}
