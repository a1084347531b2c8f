package clinic.stimshelf.outcomes;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.people.Side;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.web.JustEntered;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.math.BigDecimal;
import java.time.Clock;
import java.util.List;

/** What therapists measured. It is shown as it is and never suggests what to do. */
@ApplicationScoped
public class Outcomes {
  static final BigDecimal MOST = new BigDecimal("10000");
  private static final int PLACES = 4;

  @Inject OutcomeNoteRows rows;
  @Inject Patients patients;
  @Inject Programs programs;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject JustEntered justEntered;
  @Inject EventTimes times;
  @Inject Trail trail;
  @Inject Clock clock;

  /**
   * Records a measurement. A {@code ref} that is known changes nothing.
   *
   * @return the number of the new or the known entry
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public Long record(NewOutcome entry) {
    PatientView patient = patients.byId(entry.patientId());
    if (entry.ref() != null) {
      Long known = justEntered.find("outcome", entry.ref());
      OutcomeNote row = known == null ? rows.find("ref", entry.ref()).firstResult() : null;
      if (known != null || row != null) {
        return known == null ? row.id : known;
      }
    }
    Refusals refusals = new Refusals();
    check(entry, patient, refusals);
    // What a file tells happened long ago; nobody has to say why it was not entered then.
    Happened happened =
        entry.ref() != null
            ? Happened.at(entry.happenedAt())
            : times.of(
                entry.happenedAt(),
                entry.lateReason(),
                locations.zone(patient.locationId()),
                refusals);
    refusals.throwIfAny();
    OutcomeNote row = new OutcomeNote();
    row.ref = entry.ref();
    row.patientId = patient.id();
    row.programId = entry.programId();
    row.measure = entry.measure();
    row.side = entry.side();
    row.what = entry.what().strip();
    row.involved = entry.involved();
    row.uninvolved = entry.measure().bothSides() ? entry.uninvolved() : null;
    row.note = entry.note() == null || entry.note().isBlank() ? null : entry.note().strip();
    row.happenedAt = happened.at();
    row.recordedAt = clock.instant();
    row.lateReason = happened.lateReason();
    row.staffId = signedIn.staffId();
    rows.persist(row);
    if (row.ref != null) {
      justEntered.add("outcome", row.ref, row.id);
    }
    trail.record(
        Subject.of("patient", patient.id()),
        patient.locationId(),
        "outcome measured",
        happened,
        null,
        OutcomeView.of(row, threshold(patient)));
    return row.id;
  }

  /** Takes back what was entered wrongly; it stays, struck through, and a right one is entered. */
  @Transactional
  public OutcomeView voided(Long patientId, Long id, String reason) {
    PatientView patient = patients.byId(patientId);
    OutcomeNote row = id == null ? null : rows.findById(id);
    if (row == null || !row.patientId.equals(patient.id())) {
      throw new NotFound("There is no such measurement of this patient.");
    }
    Refusals refusals = new Refusals();
    if (row.voidedAt != null) {
      refusals.add(null, "This entry was voided already.");
    }
    if (reason == null || reason.isBlank() || reason.length() > 500) {
      refusals.add("reason", "Say in at most 500 characters what was wrong with the entry.");
    }
    refusals.throwIfAny();
    OutcomeView before = OutcomeView.of(row, threshold(patient));
    row.voidedAt = clock.instant();
    row.voidReason = reason.strip();
    OutcomeView after = OutcomeView.of(row, threshold(patient));
    trail.record(
        Subject.of("patient", patient.id()),
        patient.locationId(),
        "outcome voided",
        times.now(),
        before,
        after);
    return after;
  }

  @Transactional
  public OutcomeView byId(Long patientId, Long id) {
    return of(patientId).stream()
        .filter(one -> one.id().equals(String.valueOf(id)))
        .findFirst()
        .orElseThrow(() -> new NotFound("There is no such measurement of this patient."));
  }

  /** Everything measured on a patient, newest first; voided entries too. */
  @Transactional
  public List<OutcomeView> of(Long patientId) {
    PatientView patient = patients.byId(patientId);
    Threshold threshold = threshold(patient);
    return rows.list("patientId = ?1 order by happenedAt desc, id desc", patientId).stream()
        .map(row -> OutcomeView.of(row, threshold))
        .toList();
  }

  Threshold threshold(PatientView patient) {
    return Threshold.of(locations.settings(patient.locationId()));
  }

  private void check(NewOutcome entry, PatientView patient, Refusals refusals) {
    if (entry.programId() != null
        && !programs.byId(entry.programId()).patientId().equals(patient.id())) {
      refusals.add("programId", "The program is another patient's.", "Leave it out or correct it.");
    }
    if (entry.side() == null || entry.side() == Side.BOTH) {
      refusals.add("side", "Which side is the involved one: left or right?");
    }
    if (entry.what() == null || entry.what().isBlank() || entry.what().strip().length() > 120) {
      refusals.add(
          "what",
          "Say in at most 120 characters what was measured and how, or the height of a girth.",
          "Use the same words each time, so that the course is drawn.");
    }
    if (entry.note() != null && entry.note().length() > 500) {
      refusals.add("note", "At most 500 characters.");
    }
    Measure measure = entry.measure();
    if (measure == null) {
      refusals.add("measure", "What was measured?");
      return;
    }
    boolean zeroFits = measure.kind() != Measure.Kind.GIRTH && !measure.lessIsBetter();
    value("involved", "The involved side", entry.involved(), zeroFits, refusals);
    if (measure.bothSides()) {
      value("uninvolved", "The other side", entry.uninvolved(), false, refusals);
    } else if (entry.uninvolved() != null) {
      refusals.add("uninvolved", "This is reached on one side.", "Leave the other side empty.");
    }
  }

  private static void value(
      String field, String what, BigDecimal number, boolean zeroFits, Refusals refusals) {
    boolean fits =
        number != null
            && number.signum() >= (zeroFits ? 0 : 1)
            && number.compareTo(MOST) <= 0
            && number.stripTrailingZeros().scale() <= PLACES;
    if (!fits) {
      refusals.add(
          field,
          what
              + " must be a number "
              + (zeroFits ? "from 0" : "above 0")
              + " to 10000 with at most 4 decimals.");
    }
  }
}
