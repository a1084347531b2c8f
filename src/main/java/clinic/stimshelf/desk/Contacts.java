package clinic.stimshelf.desk;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.loans.LoanView;
import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.remind.ReminderBook;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Who was called about what, and what was said. Entries are only added. */
@ApplicationScoped
public class Contacts {
  private static final int LONGEST_NOTE = 500;

  @Inject ContactRows rows;
  @Inject Loans loans;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;
  @Inject ReminderBook reminders;

  /**
   * Logs an attempt to reach somebody.
   *
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   * @throws NotFound if there is no such loan or patient at the person's locations
   */
  @Transactional
  public ContactView log(NewContact entry) {
    Refusals refusals = new Refusals();
    if (entry.loanId() == null && entry.patientId() == null) {
      refusals.add("patientId", "Whom was it about?", "Name the loan or the patient.");
      refusals.throwIfAny();
    }
    LoanView loan = entry.loanId() == null ? null : loans.byId(entry.loanId());
    PatientView patient =
        patients.byId(loan == null ? entry.patientId() : Long.valueOf(loan.patientId()));
    if (entry.patientId() != null && !entry.patientId().equals(patient.id())) {
      refusals.add("patientId", "The loan is another patient's.", "Name one of the two only.");
    }
    Long placeId = loan == null ? patient.locationId() : locations.byCode(loan.location()).id();
    signedIn.requireLocation(placeId);
    Happened happened =
        times.of(entry.happenedAt(), entry.lateReason(), locations.zone(placeId), refusals);
    if (entry.outcome() == null) {
      refusals.add("outcome", "What became of the call?", "Choose one of the answers.");
    }
    if (entry.note() != null && entry.note().strip().length() > LONGEST_NOTE) {
      refusals.add("note", "The note may have at most " + LONGEST_NOTE + " characters.");
    }
    LocalDate today = locations.today(placeId);
    if (entry.promisedOn() != null && entry.promisedOn().isBefore(today)) {
      refusals.add(
          "promisedOn",
          "The promised day " + entry.promisedOn() + " has passed.",
          "Name today or a later day, or leave it empty.");
    }
    refusals.throwIfAny();
    Contact row = new Contact();
    row.locationId = placeId;
    row.patientId = patient.id();
    row.loanId = entry.loanId();
    row.outcome = entry.outcome();
    row.promisedOn = entry.promisedOn();
    row.note = entry.note() == null || entry.note().isBlank() ? null : entry.note().strip();
    row.happenedAt = happened.at();
    row.recordedAt = clock.instant();
    row.byName = signedIn.name();
    rows.persist(row);
    Map<String, Object> after = new HashMap<>();
    after.put("outcome", row.outcome);
    after.put("promisedOn", row.promisedOn);
    after.put("note", row.note);
    trail.record(
        loan == null ? Subject.of("patient", patient.id()) : Subject.of("loan", entry.loanId()),
        placeId,
        "contact logged",
        happened,
        null,
        after);
    reminders.called(patient.id(), row.loanId, row.outcome.reached());
    return row.view();
  }

  /** Contacts about a loan, newest first. */
  @Transactional
  public List<ContactView> aboutLoan(Long loanId) {
    return rows.list("loanId = ?1 order by happenedAt desc, id desc", loanId).stream()
        .map(Contact::view)
        .toList();
  }

  /** The last contact about each of the loans, in one question to the database. */
  @Transactional
  public Map<Long, ContactView> lastAbout(Collection<Long> loanIds) {
    Map<Long, ContactView> last = new HashMap<>();
    if (!loanIds.isEmpty()) {
      rows.list("loanId in ?1 order by happenedAt, id", loanIds)
          .forEach(row -> last.put(row.loanId, row.view()));
    }
    return last;
  }

  /**
   * Contacts at the locations, newest first.
   *
   * @param loanId only about this loan, or {@code null} for all
   * @param patientId only with this patient, or {@code null} for all
   */
  @Transactional
  public Page<ContactView> list(
      Collection<Long> locationIds, Long loanId, Long patientId, Paging paging) {
    Map<String, Object> values = new HashMap<>();
    StringBuilder where = new StringBuilder("locationId in :at");
    values.put("at", locationIds);
    if (loanId != null) {
      where.append(" and loanId = :loan");
      values.put("loan", loanId);
    }
    if (patientId != null) {
      where.append(" and patientId = :patient");
      values.put("patient", patientId);
    }
    List<ContactView> items =
        rows
            .find(where + " order by happenedAt desc, id desc", values)
            .page(paging.page(), paging.size())
            .stream()
            .map(Contact::view)
            .toList();
    return new Page<>(items, paging.page(), paging.size(), rows.count(where.toString(), values));
  }
}
