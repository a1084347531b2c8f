package clinic.stimshelf.people;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.JustEntered;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.util.List;

/** What patients agreed to or refused. Written once; the latest of its kind counts. */
@ApplicationScoped
public class Consents {
  static final String SELF = "self";

  @Inject ConsentRows rows;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;
  @Inject JustEntered justEntered;

  /**
   * Whether the patient's latest word on taking a unit home is a yes.
   *
   * @param programId counts consents for this program and those for any; {@code null}: any alone
   */
  @Transactional
  public boolean loanConsentOnRecord(Long patientId, Long programId) {
    return rows.find(
            "patientId = ?1 and kind = ?2 and (programId is null or programId = ?3)"
                + " order by signedAt desc, id desc",
            patientId,
            ConsentKind.LOAN,
            programId == null ? -1L : programId)
        .firstResultOptional()
        .map(row -> row.given)
        .orElse(false);
  }

  /**
   * Records a consent or a refusal.
   *
   * @return its number; that of the known one where {@code ref} is known
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public Long record(NewConsent entry) {
    Long known = justEntered.find("consent", entry.ref());
    if (known == null && entry.ref() != null) {
      known = rows.find("ref", entry.ref()).firstResultOptional().map(row -> row.id).orElse(null);
    }
    if (known != null) {
      return known;
    }
    PatientView patient = patients.byId(entry.patientId());
    Refusals refusals = new Refusals();
    Happened happened =
        times.of(
            entry.happenedAt(), entry.lateReason(), locations.zone(patient.locationId()), refusals);
    check(entry, patient, happened, refusals);
    refusals.throwIfAny();
    Consent row = new Consent();
    row.ref = entry.ref();
    row.patientId = patient.id();
    row.kind = entry.kind();
    row.programId = entry.programId();
    row.given = entry.given();
    row.textVersion = entry.textVersion().strip();
    row.language = entry.language() == null ? patient.language() : entry.language();
    row.signer = entry.signer().strip();
    row.relation = entry.relation().strip();
    row.means = entry.means();
    row.signedAt = happened.at();
    row.recordedAt = clock.instant();
    row.recordedBy = signedIn.staffId();
    rows.persist(row);
    justEntered.add("consent", entry.ref(), row.id);
    if (entry.kind() == ConsentKind.REMINDERS) {
      patients.allowReminders(patient.id(), entry.given());
    }
    trail.record(
        Patients.subject(patient.id()),
        patient.locationId(),
        entry.given() ? "consent given" : "consent refused",
        happened,
        null,
        view(row));
    return row.id;
  }

  /** The patient's consents and refusals, newest first. */
  @Transactional
  public List<ConsentView> of(Long patientId) {
    patients.byId(patientId);
    return rows.list("patientId = ?1 order by signedAt desc, id desc", patientId).stream()
        .map(Consents::view)
        .toList();
  }

  private void check(NewConsent entry, PatientView patient, Happened happened, Refusals refusals) {
    if (entry.kind() == null) {
      refusals.add("kind", "Say what it is about: loan, treatment or reminders.");
    }
    if (entry.means() == null) {
      refusals.add("means", "Say whether it was signed on paper or on the screen.");
    }
    PatientChecks.length(
        entry.textVersion(), "textVersion", "The version of the text", 40, true, refusals);
    PatientChecks.length(entry.signer(), "signer", "Who signed", 120, true, refusals);
    PatientChecks.length(entry.relation(), "relation", "What the signer is", 60, true, refusals);
    if (entry.relation() != null
        && entry.relation().strip().equalsIgnoreCase(SELF)
        && patient.minorOn(
            java.time.LocalDate.ofInstant(happened.at(), locations.zone(patient.locationId())))) {
      refusals.add(
          "relation",
          "For somebody under " + Ages.OF_AGE + " a guardian signs.",
          patient.guardianName() == null
              ? "Name the guardian in the patient's entry."
              : "Let " + patient.guardianName() + " sign.");
    }
  }

  private static ConsentView view(Consent row) {
    return new ConsentView(
        row.id,
        row.kind,
        row.programId,
        row.given,
        row.textVersion,
        row.language,
        row.signer,
        row.relation,
        row.means,
        row.signedAt);
  }
}
